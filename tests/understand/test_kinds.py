"""A kind of note, a setting or a topic that any stage lacks is an error of the type checker."""

import re
import subprocess
import sys
from pathlib import Path

import voicecoach

PACKAGE = Path(voicecoach.__file__).parent
FORGOTTEN = {
    "head/decide.py": ("        case Measured():\n            return measured(head, note)\n", "Measured"),
    "describe/confirming.py": (
        "        case EndStarted():\n            return end_started(after, prefs)\n",
        "EndStarted",
    ),
    "session/settings.py": (
        "        case settings.Hours():\n            return _preferring(manner, hours=setting.value)\n",
        "Hours",
    ),
    "describe/answers.py": (
        '        case "ditch":\n            return TopicRow(_ditch, is_list=True)\n',
        "Literal['ditch']",
    ),
}
"""In which module which case is left out, and the kind that mypy must name."""


def test_mypy_names_the_kind_that_a_stage_forgot(tmp_path: Path) -> None:
    copies = []
    for module, (case, _) in FORGOTTEN.items():
        text = (PACKAGE / module).read_text(encoding="utf-8")
        assert case in text
        copies.append(tmp_path / f"without_{module.replace('/', '_')}")
        copies[-1].write_text(text.replace(case, ""), encoding="utf-8")
    told = subprocess.run(
        [sys.executable, "-m", "mypy", *map(str, copies)],
        cwd=PACKAGE.parent,
        capture_output=True,
        text=True,
        check=False,
    ).stdout
    for copy, (_, kind) in zip(copies, FORGOTTEN.values(), strict=True):
        assert re.search(
            rf'{copy.name}:\d+: error: Argument 1 to "assert_never" .* "{re.escape(kind)}"', told
        ), told
    assert f"Found {len(FORGOTTEN)} errors" in told

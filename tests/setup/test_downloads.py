"""The sources on a network: in their order, each with a time-out, nothing half-done left behind."""

import socket
import socketserver
import threading
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path

import pytest

from tests.setup.conftest import CONTENT, manifest_of, pack, use
from voicecoach import model_store
from voicecoach.errors import ModelProblem
from voicecoach.model_store import downloads
from voicecoach.model_store.manifest import faults, load

Answer = Callable[[socket.socket], None]


@contextmanager
def _server(answer: Answer) -> Iterator[str]:
    """A server on this machine that answers each request in a way of its own; gives its address."""

    class Handler(socketserver.BaseRequestHandler):
        def handle(self) -> None:
            self.request.recv(65536)
            answer(self.request)

    with socketserver.ThreadingTCPServer(("127.0.0.1", 0), Handler) as server:
        server.daemon_threads = True
        thread = threading.Thread(target=server.serve_forever, kwargs={"poll_interval": 0.01})
        thread.start()
        try:
            yield f"http://127.0.0.1:{server.server_address[1]}/tiny-model.zip"
        finally:
            server.shutdown()
            thread.join()


def _give(data: bytes, *, part: float = 1.0) -> Answer:
    def answer(connection: socket.socket) -> None:
        connection.sendall(b"HTTP/1.0 200 OK\r\nContent-Length: %d\r\n\r\n" % len(data))
        connection.sendall(data[: int(len(data) * part)])

    return answer


def _wait_for(event: threading.Event) -> None:
    event.wait(600)


def _mvn(folder: Path, script: str) -> None:
    """A stand-in for the mvn client, which does what the script says."""
    (folder / "bin").mkdir(exist_ok=True)
    client = folder / "bin" / "mvn"
    find_out = "for word; do case $word in -DoutputDirectory=*) out=${word#*=};; esac; done"
    client.write_text(f"#!/bin/sh\n{find_out}\n{script}\n")
    client.chmod(0o755)


def _is_empty(store: Path) -> bool:
    return {path.name for path in store.iterdir()} <= {"setup.lock"}


def test_the_models_own_home_comes_before_maven(
    store: Path,
    aar: Path,
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
    capsys: pytest.CaptureFixture[str],
) -> None:
    _mvn(tmp_path, "echo '[ERROR] asked although the home answers'; exit 1")
    archive = pack(tmp_path / "home.zip", "tiny-model/", CONTENT)
    with _server(_give(archive.read_bytes())) as home:
        use(manifest_of(aar, home), tmp_path, monkeypatch)
        model_store.fetch()
    assert not faults(store / "tiny-model", load(), thorough=True)
    assert "comes from its makers' home" in capsys.readouterr().err


@pytest.mark.parametrize("part", [0.0, 0.5, 0.99])
def test_an_interrupted_download_leaves_nothing_half_done(
    store: Path, aar: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, part: float
) -> None:
    archive = pack(tmp_path / "home.zip", "tiny-model/", CONTENT)
    with _server(_give(archive.read_bytes(), part=part)) as home:
        use(manifest_of(aar, home), tmp_path, monkeypatch)
        with pytest.raises(ModelProblem, match="could not be fetched"):
            model_store.fetch()
    assert _is_empty(store)


def test_a_server_that_never_answers_is_passed_over(
    store: Path, aar: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(downloads, "ANSWER_S", 0.3)
    silent = threading.Event()
    with _server(lambda connection: _wait_for(silent)) as home:
        use(manifest_of(aar, home), tmp_path, monkeypatch)
        with pytest.raises(ModelProblem, match="can't be reached"):
            model_store.fetch()
        silent.set()
    assert _is_empty(store)


def test_maven_is_asked_when_the_home_cannot_be_reached(
    store: Path, aar: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    _mvn(tmp_path, f"/bin/cp {aar} $out/")
    model_store.fetch()
    assert not faults(store / "tiny-model", load(), thorough=True)
    said = capsys.readouterr().err
    assert said.index("Trying its makers' home") < said.index("Trying Maven") < said.index("comes from Maven")


def test_a_maven_artifact_that_does_not_match_is_refused_and_named(store: Path, tmp_path: Path) -> None:
    _mvn(tmp_path, "echo tampered > $out/tiny-1.aar")
    with pytest.raises(ModelProblem, match=r"tiny-1\.aar was refused: it doesn't match its SHA-256"):
        model_store.fetch()
    assert _is_empty(store)


def test_mavens_own_reason_is_told(store: Path, tmp_path: Path) -> None:
    _mvn(tmp_path, "echo '[ERROR] Unknown host'; exit 1")
    with pytest.raises(ModelProblem, match="Maven failed: Unknown host"):
        model_store.fetch()


def test_a_slow_maven_is_heard_of(
    store: Path,
    aar: Path,
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
    capsys: pytest.CaptureFixture[str],
) -> None:
    monkeypatch.setattr(downloads, "SAY_EVERY_S", 0.1)
    _mvn(tmp_path, f"/bin/sleep 1.5; /bin/cp {aar} $out/")
    model_store.fetch()
    assert capsys.readouterr().err.count("Maven is fetching: ") >= 2


def test_a_maven_that_hangs_is_ended(store: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(downloads, "MAVEN_S", 0.3)
    _mvn(tmp_path, "/bin/sleep 600")
    began = time.monotonic()
    with pytest.raises(ModelProblem, match="didn't finish within"):
        model_store.fetch()
    assert time.monotonic() - began < 300
    assert _is_empty(store)


def test_with_no_source_the_message_lists_every_way(store: Path) -> None:
    with pytest.raises(ModelProblem) as problem:
        model_store.fetch()
    message = str(problem.value)
    assert problem.value.exit_status == 4
    assert "can't be reached" in message
    assert "there is no mvn on this machine" in message
    for way in ("voicecoach setup --model", "VOICECOACH_MODEL", "http://127.0.0.1:9/", "mvn dependency:copy"):
        assert way in message
    assert "voicecoach tell" in message

"""The two places the model can be fetched from: its own home, and Maven's repository.

This is the only module of the program that opens a connection.
"""

import os
import queue
import shutil
import signal
import subprocess
import threading
import time
import urllib.request
from http.client import HTTPException, HTTPResponse
from pathlib import Path
from typing import cast

import click

from voicecoach.errors import ModelProblem
from voicecoach.model_store.manifest import CHUNK, Manifest, sha256
from voicecoach.model_store.progress import Shown
from voicecoach.model_store.unpack import ModelRefused

ANSWER_S = 15.0
"""How long a server may take to answer, and to send each piece, so that a closed network is soon given up."""
MAVEN_S = 600.0
"""How long Maven may take for 41 megabytes and, the first time, for its own plugins."""
SAY_EVERY_S = 10.0
MAVEN_TIME_OUTS = (
    "-Dmaven.wagon.http.retryHandler.count=0",
    "-Dmaven.wagon.rto=30000",
    "-Daether.connector.connectTimeout=10000",
    "-Daether.connector.requestTimeout=30000",
)


def from_home(manifest: Manifest, folder: Path, *, plain: bool | None) -> Path:
    """Download the archive from the model's makers into `folder`."""
    archive = folder / manifest.home.rsplit("/", maxsplit=1)[-1]
    try:
        with _open(manifest.home) as response, archive.open("wb") as copy:
            length = response.headers.get("Content-Length", "")
            with Shown("speech model", int(length) if length.isdigit() else None, plain=plain) as progress:
                while chunk := response.read(CHUNK // 16):
                    copy.write(chunk)
                    progress.add(len(chunk))
    except (OSError, HTTPException) as error:
        raise ModelProblem(f"{manifest.home} can't be reached ({_reason(error)})") from error
    return archive


def _open(address: str) -> HTTPResponse:
    """Open the address. Its name is looked up in a thread, since a look-up has no time-out of its own."""
    answers: queue.Queue[HTTPResponse | Exception] = queue.Queue()

    def ask() -> None:
        try:
            answers.put(cast(HTTPResponse, urllib.request.urlopen(address, timeout=ANSWER_S)))
        except Exception as error:  # handed to the caller, which sorts it
            answers.put(error)

    threading.Thread(target=ask, daemon=True).start()
    try:
        answer = answers.get(timeout=ANSWER_S + 1)
    except queue.Empty:
        raise TimeoutError(f"no answer within {ANSWER_S:.0f} seconds") from None
    if isinstance(answer, Exception):
        raise answer
    return answer


def _reason(error: Exception) -> str:
    return str(getattr(error, "reason", None) or error) or type(error).__name__


def from_maven(manifest: Manifest, folder: Path, *, plain: bool | None) -> Path:
    """Copy the Maven artifact into `folder` through the mvn client, and check its hash."""
    client = shutil.which("mvn")
    if client is None:
        raise ModelProblem("Maven: there is no mvn on this machine")
    order = [client, "--batch-mode", "--quiet", *MAVEN_TIME_OUTS, "dependency:copy"]
    order += [f"-Dartifact={manifest.maven.artifact}", f"-DoutputDirectory={folder}"]
    _run(order, folder)
    archive = folder / manifest.maven.file_name
    if not archive.is_file():
        raise ModelProblem(f"Maven gave no {manifest.maven.file_name}")
    with archive.open("rb") as stream:
        if sha256(stream) != manifest.maven.sha256:
            raise ModelRefused(
                f"Maven's {manifest.maven.file_name} was refused: it doesn't match its SHA-256"
            )
    return archive


def _run(order: list[str], folder: Path) -> None:
    """Run Maven in a process group of its own, so that a time-out or an interrupt ends all of it."""
    with (folder / "maven.log").open("w+") as log:
        client = subprocess.Popen(
            order, stdin=subprocess.DEVNULL, stdout=log, stderr=log, cwd=folder, start_new_session=True
        )
        try:
            status = _wait(client)
        finally:
            _end(client)
        if status:
            log.seek(0)
            errors = [line.removeprefix("[ERROR]").strip() for line in log if line.startswith("[ERROR]")]
            raise ModelProblem(f"Maven failed: {errors[0] if errors else f'exit status {status}'}")


def _wait(client: subprocess.Popen[bytes]) -> int:
    """Wait for Maven. It doesn't tell how far it is, so a line now and then says that it goes on."""
    began = time.monotonic()
    while (waited := time.monotonic() - began) < MAVEN_S:
        try:
            return client.wait(timeout=min(SAY_EVERY_S, MAVEN_S - waited))
        except subprocess.TimeoutExpired:
            click.echo(f"Maven is fetching: {time.monotonic() - began:.0f} seconds so far", err=True)
    raise ModelProblem(f"Maven didn't finish within {MAVEN_S:.0f} seconds")


def _end(client: subprocess.Popen[bytes]) -> None:
    if client.poll() is not None:
        return
    if os.name == "posix":
        os.killpg(client.pid, signal.SIGTERM)
    else:
        client.terminate()
    client.wait()

"""Bad input by script, with counts: python -m tests.bench.fuzz. The same seed gives the same input."""

from __future__ import annotations

import resource
import tempfile
from collections import Counter
from pathlib import Path

import click

from tests.bench import fuzz_files, fuzz_notes, fuzz_waves
from tests.bench.fuzz_watch import only

MEMORY_MB = 400
"""What the whole run may come to hold."""


@click.command()
@click.option("--notes", default=100_000, show_default=True, help="Notes, typed and heard.")
@click.option("--files", default=10_000, show_default=True, help="Files of each kind.")
@click.option("--recordings", default=10_000, show_default=True, help="Recordings.")
@click.option("--seed", default=8, show_default=True, help="What fails says its seed and number.")
def main(notes: int, files: int, recordings: int, seed: int) -> None:
    """Notes, settings, profiles, stories, model manifests and recordings, random and mutated."""
    with tempfile.TemporaryDirectory() as folder:
        _tell("recordings", fuzz_waves.run(recordings, seed, Path(folder)))
        _tell("files", fuzz_files.run(files, seed, Path(folder)))
    with only():
        _tell("notes", fuzz_notes.run(notes, seed))
    memory = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1_024
    print(f"at most {memory:.0f} MB of memory; seed {seed}")
    assert memory < MEMORY_MB


def _tell(what: str, came: Counter[str]) -> None:
    counts = ", ".join(f"{count} {name}" for name, count in sorted(came.items()))
    print(f"{sum(came.values())} {what}: {counts}", flush=True)


if __name__ == "__main__":
    main()

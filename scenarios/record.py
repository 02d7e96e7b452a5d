"""Speak the stories of this folder into their recordings, with freely licensed synthetic voices.

Needs flite and espeak-ng on the path. Run: python scenarios/record.py
The recordings are kept in the repository, so this is only needed after a story changes.
"""

import subprocess
import sys
import tempfile
from pathlib import Path

import numpy as np
import soundfile
import soxr
import yaml

RATE_HZ = 16_000
QUIET_S = 0.6
"""Silence before and after: a recogniser loses words at a bare edge."""


def speak(voice: str, text: str, path: Path) -> None:
    """Render `text` with `voice`, such as `flite rms` or `espeak-ng en-gb`, into a WAV file."""
    engine, name = voice.split()
    if engine == "flite":
        command = ["flite", "-voice", name, "-t", text, "-o", str(path)]
    else:
        command = ["espeak-ng", "-v", name, "-s", "150", "-w", str(path), text]
    subprocess.run(command, check=True)


def record(story: Path) -> None:
    """Make every recording that `story` names, beside it."""
    for step in yaml.safe_load(story.read_text())["steps"]:
        if "audio" not in step:
            continue
        with tempfile.TemporaryDirectory() as folder:
            raw = Path(folder) / "raw.wav"
            speak(step["voice"], step["say"], raw)
            samples, rate_hz = soundfile.read(raw, dtype="float32")
        quiet = np.zeros(int(QUIET_S * RATE_HZ), dtype=np.float32)
        spoken = 0.5 * samples / np.max(np.abs(samples))
        sound = np.concatenate([quiet, soxr.resample(spoken, rate_hz, RATE_HZ), quiet])
        soundfile.write(story.parent / step["audio"], sound, RATE_HZ, subtype="PCM_16")


if __name__ == "__main__":
    stories = [Path(name) for name in sys.argv[1:]] or sorted(Path(__file__).parent.glob("*/story.yaml"))
    for each in stories:
        record(each)

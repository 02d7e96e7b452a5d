"""Where the bench keeps what it makes; git ignores all of it."""

from pathlib import Path

OUT = Path(__file__).parents[3] / "out" / "hearing"
VOICES = OUT / "voices"
"""What the registries' packages carry of the optional engines."""
SPEECH = OUT / "speech"
"""Spoken lines, a folder for each voice."""
RESULTS = OUT / "results"

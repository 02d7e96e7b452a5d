"""What is said after the computer slept: for how long nothing was heard."""

from voicecoach.phrasebook.numbers import cardinal

MINUTE_S = 60
HOUR_S = 3_600


def heard_nothing(seconds: float) -> str:
    """The sentence to speak, with the length in words."""
    return (
        f"The computer slept or stood still: nothing was heard for {_length(seconds)}. "
        "Say again what was said then."
    )


def _length(seconds: float) -> str:
    """Two or more of the largest unit that gives two or more."""
    for unit_s, unit in ((HOUR_S, "hours"), (MINUTE_S, "minutes")):
        if round(seconds / unit_s) >= 2:
            return f"{cardinal(round(seconds / unit_s))} {unit}"
    return f"{cardinal(max(2, round(seconds)))} seconds"

"""What is to be spoken."""

from voicecoach.understand.values import BowlName
from voicecoach.value import Value


class Sentence(Value):
    """One sentence for the ear, and the pause that follows it."""

    text: str
    """Plain words, ASCII apostrophes, no digits or symbols that a voice would stumble on."""
    pause_s: float = 0.3
    """Silence after it, seconds."""
    about: BowlName | None = None
    """The bowl it describes, if one."""
    place: tuple[float, float] | None = None
    """Where it lies from the jack (right, past), metres, for the stereo read-back."""

"""How a director judges distance and hour: a setting says it, the head goes by it."""

from voicecoach.value import Value


class Judging(Value):
    """How one director judges from one place, as found by a tape."""

    says: float = 1.0
    """Called distance for each metre of the true one: below 1 calls short."""
    relative_sd: float = 0.15
    """Relative standard deviation of a called distance."""
    floor_m: float = 0.06
    """Standard deviation of a called distance near the jack, metres: it never gets finer."""
    hour_shift: float = 0.0
    """Called hour less the true one, hours."""
    hour_sd: float = 0.0
    """Standard deviation of a called hour beyond what the hour's own width makes, hours."""


class Eye(Value):
    """A director's eye from the mat and from the head; None where no tape has said enough of it."""

    mat: Judging | None = None
    head: Judging | None = None

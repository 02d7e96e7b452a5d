"""Another bowl as the landmark: a place that was called from where that bowl lies, not from the jack.

The bowl's distance and direction are laid off from it as they are from the jack: short of it is straight
towards the mat, past it straight away, left and right across, seen from the mat. What is filed is the
place that this comes to.
"""

from voicecoach.head.bodies import find
from voicecoach.head.questions import refuse
from voicecoach.head.values import Figures, Head, Landmark, Refused
from voicecoach.understand.values import BowlName, Where


def landmark_of(head: Head, name: BowlName, where: Where) -> Landmark | Refused | None:
    """The bowl from which the place of `name` was called, as it lies now; None for a call from the jack."""
    if where.landmark is None:
        return None
    figures = Figures(bowl=where.landmark)
    if where.landmark == name:
        return refuse("landmark is itself", figures)
    bowl = find(head, where.landmark)
    if bowl is None:
        return refuse("landmark not called", figures)
    if bowl.place is None or head.jack.place is None:
        return refuse("landmark without a place", figures)
    right, past = bowl.place.seen_from(head.jack.place)
    return Landmark(name=where.landmark, right_m=right, past_m=past, calls=bowl.calls)

"""What a note says of a bowl's life: a toucher, dead and why, or in the ditch."""

from voicecoach.head.bodies import bowl_radius, jack_radius
from voicecoach.head.bounds import bowl_fate, ditch_edge_m
from voicecoach.head.clock import offset
from voicecoach.head.filing import FiledPlace, place_bowl
from voicecoach.head.questions import ask_fate
from voicecoach.head.settle import TOUCH
from voicecoach.head.values import AskBack, Bowl, Breach, Death, Head, Refused
from voicecoach.understand.notes.corrections import AboutABowl
from voicecoach.understand.values import DIRECTIONS, BowlMoved, BowlName, Corrected, Where

DEATHS: dict[Death, str] = {
    "in the ditch, not a toucher": "17.1.1",
    "under fourteen metres from the mat line": "17.1.3",
    "knocked out of the rink": "17.1.4",
    "out of the rink": "17.1.6",
}
"""Why a bowl is dead, and the law that says so."""
CALLED_DEAD: Death = "called dead"
DITCHED: Death = "in the ditch, not a toucher"


def law_of_death(bowl: Bowl) -> str | None:
    """The law that made the bowl dead, where one is known."""
    return DEATHS.get(bowl.why_dead) if bowl.why_dead else None


def touched(head: Head, note: Where) -> bool:
    """Whether the note makes its bowl a toucher: one that rests against the jack has touched it.

    A jack in the ditch makes no toucher: a bowl that comes to it there didn't touch it on the green (law
    14.1, and 38.5.3 calls a bowl that moves it there a non-toucher).
    """
    if "not a toucher" in note.remarks:
        return False
    return "toucher" in note.remarks or (head.jack.state != "ditch" and rests_against(note))


def rests_against(note: Where) -> bool:
    """Whether the bowl lies against the jack (and not against another bowl)."""
    if note.landmark is not None:
        return False
    return bool(TOUCH & set(note.remarks)) or note.gap_m == 0


def marked(head: Head, bowl: Bowl, note: AboutABowl) -> Bowl | AskBack | Refused:
    """The bowl where it lies, a toucher or none from now on; in the ditch its life hangs on that."""
    toucher = "toucher" in note.remarks
    changed = bowl.model_copy(update={"toucher": toucher})
    if toucher and bowl.why_dead == DITCHED:
        return with_life(head, changed, in_the_ditch(note))
    return dead(changed, DITCHED) if bowl.state == "ditch" and not toucher else changed


def in_the_ditch(note: AboutABowl) -> AboutABowl:
    """The same note about a bowl that lies in the ditch."""
    return note.model_copy(update={"remarks": (*note.remarks, "in the ditch")})


def with_life(head: Head, bowl: Bowl, note: AboutABowl) -> Bowl | AskBack | Refused:
    """The bowl as the note leaves it: dead, in the ditch, or placed on the green."""
    why = _why_dead(head, bowl, note)
    if why:
        return dead(bowl, why)
    if _meets_a_jack_in_the_ditch(head, bowl, note) and not isinstance(note, Corrected):
        return ask_fate(Breach(name="touches in the ditch", law="17.1.1"), note)
    name = BowlName(side=bowl.side, number=bowl.number)
    lying = "in the ditch" in note.remarks
    place = _ditch_place(head, name, note) if lying else place_bowl(head, name, note)
    if not isinstance(place, FiledPlace):
        return place
    return bowl.put_at(place.place).model_copy(
        update={
            "state": "ditch" if lying else "live",
            "why_dead": None,
            "as_called": place.call.landmark is None,
            "calls": (place.call,),
        }
    )


def dead(bowl: Bowl, why: Death) -> Bowl:
    """The same bowl, dead and without a place."""
    return bowl.model_copy(
        update={"x_m": None, "y_m": None, "state": "dead", "why_dead": why, "calls": (), "as_called": False}
    )


def _meets_a_jack_in_the_ditch(head: Head, bowl: Bowl, note: AboutABowl) -> bool:
    """Whether the bowl lies against a jack in the ditch, where only an earlier touch keeps it alive."""
    agreed = "live" in note.remarks or (not isinstance(note, Corrected) and note.confirmed)
    return head.jack.state == "ditch" and rests_against(note) and not (bowl.toucher or agreed)


def _why_dead(head: Head, bowl: Bowl, note: AboutABowl) -> Death | None:
    moved = isinstance(note, BowlMoved)
    if "out of the rink" in note.remarks:
        return "knocked out of the rink" if moved else "out of the rink"
    if "dead" in note.remarks:
        return _law_of_its_place(head, bowl, note, moved)
    if "in the ditch" in note.remarks and not bowl.toucher:
        return DITCHED
    return None


def _law_of_its_place(head: Head, bowl: Bowl, note: AboutABowl, moved: bool) -> Death:
    """Why a bowl called dead is dead: its place says so where one was called."""
    live = note.model_copy(update={"remarks": (*(r for r in note.remarks if r != "dead"), "live")})
    place = place_bowl(head, BowlName(side=bowl.side, number=bowl.number), live)
    fate = bowl_fate(head.game, place.place, moved) if isinstance(place, FiledPlace) else None
    laws = {law: why for why, law in DEATHS.items()}
    return laws[fate.law] if fate else CALLED_DEAD


def _ditch_place(head: Head, name: BowlName, note: AboutABowl) -> FiledPlace | AskBack | Refused:
    """Where a toucher lies in the ditch: as called, or straight past the jack just over the edge.

    The front ditch is past the jack, so a distance alone is taken towards 12 o'clock. With the jack
    in the ditch too nothing can be taken for granted: who holds may hang on it.
    """
    if note.landmark or (head.jack.state == "ditch" and not _has_direction(note)):
        return place_bowl(head, name, note)
    where: Where = note if _has_direction(note) else note.model_copy(update={"hour": 12.0})
    if note.gap_m is None and note.along_m is None:
        gap = _gap_to_the_ditch(head, where.hour or 12.0)
        where = where.model_copy(update={"gap_m": gap})
    placed = note.model_copy(update={"gap_m": where.gap_m, "hour": where.hour})
    return place_bowl(head, name, placed)


def _has_direction(note: Where) -> bool:
    said = set(note.remarks) & set(DIRECTIONS) - {"forehand", "backhand"}
    return note.hour is not None or note.along_m is not None or bool(said)


def _gap_to_the_ditch(head: Head, hour: float) -> float | None:
    """The gap of a bowl that lies just over the ditch's edge on this hour; None where that is unknown."""
    edge, jack = ditch_edge_m(head.game), head.jack.place
    past = offset(hour, 1.0)[1]
    if edge is None or jack is None or past < 0.1:
        return None
    distance = (edge + bowl_radius(head.game) - jack.y_m) / past
    return max(0.0, distance - bowl_radius(head.game) - jack_radius(head.game))

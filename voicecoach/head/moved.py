"""A bowl that lay: moved, knocked out, in the ditch, a toucher after all; or the whole head scattered."""

from voicecoach.head.bodies import bowl_radius, bowls_in_place, jack_in_place, name_of
from voicecoach.head.bounds import bowl_fate
from voicecoach.head.estimate import of_call
from voicecoach.head.filing import call_of, called
from voicecoach.head.lives import in_the_ditch, law_of_death, marked, touched, with_life
from voicecoach.head.merge import two_distances
from voicecoach.head.questions import ask, ask_fate, ask_whether, refuse
from voicecoach.head.room import free_place
from voicecoach.head.values import AskBack, Bowl, Call, Event, Figures, Head, Refused
from voicecoach.head.which import which
from voicecoach.understand.values import DIRECTIONS, BowlMoved, BowlName

MARKS = frozenset({"toucher", "not a toucher"})
_FATES = {"dead", "in the ditch", "out of the rink", "touching"}


def moved(head: Head, note: BowlMoved) -> Event | AskBack | Refused:
    """What became of a bowl that lay."""
    if head.finished:
        return refuse("end over")
    if note.scattered:
        return _scattered(head, note)
    bowl = _last_of(head, note) or which(head, note)
    if isinstance(bowl, BowlName):
        return _first_heard_of(head, bowl, note)
    if not isinstance(bowl, Bowl):
        return bowl
    if not _says_where(note) and not _FATES & set(note.remarks):
        return _only_marked(head, bowl, note)
    pushed = note.by and "jack high" not in note.remarks
    changed = _pushed(head, bowl, note) if pushed else _at_its_new_place(head, bowl, note)
    return _event(note, changed) if isinstance(changed, Bowl) else changed


def _last_of(head: Head, note: BowlMoved) -> Bowl | None:
    """The bowl of "it's a toucher": the last one, of that side where one was said."""
    if note.number is not None or not note.remarks or not MARKS.issuperset(note.remarks) or _says_where(note):
        return None
    return next((bowl for bowl in reversed(head.bowls) if note.side in (None, bowl.side)), None)


def delivered_last(head: Head, bowl: Bowl) -> bool:
    """Whether no other bowl has come to rest since."""
    return head.bowls[-1] is bowl


def _event(note: BowlMoved, bowl: Bowl) -> Event:
    return Event(note=note, bowl=name_of(bowl), bowls=(bowl,), law=law_of_death(bowl))


def _says_where(note: BowlMoved) -> bool:
    said_so = note.gap_m is not None or note.hour is not None or two_distances(note)
    return said_so or not set(DIRECTIONS).isdisjoint(note.remarks)


def _scattered(head: Head, note: BowlMoved) -> Event | Refused:
    """Clear the live bowls on the green: each is to be called again."""
    names = tuple(name_of(bowl) for bowl in head.bowls if bowl.state == "live")
    if not names:
        return refuse("no bowl here")
    return Event(note=note, dropped=names, scattered=(*head.scattered, *names))


def _first_heard_of(head: Head, name: BowlName, note: BowlMoved) -> Event | AskBack | Refused:
    """A bowl that nobody called before can only be filed where it lies now."""
    if note.by or not (_says_where(note) or _FATES & set(note.remarks)):
        return refuse("never called", Figures(bowl=name))
    blank = Bowl(side=name.side, number=name.number, x_m=None, y_m=None, said=called(note))
    bowl = with_life(head, blank, note)
    return _event(note, bowl) if isinstance(bowl, Bowl) else bowl


def _only_marked(head: Head, bowl: Bowl, note: BowlMoved) -> Event | AskBack | Refused:
    """A word about the bowl where it lies: a toucher or not, live after all."""
    marks = set(note.remarks)
    if "toucher" in marks and not (delivered_last(head, bowl) or note.confirmed):
        return ask_whether("late toucher", note, Figures(law="15.1"), ["15.1"])
    if marks & MARKS:
        law = "14.1" if "toucher" in marks else "15.1"
        changed = marked(head, bowl, note)
        if not isinstance(changed, Bowl):
            return changed
        said_of_it = in_the_ditch(note) if changed.state == "ditch" else note
        return _event(note, changed).model_copy(update={"law": law, "note": said_of_it})
    if "live" in marks and bowl.state == "ditch":
        return _event(note, bowl)
    if "live" in marks and bowl.place is not None:
        return _event(note, bowl.model_copy(update={"state": "live", "why_dead": None}))
    return ask("gap", "distance now", note)


def _at_its_new_place(head: Head, bowl: Bowl, note: BowlMoved) -> Bowl | AskBack | Refused:
    """Where it lies now; one that falls against the jack before the next bowl rests is a toucher."""
    marked = "toucher" in note.remarks or (touched(head, note) and delivered_last(head, bowl))
    known = bowl.model_copy(update={"toucher": bowl.toucher or marked, "said": called(note)})
    return with_life(head, known, note)


def _pushed(head: Head, bowl: Bowl, note: BowlMoved) -> Bowl | AskBack | Refused:
    """So far towards an hour from where it lay."""
    if _FATES & set(note.remarks):
        return with_life(head, bowl, note.model_copy(update={"gap_m": None, "hour": None, "by": False}))
    if bowl.place is None:
        return refuse("bowl dead", Figures(bowl=name_of(bowl)))
    call = call_of(head, name_of(bowl), note, note)
    if not isinstance(call, Call):
        return call
    call = call.model_copy(update={"by": True})
    others = bowls_in_place(head, without=name_of(bowl)) + jack_in_place(head)
    made = of_call(call, head.game.bowl_mm, head.game.jack_mm)
    spot = free_place(made, bowl.place, bowl_radius(head.game), others)
    if isinstance(spot, list):
        return ask("gap", "body in the way", _from_the_jack(note))
    fate = None if note.confirmed or "live" in note.remarks else bowl_fate(head.game, spot, moved=True)
    if fate:
        return ask_fate(fate, note)
    calls = (*bowl.calls, call)
    return bowl.put_at(spot).model_copy(update={"as_called": False, "calls": calls})


def _from_the_jack(note: BowlMoved) -> BowlMoved:
    return note.model_copy(update={"by": False, "gap_m": None, "hour": None})

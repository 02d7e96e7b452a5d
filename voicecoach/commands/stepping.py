"""Going through an end moment by moment, forward and back, in words and by voice."""

from typing import TextIO

from voicecoach import describe
from voicecoach.commands.telling import Teller
from voicecoach.commands.turns import one_turn
from voicecoach.head import picture
from voicecoach.printed import put
from voicecoach.session.talk import Talk, step
from voicecoach.session.values import Entry
from voicecoach.speak.mouth import Mouth

Moment = tuple[Entry, Talk]
HELP = (
    "Enter or next: the next moment. back: the one before. again: once more. "
    "then: as it was spoken then. stop: end."
)


def step_through(entries: tuple[Entry, ...], mouth: Mouth, answers: TextIO, since: int = 1) -> None:
    """Tell each moment from entry `since` on that changed the head; a line of `answers` says where to go.

    `then` speaks what was spoken at that moment; everything else is spoken as it would be now.
    """
    moments = [moment for moment in _moments(entries) if moment[0].number >= since]
    put(f"{len(moments)} moments. {HELP}")
    if not moments:
        return
    at = 0
    with Teller(mouth) as teller:
        _tell(moments[at], teller)
        for line in answers:
            word = line.strip().lower() or "next"
            if word in ("stop", "end", "quit"):
                return
            if word == "then":
                _then(moments[at], teller)
                continue
            went = {"next": at + 1, "back": at - 1, "again": at}.get(word)
            if went is None:
                put(HELP)
            elif 0 <= went < len(moments):
                at = went
                _tell(moments[at], teller)
            else:
                put("There is no moment further that way.")


def _moments(entries: tuple[Entry, ...]) -> list[Moment]:
    """Every entry that changed the head, with the talk after it."""
    talk, found = Talk(), []
    for entry in entries:
        before, talk = talk, step(talk, entry)
        if talk.play.head != before.play.head:
            found.append((entry, talk))
    return found


def _tell(moment: Moment, teller: Teller) -> None:
    entry, talk = moment
    put("\n".join(one_turn(entry)))
    teller.tell(describe.read_back(picture(talk.play.head), talk.manner.prefs))


def _then(moment: Moment, teller: Teller) -> None:
    entry, _ = moment
    teller.tell((*entry.say, *entry.say_to_player))

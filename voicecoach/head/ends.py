"""An end finished, with its shots; and the next one begun."""

from voicecoach.head.holding import counted
from voicecoach.head.order import bowls_a_side
from voicecoach.head.picture import picture
from voicecoach.head.questions import Offer, ask, ask_whether, refuse
from voicecoach.head.values import (
    AskBack,
    Asked,
    ByPlaces,
    EndScore,
    EndsLeft,
    Event,
    Fact,
    Figures,
    Game,
    Head,
    Refused,
    Score,
)
from voicecoach.understand.values import EndFinished, EndStarted, Side

Shots = tuple[Side | None, int]


def finished(head: Head, note: EndFinished) -> Event | AskBack | Refused:
    """The end is over: its shots as agreed on the green, else as the laws count the places called."""
    if head.finished:
        return refuse("end over, score or next")
    dead = head.jack.state == "dead"
    if dead and note.shots and not note.confirmed:
        return ask_whether("score a dead end", note, laws=["20"])
    if note.replayed or (dead and not note.shots):
        return Event(note=note, end=head.end, law="20", remarks=("end played again",))
    agreed = _agreed(head, note)
    if not isinstance(agreed, tuple):
        return agreed
    most = bowls_a_side(head.game)
    if agreed[1] > most and not note.confirmed:
        return ask_whether("too many shots", note, Figures(shots=agreed[1], count=most))
    return _scored(head, note, agreed)


def _scored(head: Head, note: EndFinished, agreed: Shots) -> Event:
    """The score with this end in it; the side that scored leads the next (law 5.4)."""
    side, shots = agreed
    this = EndScore(end=head.end, side=side if shots else None, shots=shots)
    score = _with_end(head.score, this).model_copy(update={"ends": head.score.ends + 1})
    return Event(
        note=note,
        score=score,
        finished=True,
        lead=side if shots else None,
        law="23" if shots else "24",
        remarks=(*_difference(head, agreed), *_game_so_far(head.game, score)),
    )


def _with_end(score: Score, this: EndScore) -> Score:
    """The score with one end in it, or with that end as it is now known."""
    before = next((each for each in score.by_end if each.end == this.end), None)
    total = {"ours": score.ours, "theirs": score.theirs}
    if before is not None and before.side:
        total[before.side] -= before.shots
    if this.side:
        total[this.side] += this.shots
    ends = tuple(this if each.end == this.end else each for each in score.by_end)
    return score.model_copy(update={**total, "by_end": ends if before else (*ends, this)})


def scored_earlier(head: Head, note: EndFinished) -> Event | AskBack | Refused:
    """Another score for an end that was finished before: it replaces the one noted."""
    ends = [each.end for each in head.score.by_end]
    number = ends[-1] if note.end == "last" and ends else note.end
    if number not in ends:
        return refuse("end not scored")
    if note.shots is None or (note.shots and note.side is None):
        return refuse("score not said")
    side: Side | None = note.side if note.shots else None
    score = _with_end(head.score, EndScore(end=int(number), side=side, shots=note.shots))
    last_scored = next((each.side for each in reversed(score.by_end) if each.side), None)
    leads = last_scored if ends[-1] >= head.end - 1 and last_scored != head.lead else None
    return Event(note=note.model_copy(update={"end": number}), score=score, lead=leads)


def started(head: Head, note: EndStarted) -> Event | AskBack:
    """The next end: the green is clear, the score stays. It is played the other way, in its own frame."""
    if not head.bowls and not head.finished and not head.jack_moves and head.jack.state == "live":
        return Event(note=note, end=head.end)
    if head.jack.state == "dead" and not head.finished:
        return Event(note=note, end=head.end, law="20", remarks=("end played again",))
    if head.finished:
        return _after(head, note)
    left = _uncalled(head)
    if left and not note.confirmed:
        return ask_whether("next end early", note, Figures(count=left))
    return Event(note=note, end=head.end + 1, remarks=("no score noted",))


def _after(head: Head, note: EndStarted) -> Event | AskBack:
    """The end after a finished one: the extra end of a level game has no leader until a toss decides."""
    if is_over(head.game, head.score) and not note.confirmed:
        return ask_whether("another end", note)
    extra = needs_an_extra_end(head.game, head.score)
    return Event(note=note, end=head.end + 1, tossed=extra, remarks=("toss",) if extra else ())


def is_over(game: Game, score: Score) -> bool:
    """Whether the game has reached its ends, and isn't level, or its shots."""
    by_ends = game.ends is not None and score.ends >= game.ends and score.ours != score.theirs
    by_shots = game.up_to is not None and max(score.ours, score.theirs) >= game.up_to
    return by_ends or by_shots


def needs_an_extra_end(game: Game, score: Score) -> bool:
    """Whether the game is level after its last end: an extra one decides it, and a toss who leads that."""
    return game.ends is not None and score.ends >= game.ends and score.ours == score.theirs


def _agreed(head: Head, note: EndFinished) -> Shots | AskBack | Refused:
    """Side and shots: what was said of them, the rest as counted where the count is sure enough."""
    if note.shots is not None:
        return _whose(head, note, note.shots)
    if not head.bowls and note.side is None:
        return refuse("nobody called")
    if note.side not in (None, counted(head)[0]):
        return _how_many(head, note)
    return counted(head) if note.confirmed else _sure_enough(head, note)


def _sure_enough(head: Head, note: EndFinished) -> Shots | AskBack:
    """The count by the places called, unless bowls are missing (law 23.1) or it is too close to call."""
    left, now = _uncalled(head), picture(head).holding
    sure = now is not None and now.sure and now.shots is not None
    side, shots = counted(head)
    if left:
        asks: Asked = "count early" if sure else "count early and close"
        return ask_whether(asks, note, Figures(count=left, side=side, shots=shots), ["23.1"])
    if sure:
        return side, shots
    if note.side is not None:
        return _how_many(head, note)
    return ask_whether("close count", note, Figures(side=side, shots=shots))


def _how_many(head: Head, note: EndFinished) -> AskBack:
    offers: list[Offer] = [
        (count, note.model_copy(update={"shots": count})) for count in range(1, bowls_a_side(head.game) + 1)
    ]
    return ask("choice", "how many shots", note, offers)


def _whose(head: Head, note: EndFinished, shots: int) -> Shots | AskBack | Refused:
    if shots < 0:
        return refuse("shots under none")
    if not shots:
        return None, 0
    if note.side is not None:
        return note.side, shots
    now = picture(head).holding
    if now is not None and now.sure and now.side is not None:
        return now.side, shots
    sides: tuple[Side, ...] = ("ours", "theirs")
    offers: list[Offer] = [(side, note.model_copy(update={"side": side})) for side in sides]
    return ask("side", "whose shots", note, offers, Figures(shots=shots))


def _difference(head: Head, agreed: Shots) -> tuple[Fact, ...]:
    """Point out where the places called say otherwise."""
    laws = counted(head)
    if not head.bowls or laws == (agreed if agreed[1] else (None, 0)):
        return ()
    return (ByPlaces(side=laws[0], by_places=laws[1]),)


def _game_so_far(game: Game, score: Score) -> tuple[Fact, ...]:
    if is_over(game, score):
        return ("game over",)
    if needs_an_extra_end(game, score):
        return ("level",)
    if game.ends is None:
        return ()
    return (EndsLeft(ends_left=game.ends - score.ends),)


def _uncalled(head: Head) -> int:
    """Bowls that the format has and that nobody called; none while no format is set."""
    return max(0, 2 * bowls_a_side(head.game) - len(head.bowls)) if head.game.format else 0

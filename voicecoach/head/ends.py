"""An end finished, with its shots; and the next one begun."""

from voicecoach.head.holding import counted
from voicecoach.head.order import bowls_a_side
from voicecoach.head.picture import picture
from voicecoach.head.questions import Offer, ask, ask_whether, refuse
from voicecoach.head.values import (
    AskBack,
    ByPlaces,
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
    added: dict[str, int] = {side: getattr(head.score, side) + shots} if side and shots else {}
    score = head.score.model_copy(update={"ends": head.score.ends + 1, **added})
    return Event(
        note=note,
        score=score,
        finished=True,
        lead=side if shots else None,
        law="23" if shots else "24",
        remarks=(*_difference(head, agreed), *_game_so_far(head.game, score)),
    )


def started(head: Head, note: EndStarted) -> Event | AskBack:
    """The next end: the green is clear, the score stays. It is played the other way, in its own frame."""
    if not head.bowls and not head.finished and not head.jack_moves and head.jack.state == "live":
        return Event(note=note, end=head.end)
    if head.jack.state == "dead" and not head.finished:
        return Event(note=note, end=head.end, law="20", remarks=("end played again",))
    if head.finished:
        if is_over(head.game, head.score) and not note.confirmed:
            return ask_whether("another end", note)
        return Event(note=note, end=head.end + 1)
    left = _uncalled(head)
    if left and not note.confirmed:
        return ask_whether("next end early", note, Figures(count=left))
    return Event(note=note, end=head.end + 1, remarks=("no score noted",))


def is_over(game: Game, score: Score) -> bool:
    """Whether the game has reached its ends or its shots."""
    by_ends = game.ends is not None and score.ends >= game.ends
    by_shots = game.up_to is not None and max(score.ours, score.theirs) >= game.up_to
    return by_ends or by_shots


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
    if left:
        return ask_whether("count early", note, Figures(count=left), ["23.1"])
    if now is not None and now.sure and now.shots is not None:
        return counted(head)
    if note.side is not None:
        return _how_many(head, note)
    side, shots = counted(head)
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
    if game.ends is None:
        return ()
    return (EndsLeft(ends_left=game.ends - score.ends),)


def _uncalled(head: Head) -> int:
    """Bowls that the format has and that nobody called; none while no format is set."""
    return max(0, 2 * bowls_a_side(head.game) - len(head.bowls)) if head.game.format else 0

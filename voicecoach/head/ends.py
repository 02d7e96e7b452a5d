"""An end finished, with its shots; and the next one begun."""

from voicecoach.head.holding import counted
from voicecoach.head.order import bowls_a_side
from voicecoach.head.picture import picture
from voicecoach.head.questions import ask, ask_whether, refuse
from voicecoach.head.spoken import number as number_words
from voicecoach.head.spoken import shots as shots_words
from voicecoach.head.values import Ask, Event, Game, Head, Refused, Score
from voicecoach.understand.values import EndFinished, EndStarted, Side

Shots = tuple[Side | None, int]


def finished(head: Head, note: EndFinished) -> Event | Ask | Refused:
    """The end is over: its shots as agreed on the green, else as the laws count the places called."""
    if head.finished:
        return refuse("This end is finished already: correct its score, or say next end.")
    dead = head.jack.state == "dead"
    if dead and note.shots and not note.confirmed:
        return ask_whether("the jack is dead, and with it the end. Score it all the same?", note, ["20"])
    if note.replayed or (dead and not note.shots):
        return Event(note=note, end=head.end, law="20", remarks=("the end is played again",))
    agreed = _agreed(head, note)
    if not isinstance(agreed, tuple):
        return agreed
    most = bowls_a_side(head.game)
    if agreed[1] > most and not note.confirmed:
        text = f"{shots_words(agreed[1])} with {number_words(most)} bowls a side: is that right?"
        return ask_whether(text, note)
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


def started(head: Head, note: EndStarted) -> Event | Ask:
    """The next end: the green is clear, the score stays. It is played the other way, in its own frame."""
    if not head.bowls and not head.finished and not head.jack_moves and head.jack.state == "live":
        return Event(note=note, end=head.end)
    if head.jack.state == "dead" and not head.finished:
        return Event(note=note, end=head.end, law="20", remarks=("the end is played again",))
    if head.finished:
        if is_over(head.game, head.score) and not note.confirmed:
            return ask_whether("the game is over. Start another end all the same?", note)
        return Event(note=note, end=head.end + 1)
    left = _uncalled(head)
    if left and not note.confirmed:
        return ask_whether(f"{_not_called(left)}. Start the next end?", note)
    return Event(note=note, end=head.end + 1, remarks=("no score was noted for the last end",))


def is_over(game: Game, score: Score) -> bool:
    """Whether the game has reached its ends or its shots."""
    by_ends = game.ends is not None and score.ends >= game.ends
    by_shots = game.up_to is not None and max(score.ours, score.theirs) >= game.up_to
    return by_ends or by_shots


def in_words(shots: Shots) -> str:
    """Whose shots, how many."""
    side, count = shots
    if side is None or not count:
        return "no shot"
    return f"{shots_words(count)} to {'us' if side == 'ours' else 'them'}"


def _agreed(head: Head, note: EndFinished) -> Shots | Ask | Refused:
    """Side and shots: what was said of them, the rest as counted where the count is sure enough."""
    if note.shots is not None:
        return _whose(head, note, note.shots)
    if not head.bowls and note.side is None:
        return refuse("No bowl was called in this end: say who scored, and how many shots.")
    if note.side not in (None, counted(head)[0]):
        return _how_many(head, note)
    return counted(head) if note.confirmed else _sure_enough(head, note)


def _sure_enough(head: Head, note: EndFinished) -> Shots | Ask:
    """The count by the places called, unless bowls are missing (law 23.1) or it is too close to call."""
    left, now = _uncalled(head), picture(head).holding
    if left:
        return ask_whether(f"{_not_called(left)}. Count the end as it lies?", note, ["23.1"])
    if now is not None and now.sure and now.shots is not None:
        return counted(head)
    text = f"by the places called it is {in_words(counted(head))}, but it is too close to call from here."
    return ask_whether(f"{text} Count it so?", note) if note.side is None else _how_many(head, note)


def _how_many(head: Head, note: EndFinished) -> Ask:
    choices = [
        (number_words(count), note.model_copy(update={"shots": count}))
        for count in range(1, bowls_a_side(head.game) + 1)
    ]
    return ask("choice", "how many shots?", note, choices)


def _whose(head: Head, note: EndFinished, shots: int) -> Shots | Ask | Refused:
    if shots < 0:
        return refuse("Shots are counted from none: say how many.")
    if not shots:
        return None, 0
    if note.side is not None:
        return note.side, shots
    now = picture(head).holding
    if now is not None and now.sure and now.side is not None:
        return now.side, shots
    choices = [(side, note.model_copy(update={"side": side})) for side in ("ours", "theirs")]
    return ask("side", f"{shots_words(shots)} to which side?", note, choices)


def _difference(head: Head, agreed: Shots) -> tuple[str, ...]:
    """Point out where the places called say otherwise."""
    laws = counted(head)
    if not head.bowls or laws == (agreed if agreed[1] else (None, 0)):
        return ()
    return (f"by the places called it is {in_words(laws)}",)


def _game_so_far(game: Game, score: Score) -> tuple[str, ...]:
    if is_over(game, score):
        return ("the game is over",)
    if game.ends is None:
        return ()
    left = game.ends - score.ends
    return (f"{number_words(left)} {'end' if left == 1 else 'ends'} left",)


def _uncalled(head: Head) -> int:
    """Bowls that the format has and that nobody called; none while no format is set."""
    return max(0, 2 * bowls_a_side(head.game) - len(head.bowls)) if head.game.format else 0


def _not_called(left: int) -> str:
    return "one bowl has not been called" if left == 1 else f"{number_words(left)} bowls have not been called"

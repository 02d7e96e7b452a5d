"""Confirmations of notes about the game and its ends, and the game read back."""

from voicecoach.describe.bowls import bowl_name, side_name
from voicecoach.describe.called import called_hour
from voicecoach.describe.distances import as_called, family, own_unit, worked_out
from voicecoach.describe.values import Preferences
from voicecoach.head.values import AimAdvice, Event, Game, Head, Picture, Score
from voicecoach.phrasebook.numbers import cardinal, spoken
from voicecoach.phrasebook.wording import capitals, sentence, words
from voicecoach.understand.values import EndFinished, GameSet, Measured, Where

_AIM_SD_M = 0.005  # a toe is moved by the centimetre
_MARK_SD_M = 0.1


def game_words(note: GameSet, prefs: Preferences) -> str:
    """What was set, read back."""
    parts = game_parts(Game.model_validate(_given(note)), prefs)
    return " ".join(parts) if parts else sentence("confirm.game unchanged")


def score_words(score: Score, prefs: Preferences) -> str:
    """`ours fourteen, theirs nine`."""
    return words(
        "score.both",
        us=side_name("ours", prefs, "ours"),
        ours=cardinal(score.ours),
        them=side_name("theirs", prefs, "ours"),
        theirs=cardinal(score.theirs),
    )


def game_parts(game: Game, prefs: Preferences) -> tuple[str, ...]:
    """One short sentence for each thing about the game that is set."""
    said = [words(f"game.format.{game.format}") if game.format else None]
    said.append(_counted("bowls each", game.bowls_each))
    said.append(words("game.lead", side=side_name(game.lead, prefs, "lead")) if game.lead else None)
    said += [
        _length("mat", game.mat_m),
        _length("jack", game.jack_m),
        _length("rink", game.rink_m),
        _length("green", game.green_m),
    ]
    said += [_millimetres(game), words(f"game.hand.{game.hand}") if game.hand else None]
    said += [words("game.respot") if game.respot else None]
    said += [_counted("ends", game.ends), _counted("up to", game.up_to)]
    return tuple(capitals(text) for text in said if text)


def _given(note: GameSet) -> dict[str, object]:
    """The note's own settings; what was not said is left at the game's defaults."""
    skip = {"kind", "confirmed"}
    return {name: value for name, value in note.model_dump(exclude=skip).items() if value is not None}


def _counted(key: str, count: int | None) -> str | None:
    if count is None:
        return None
    return words(f"game.{key}.one") if count == 1 else words(f"game.{key}.many", count=cardinal(count))


def _length(key: str, length_m: float | None) -> str | None:
    return None if length_m is None else words(f"game.{key}", length=length_words(length_m))


def length_words(length_m: float) -> str:
    """A called length, in feet where it is no round number of metres and one of feet."""
    return as_called(length_m, own_unit(length_m, "m", 1.0), 1.0)


def _millimetres(game: Game) -> str | None:
    """Sizes of bowl and jack, only where they are not the usual ones."""
    usual = Game()
    sizes = [("bowl size", game.bowl_mm, usual.bowl_mm), ("jack size", game.jack_mm, usual.jack_mm)]
    said = [words(f"game.{key}", size=spoken(size)) for key, size, default in sizes if size != default]
    return " ".join(said) or None


def end_finished(note: EndFinished, after: Head, prefs: Preferences) -> str:
    """Who scored how many in which end, and the score."""
    number = note.end if isinstance(note.end, int) else after.end
    end = cardinal(number)
    if note.replayed:
        return sentence("confirm.end replayed", end=end)
    score = score_words(after.score, prefs)
    brought = next((each for each in after.score.by_end if each.end == number), None)
    if brought is None or brought.side is None:
        return sentence("confirm.end no score", end=end, score=score)
    us, shots = side_name(brought.side, prefs, "us"), cardinal(brought.shots)
    return sentence("confirm.end scored", end=end, shots=shots, us=us, score=score)


def end_started(after: Picture, prefs: Preferences) -> str:
    """Which end it is, and who leads it."""
    end = cardinal(after.head.end)
    if after.head.lead is None:
        return sentence("confirm.end started", end=end)
    return sentence("confirm.end led", end=end, lead=side_name(after.head.lead, prefs, "lead"))


def measured_words(note: Measured, event: Event, after: Picture, prefs: Preferences) -> str:
    """The tape's figure, or its order; nothing where it gave neither."""
    if event.bowl is None:
        return ""
    name = bowl_name(event.bowl.side, event.bowl.number, prefs)
    if note.nearer_than is not None:
        other = bowl_name(note.nearer_than.side, note.nearer_than.number, prefs)
        return sentence("confirm.measured nearer", name=name, other=other)
    if note.gap_m is None:
        return ""
    distance = as_called(note.gap_m, note.unit, after.head.game.bowl_mm / 1000)
    if note.hour is None:
        return sentence("confirm.measured", name=name, distance=distance)
    said = Where(hour=note.hour)
    seen = said.turned() if after.head.game.stood == "head" else said
    return sentence(
        "confirm.measured at", name=name, distance=distance, hour=called_hour(seen.hour or note.hour, 0.0)
    )


def aim_words(aim: AimAdvice, prefs: Preferences) -> str:
    """How far to move the mark and which way, with its spread; or to leave it."""
    if aim.leave_it:
        return sentence("aim.leave")
    kind = family(None, prefs.units)
    moved = sentence(
        "aim.move",
        distance=worked_out(aim.shift_m, _AIM_SD_M, kind),
        side=words(f"side.{aim.towards}"),
        at=worked_out(aim.at_m, _MARK_SD_M, kind),
    )
    return f"{moved} {sentence('aim.spread', spread=worked_out(aim.spread_m, _AIM_SD_M, kind))}"

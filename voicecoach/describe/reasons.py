"""Why the head refuses or asks back, in words; the answers that a question offers; facts beside a note."""

from voicecoach.describe.bowls import bowl_name, side_name
from voicecoach.describe.confirming_game import score_words
from voicecoach.describe.hours import spoken_hour
from voicecoach.describe.values import Preferences
from voicecoach.head.values import Answer, AskBack, Breach, ByPlaces, EndsLeft, Fact, Figures, Refused, Score
from voicecoach.phrasebook.numbers import cardinal, metres, millimetres, without_digits
from voicecoach.phrasebook.wording import capitals, wording, words
from voicecoach.understand.values import BowlName, OpenQuestion, Side

_PLAIN = Preferences()
"""Questions and refusals name the sides as the phrase book reads them in an answer: ours and theirs."""


def refusal_words(refused: Refused) -> str:
    """What is wrong and what to do."""
    return capitals(words(f"refused.{refused.why}", **_slots(refused.figures)))


def opened(ask: AskBack) -> OpenQuestion:
    """The head's question with its words, as it is spoken, kept, and answered."""
    answers = tuple(_answer(ask, means) for means in ask.answers)
    slots = {**_slots(ask.figures), "answers": words("ask.or").join(answers)}
    return OpenQuestion(
        slot=ask.slot,
        choices=ask.choices,
        answers=answers,
        pending=ask.pending,
        ask=capitals(words(f"asked.{ask.asks}", **slots)),
    )


def fact_words(fact: Fact, prefs: Preferences = _PLAIN) -> str:
    """A fact worth saying, without its full stop."""
    if isinstance(fact, EndsLeft):
        key = "fact.ends left.one" if fact.ends_left == 1 else "fact.ends left.many"
        return words(key, count=cardinal(fact.ends_left))
    if isinstance(fact, ByPlaces):
        return words("fact.by places", shots=_shots_to(fact.side, fact.by_places, prefs))
    return without_digits(wording().get(f"fact.{fact}", fact))


def _answer(ask: AskBack, means: Answer) -> str:
    """The words that choose one answer, in the phrase book's spelling."""
    if isinstance(means, BowlName):
        return bowl_name(means.side, means.number, _PLAIN)
    if isinstance(means, int):
        return spoken_hour(float(means)) if ask.slot == "hour" else cardinal(means)
    return words(f"answers.{means}")


def _slots(figures: Figures) -> dict[str, str]:
    """The words for whatever a reason is about."""
    bowl, shots = figures.bowl, figures.shots
    count = figures.count or 0
    return {
        "bowl": bowl_name(bowl.side, bowl.number, _PLAIN) if bowl else words("body.bowl"),
        "body": bowl_name(bowl.side, bowl.number, _PLAIN) if bowl else words("body.jack"),
        "law": words("law", law=without_digits(figures.law)) if figures.law else "",
        "count": cardinal(count),
        "uncalled": words("uncalled.one" if count == 1 else "uncalled.many", count=cardinal(count)),
        "shots": _shots(shots or 0),
        "shots_to": _shots_to(figures.side, shots or 0),
        "game": figures.format or words("body.end"),
        "breaches": words("breach.joint").join(breach_words(breach) for breach in figures.breaches),
        "broken": _broken(figures.breaches[0]) if figures.breaches else "",
        "fate": _fate(figures.breaches[0]) if figures.breaches else "",
        **_totals(figures),
        "missing": words(f"missing.{figures.missing}") if figures.missing else "",
    }


def _totals(figures: Figures) -> dict[str, str]:
    """The score as added up, and as told."""
    added, told = figures.totals or (Score(), Score())
    return {"added": score_words(added, _PLAIN), "told": score_words(told, _PLAIN)}


def _shots(count: int) -> str:
    return words("shots.one" if count == 1 else "shots.many", count=cardinal(count))


def _shots_to(side: Side | None, count: int, prefs: Preferences = _PLAIN) -> str:
    """How many shots to whom; `no shot` for none."""
    if side is None or not count:
        return words("shots.none")
    return words("shots.to", shots=_shots(count), us=side_name(side, prefs, "us"))


def breach_words(breach: Breach) -> str:
    """A figure that a law doesn't allow, with the law."""
    law = words("law", law=without_digits(breach.law))
    return words("breach.with law", breach=_broken(breach), law=law)


def _broken(breach: Breach) -> str:
    say = millimetres if breach.name in ("bowl size", "jack size") else metres
    low, high = breach.bounds or (0.0, 0.0)
    return words(f"breach.{breach.name}", figure=say(breach.figure or 0.0), low=say(low), high=say(high))


def _fate(breach: Breach) -> str:
    """Why a law makes a body dead."""
    law = words("law", law=without_digits(breach.law))
    return words("breach.makes dead", breach=_broken(breach), law=law)

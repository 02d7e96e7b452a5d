"""Pools the meanings of all readings of one utterance, and weighs accepting, asking and dropping."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Mapping, Sequence
from math import exp
from typing import Literal, NamedTuple

from voicecoach.hear.values import ANSWERS
from voicecoach.understand.costs import Costs
from voicecoach.understand.meaning import Meaning
from voicecoach.understand.notes.any_setting import AnySetting
from voicecoach.understand.notes.bowls import is_nameless, lacks_an_owner
from voicecoach.understand.plausible import plausibility
from voicecoach.understand.values import Expected, Note, says_all_of

SHORT = 2
"""Words of a setting that talk holds by chance; "say your and their" is no chance."""

MOST = 0.5
"""A share of the votes that only a meaning heard by more than half of the decodes has."""

ANSWER_VOTES = 6.0
OTHERS_VOTE = 0.3
"""The votes of the decode that hears only answers, where it hears one, and of one that hears another note.

The lists of the other decodes hold notes: "yes" alone is heard as "yours".
"""

LOST = 0.05
"""Belief in a note of the same words, or that says the same, and more, from which on a word may be lost."""
RIVAL = 0.2
"""Belief in any other meaning, from which on the words are not trusted alone."""

Choice = Literal["accept", "ask", "drop", "unclear"]


class Read(NamedTuple):
    """One reading's words, its decode and weight, and the meanings of its words, cheapest first."""

    decode: str
    words: str
    weight: float
    meanings: Sequence[tuple[float, Meaning]]
    pace: float = 1.0
    """The share that is left of it, given how long its words took."""


class Belief(NamedTuple):
    """A meaning, how likely it is, and the words it was most likely said in."""

    meaning: Meaning
    probability: float
    words: str


def pool(reads: Iterable[Read], expected: Expected, costs: Costs, lowest: float = 0.0) -> list[Belief]:
    """One distribution over meanings from every decode, likeliest first; what is missing to 1 is no note.

    Every decode has one vote, spread over its meanings; for an open question's answers, see `_votes`.
    Readings that mean nothing take of it only where they are likelier than those that mean something: most
    of them are the same sounds in other letters. Where the decodes don't all agree, `lowest`, the main
    decode's lowest confidence in a word, helps its own meaning.
    """
    grouped = by_decode(reads)
    votes = _votes(grouped, expected)
    found: dict[Meaning, list[Belief]] = {}
    for read in (each for alike in grouped.values() for each in _sounding_alike(alike)):
        for meaning, part in _shares(read.meanings, expected, costs):
            belief = Belief(meaning, read.weight * read.pace * part * votes[read.decode], read.words)
            metric = meaning._replace(note=in_metres(meaning.note))
            found.setdefault(metric, []).append(belief)
    beliefs = [_pooled(alike) for alike in found.values()]
    beliefs.sort(key=lambda belief: -belief.probability)
    trust = costs.trust(lowest)
    if beliefs and _may_be_talk(beliefs[0].meaning.note):
        trust *= costs.trusted_setting
    return [_with_side(belief, costs, expected) for belief in _trusted(beliefs, trust)]


def by_decode(reads: Iterable[Read]) -> dict[str, list[Read]]:
    """The readings of each decode."""
    grouped: dict[str, list[Read]] = {}
    for read in reads:
        grouped.setdefault(read.decode, []).append(read)
    return grouped


def likeliest(reads: Sequence[Read]) -> Read:
    """The reading that weighs most."""
    return max(reads, key=lambda read: read.weight)


def _votes(grouped: Mapping[str, Sequence[Read]], expected: Expected) -> dict[str, float]:
    """Each decode's share of the votes.

    Where the decode for answers hears one, it has more of them, and decodes that hear other or no notes in as
    few words have less or none. Talk is longer, and they outvote an answer in it.
    """
    votes = dict.fromkeys(grouped, 1.0)
    answers = grouped.get(ANSWERS, ()) if expected.open else ()
    others = {decode: reads for decode, reads in grouped.items() if decode != ANSWERS}
    if answers and likeliest(answers).meanings:
        longest = len(likeliest(answers).words.split()) + 1
        short = {name for name, reads in others.items() if len(likeliest(reads).words.split()) <= longest}
        if 2 * len(short) >= len(others):
            meant = _notes(answers)
            for name in short:
                heard = _notes(others[name])
                votes[name] = 1.0 if meant & heard else OTHERS_VOTE if heard else 0.0
            votes[ANSWERS] = ANSWER_VOTES
    total = sum(votes.values())
    return {decode: share / total for decode, share in votes.items()}


def replies(reads: Iterable[Read], expected: Expected) -> frozenset[Note]:
    """What was heard as an answer to the open question."""
    if expected.open is None:
        return frozenset()
    return frozenset(_notes(read for read in reads if read.decode == ANSWERS))


def _notes(reads: Iterable[Read]) -> set[Note]:
    return {meaning.note for read in reads for _, meaning in read.meanings}


def _sounding_alike(reads: Sequence[Read]) -> list[Read]:
    """One decode's readings that mean something, with the vote shared among them."""
    meant = [read for read in reads if read.meanings]
    if not meant:
        return []
    believed = max(read.weight for read in meant) / max(read.weight for read in reads)
    total = sum(read.weight for read in meant)
    return [read._replace(weight=believed * read.weight / total) for read in meant]


def _trusted(beliefs: list[Belief], trust: float) -> list[Belief]:
    """What the votes leave open goes to a meaning that most decodes share, as far as words are trusted.

    Not where another decode heard the same and more: noise takes words away, and seldom adds any. Nor against
    a strong rival: "sixty" is trusted fully in one decode where the others are torn between it and "sixteen".
    """
    if not beliefs or beliefs[0].probability < MOST:
        return beliefs
    first, *others = beliefs
    fuller = sum(other.probability for other in others if _says_more(other.meaning.note, first.meaning.note))
    if fuller > LOST or (others and others[0].probability > RIVAL):
        return beliefs
    return [first._replace(probability=first.probability + (1 - first.probability) * trust), *others]


def _with_side(belief: Belief, costs: Costs, expected: Expected) -> Belief:
    """The belief, less where a bowl's owner may have been lost; an answer need not name it again."""
    note = belief.meaning.note
    answered = expected.open is not None and note in expected.open.choices
    if not lacks_an_owner(note) or answered:
        return belief
    kept = costs.of_nobody(numbered=not is_nameless(note))
    return belief._replace(probability=belief.probability * kept)


def _says_more(note: Note, than: Note) -> bool:
    """True when a note says all that another does, and something that the other leaves open."""
    return says_all_of(note, than) and not says_all_of(than, note)


def _pooled(alike: Sequence[Belief]) -> Belief:
    """One belief from all that mean the same, in the words that were likeliest."""
    likeliest = max(alike, key=lambda belief: belief.probability)
    return likeliest._replace(probability=sum(belief.probability for belief in alike))


def _shares(
    meanings: Sequence[tuple[float, Meaning]], expected: Expected, costs: Costs
) -> list[tuple[Meaning, float]]:
    """One reading's meanings with their shares of it; what isn't plausible loses some of its share."""
    if not meanings:
        return []
    weights = [exp(-costs.per_cost * (cost - meanings[0][0])) for cost, _ in meanings]
    total = sum(weights)
    return [
        (meaning, weight / total * plausibility(meaning.note, expected, costs.odds))
        for weight, (_, meaning) in zip(weights, meanings, strict=True)
    ]


def in_metres(note: Note) -> Note:
    """The note with metric units all one: notes that put a bowl in the same place are alike."""
    if getattr(note, "unit", None) in ("m", "cm"):
        return note.model_copy(update={"unit": "m"})
    return note


def choose(beliefs: Sequence[Belief], costs: Costs, replied: Collection[Note] = ()) -> Choice:
    """The cheapest thing to do, given how sure the meanings are, and what was heard as an answer."""
    if not beliefs:
        return "drop"
    first = beliefs[0].probability
    second = beliefs[1].probability if len(beliefs) > 1 else 0.0
    meant = sum(belief.probability for belief in beliefs)
    note = beliefs[0].meaning.note
    wrong = costs.wrong_answer if note.harmless else costs.wrong_note
    if isinstance(note, AnySetting) and not note.harmless and len(beliefs[0].words.split()) <= SHORT:
        wrong = costs.wrong_setting
    lost = 0.0
    if note in replied:
        wrong = costs.wrong_reply
    elif not note.harmless and _lost_a_word(beliefs):
        lost = costs.word_lost
    prices: dict[Choice, float] = {
        "accept": wrong * (1 - first) + lost,
        "ask": costs.question + costs.wasted_question * max(0.0, 1 - first - second),
        "drop": costs.lost * meant,
    }
    cheapest = min(prices, key=lambda choice: prices[choice])
    if cheapest == "drop" and meant > MOST:  # it was meant as a note, whichever it was
        return "ask" if first > MOST else "unclear"
    return cheapest


def _lost_a_word(beliefs: Sequence[Belief]) -> bool:
    """True where the likeliest words are another meaning's with some left out: "a foot two [one] o'clock"."""
    words = beliefs[0].words
    return sum(other.probability for other in beliefs[1:] if _holds(other.words, words)) > LOST


def _holds(longer: str, shorter: str) -> bool:
    """True when one line has all words of the other, in their order, and more."""
    rest = iter(longer.split())
    return len(longer) > len(shorter) and all(word in rest for word in shorter.split())


def _may_be_talk(note: Note) -> bool:
    """True for a setting, whose words talk may hold."""
    return note.sets_up and not note.harmless

"""From what was heard to what was meant: the stage's front door."""

from __future__ import annotations

from collections.abc import Sequence
from functools import lru_cache
from math import inf

from voicecoach.hear.values import Heard
from voicecoach.phrasebook.book import PhraseBook
from voicecoach.understand.asking import Asker
from voicecoach.understand.clearly import WORTH_ANSWERING, clear
from voicecoach.understand.costs import Costs
from voicecoach.understand.deciding import (
    Belief,
    Choice,
    Read,
    by_decode,
    choose,
    likeliest,
    pool,
    replies,
)
from voicecoach.understand.known_voice import KnownVoice
from voicecoach.understand.lines import LONGEST, Found, LineReader
from voicecoach.understand.meaning import DIRECTIONS, Meaning
from voicecoach.understand.misheard import KNOWN_COST, Misheard
from voicecoach.understand.notes.bowls import is_nameless, lacks_an_owner, name_said
from voicecoach.understand.plausible import pace, plausibility
from voicecoach.understand.saying import Sayer
from voicecoach.understand.twice import twice
from voicecoach.understand.values import (
    Expected,
    Maybe,
    Note,
    OpenQuestion,
    Question,
    Ranked,
    Unclear,
    Where,
)
from voicecoach.understand.words import Writer

CORRECTING = frozenset({"no", "sorry", "correction", "make", "change", "that", "rather", "actually"})
"""First words that can only begin a correction."""
OPENING = frozenset({"ours", "theirs", "last"})
"""Questions in words that a bowl's note may begin with."""
UNLIKELY = 0.2
"""A meaning that keeps no more of its belief leaves room for what may have been misheard."""
SURE = 0.9
"""Belief in a bowl without an owner, but for that, from which on only its owner is asked for."""
JUST_BEFORE_S = 1.5
"""A slow speaker's pause between a bowl's name and its place is shorter (measured: 0.7 to 1.4 s)."""
NAMED = 0.2
"""Another answer is named beside the likeliest where it has this share of what is left of the belief."""
KEPT = 5
"""Of the ranked meanings, so many are handed on."""
LINES = 1_024
"""Lines whose meanings are kept, some 2 kB each: one utterance has about twenty, many of them heard again."""


class Understanding:
    """Reads utterances with one phrase book, and asks when it isn't sure enough for the costs."""

    def __init__(self, book: PhraseBook, costs: Costs | None = None) -> None:
        writer = Writer(book)
        self._costs = costs or Costs()
        self._ask = Asker(book, Sayer(writer))
        self._misheard = Misheard(book)
        self._lines = LineReader(book, writer)
        self._meanings = lru_cache(maxsize=LINES)(self._lines.meanings)
        self._heard = lru_cache(maxsize=LINES)(self._meant)
        self.voice = KnownVoice(lambda line: " ".join(writer.words(line)), self._note)

    def read(self, heard: Heard, expected: Expected) -> Ranked | Unclear:
        """The meanings of one utterance, or why there is none."""
        if not heard.readings:
            return self._typed(heard.text, expected)
        odds, took_s = self._costs.odds, _took_s(heard)
        reads = [
            Read(reading.decode, text, weight, self._heard(text, expected), pace(text, took_s, odds))
            for reading, text, weight in self.voice.ways(heard, expected)
        ]
        lowest = min((word.confidence for word in heard.words), default=0.0)
        costs = self._costs.over(
            heard.link, unheard_s=_unheard_s(heard, expected), above_noise_db=heard.above_noise_db
        )
        pooled = pool(reads, expected, costs, lowest)
        if not expected.open and not self._heard(heard.text, expected):
            pooled = [one._replace(probability=one.probability * costs.without_main) for one in pooled]
        beliefs = twice(pooled, expected.unsure)
        choice = choose(beliefs, costs, replies(reads, expected))
        if heard.cut and choice == "accept" and not (expected.open or expected.call_word):
            choice = "unclear"  # talk without end, as in a crowd: a note must be said by itself
        read = self._decide(beliefs, choice, costs, expected)
        if isinstance(read, Unclear) and read.why == "chatter":
            read = self._else_dropped(reads, expected, cut=heard.cut)
        if isinstance(read, Unclear) and read.why != "chatter":
            return read.model_copy(update={"maybe": _maybe(beliefs)})
        return read

    def _else_dropped(self, reads: list[Read], expected: Expected, *, cut: bool) -> Ranked | Unclear:
        """Asks about what was heard clearly though the book lacks it, and about most of a note; no talk."""
        found = None if cut else clear(by_decode(reads), self._lines, expected)
        if found is not None:
            meaning, note = found.meaning, found.meaning.note
            answered = note.harmless and found.share >= WORTH_ANSWERING
            doubt = None if answered else self._ask.sure(note, found.words)
            return self._back(meaning) or Ranked(notes=(note,), probabilities=(found.share,), doubt=doubt)
        return self._ask.unclear() if self._sounds_like_note(reads, expected) else Unclear(why="chatter")

    def _sounds_like_note(self, reads: list[Read], expected: Expected) -> bool:
        """True when at least half of the decodes heard most of a note, whatever it was."""
        best = [likeliest(alike).words for alike in by_decode(reads).values()]
        return 2 * sum(self._lines.sounds_like_note(words, expected) for words in best) >= len(best)

    def _meant(self, text: str, expected: Expected) -> tuple[Found, ...]:
        """What the words that were heard mean; where nothing likely, also what the ear may have misheard."""
        found = list(self._meanings(text, expected))
        if len(text.split()) > LONGEST:
            return tuple(found)  # talk; to look for what was misheard in it would take long
        for line, slip in self._misheard.also(text).items():
            found += [(cost + slip, meaning) for cost, meaning in self._meanings(line, expected)]
        asked = expected.open.slot if expected.open else None
        likely = any(
            plausibility(meaning.note, expected, self._costs.odds) > UNLIKELY for _, meaning in found
        )
        for lines in () if likely else self._misheard.said(text, asked):
            meant = [
                (cost + slips, meaning)
                for line, slips in lines.items()
                for cost, meaning in self._meanings(line, expected)
                if _is_placed(meaning) or _is_plain(line, meaning)
            ]
            if meant:
                found = list(dict.fromkeys([*found, *meant]))
                break
        found = found or list(self._meanings(text, expected, "tolerantly"))
        if expected.your != "ours" and (theirs := self._misheard.theirs(text)):
            line, cost = theirs
            found = _either(found, self._meant(line, expected), KNOWN_COST if expected.your else cost)
        return tuple(sorted(found, key=lambda one: one[0]))

    def understood(self, text: str, expected: Expected) -> str | None:
        """The words of the pieces of a line that is no note; None where it says nothing of where."""
        return self._lines.understood(text, expected)

    def without_fix(self, text: str, expected: Expected) -> str:
        """The line without the "I mean" or "no" that it begins with."""
        return self._lines.without_fix(text, expected)

    def again(self) -> Unclear:
        """Asks for the whole note once more."""
        return self._ask.unclear()

    def _note(self, line: str, expected: Expected) -> Note | None:
        found = self._heard(line, expected)
        return found[0][1].note if found and _whole(found[0][1]) else None

    def is_whole(self, text: str, expected: Expected) -> bool:
        """True when these words, as they were heard, are already a whole note."""
        meanings = self._heard(text, expected)
        return bool(meanings) and _whole(meanings[0][1])

    def is_final(self, text: str, expected: Expected) -> bool | None:
        """True when these words are a whole note to which nothing need follow; None when nobody can say.

        "Theirs" or "twelve o'clock" alone corrects the note before; but more often the rest is to come.
        After "a metre at twelve o'clock" the bowl's name may come, or not. "Ours" alone asks for our bowls,
        and begins "ours, a metre, two o'clock".
        """
        if not self.is_whole(text, expected):
            return False
        note = self._heard(text, expected)[0][1].note
        if note.kind == "corrected":
            return text.split(maxsplit=1)[0] in CORRECTING
        if isinstance(note, Question) and note.ask in OPENING:
            return False
        return None if is_nameless(note) else True

    def _typed(self, text: str, expected: Expected) -> Ranked | Unclear:
        """What is typed is as sure as it gets: its likeliest meaning counts."""
        meanings = self._lines.meanings(text, expected, "typed")
        if not meanings:
            odd = self._lines.words_not_understood(text)
            return self._ask.not_understood(odd) if odd else Unclear(why="chatter")
        meaning = meanings[0][1]
        return self._back(meaning) or Ranked(notes=(meaning.note,), probabilities=(1.0,))

    def _decide(
        self, beliefs: list[Belief], choice: Choice, costs: Costs, expected: Expected
    ) -> Ranked | Unclear:
        if choice == "drop":
            return Unclear(why="chatter")
        if choice == "unclear":
            return self._ask.unclear()
        back = self._back(beliefs[0].meaning)
        if back:
            return back
        whole = [belief for belief in beliefs if _whole(belief.meaning)][:KEPT]
        doubt = self._doubt(whole, costs, expected) if choice == "ask" else None
        return Ranked(
            notes=tuple(belief.meaning.note for belief in whole),
            probabilities=tuple(min(1.0, belief.probability) for belief in whole),
            doubt=doubt,
        )

    def _doubt(self, whole: list[Belief], costs: Costs, expected: Expected) -> OpenQuestion:
        """Asks which of the two likeliest was meant, or whether the likeliest was; an answer again."""
        first, note = whole[0], whole[0].meaning.note
        if expected.open is not None and note in expected.open.choices:
            return expected.open
        if lacks_an_owner(note) and first.probability > SURE * costs.of_nobody(
            numbered=not is_nameless(note)
        ):
            return self._ask.whose(note)
        for other in whole[1:]:  # the likeliest that differs in one slot alone: "eight or eighty?"
            which = self._ask.which(note, other.meaning.note)
            if which is not None and other.probability >= NAMED * (1 - first.probability):
                return which
        return self._ask.sure(note, self._put_right(first, expected))

    def _put_right(self, belief: Belief, expected: Expected) -> str:
        """The words that mean it, where the ear wrote others: a "yes" to those would say nothing."""
        for line in self._misheard.every(belief.words, expected.open.slot if expected.open else None):
            if any(meaning == belief.meaning for _, meaning in self._meanings(line, expected)):
                return line
        return belief.words

    def _back(self, meaning: Meaning) -> Unclear | None:
        """The question that a meaning raises by itself: what is missing, or what contradicts itself."""
        if meaning.missing:
            return self._ask.missing(meaning.note, meaning.missing, meaning.figure)
        if meaning.disputed and isinstance(meaning.note, Where):
            return self._ask.contradiction(meaning.note)
        return None


def _either(found: Sequence[Found], theirs: Sequence[Found], cost: float) -> list[Found]:
    """Both, the cheapest of each alike likely but for the cost of the first."""
    least = [min((one for one, _ in each), default=0.0) for each in (found, theirs)]
    return [
        *((one - least[0] + cost, meaning) for one, meaning in found),
        *((one - least[1], meaning) for one, meaning in theirs),
    ]


def _unheard_s(heard: Heard, expected: Expected) -> float:
    """Speech without a word, in which a name may have been said: in the utterance or just before it."""
    before = expected.murmured_s is not None and expected.murmured_s < JUST_BEFORE_S
    return inf if before else heard.unheard_s or 0.0


def _took_s(heard: Heard) -> float | None:
    """How long it took to say."""
    if heard.started_s is None or heard.ended_s is None:
        return None
    return heard.ended_s - heard.started_s


def _maybe(beliefs: Sequence[Belief]) -> tuple[Maybe, ...]:
    """The whole notes among the likeliest meanings."""
    whole = [belief for belief in beliefs if _whole(belief.meaning)][:KEPT]
    return tuple(
        Maybe(note=belief.meaning.note, probability=min(1.0, belief.probability)) for belief in whole
    )


def _whole(meaning: Meaning) -> bool:
    return not meaning.missing and not meaning.disputed


def _is_plain(line: str, meaning: Meaning) -> bool:
    """True for a question or anything else harmless, a note taken back, and a correction in so many words."""
    note = meaning.note
    return (
        note.harmless
        or note.kind == "taken_back"
        or (note.kind == "corrected" and line.split(maxsplit=1)[0] in CORRECTING)
    )


def _is_placed(meaning: Meaning) -> bool:
    """True for a distance with an hour, or with a whole name and a direction: too much for talk by chance."""
    note = meaning.note
    if not isinstance(note, Where) or not note.places_a_body or note.gap_m is None or not _whole(meaning):
        return False
    return note.hour is not None or (name_said(note) is not None and not DIRECTIONS.isdisjoint(note.remarks))

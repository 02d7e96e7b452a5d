"""What is known of the voice that speaks: the ways in which its readings may have been said."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from functools import partial

from voicecoach.hear.values import ANSWERS, UNKNOWN, Heard, Hypothesis
from voicecoach.understand.deciding import in_metres
from voicecoach.understand.lines import LONGEST
from voicecoach.understand.slips import Slips, Taught, means, taught, ways
from voicecoach.understand.values import Expected, Note


class KnownVoice:
    """One voice, with its slips; a stranger's has none."""

    def __init__(self, write: Callable[[str], str], read: Callable[[str, Expected], Note | None]) -> None:
        """Know nothing yet.

        Args:
            write: A line in the phrase book's spelling.
            read: The whole note that a line means; None where it means none.
        """
        self.slips: Slips = ()
        self._write, self._read = write, read

    def ways(self, heard: Heard, expected: Expected) -> Iterator[tuple[Hypothesis, str, float]]:
        """Every reading's words with their weight; with a slip of this voice put right, as two readings."""
        lines = [(reading, _without_edges(reading)) for reading in heard.readings]
        meant = self._meant([line for _, line in lines], expected) if self.slips else frozenset()
        for reading, line in lines:
            found = [(line, 1.0)]
            others = meant - self._meant([line], expected) if meant else meant
            if others and reading.decode != ANSWERS:
                found = ways(self.slips, line, self._write, partial(self._is_one_of, others, expected))
            for made, share in found:
                yield reading, made, share * reading.weight

    def taught(self, heard: Heard, note: Note, expected: Expected) -> Taught:
        """What an utterance teaches, once it is known what was meant by it.

        Where no reading means it, nothing is learned: nobody knows in which words it was said.
        """
        lines = map(_without_edges, heard.readings)
        right = [line for line in lines if means(self._read(line, expected), note)]
        return self._taught(heard, right)

    def taught_by_words(self, heard: Heard, words: str) -> Taught:
        """The same where the words that were said are known, as in practice."""
        return self._taught(heard, [words])

    def lines(self, heard: Heard) -> list[str]:
        """What each decode heard, its likeliest words, in the phrase book's spelling."""
        best: dict[str, Hypothesis] = {}
        for reading in heard.readings:
            if reading.decode != ANSWERS and (
                reading.decode not in best or reading.weight > best[reading.decode].weight
            ):
                best[reading.decode] = reading
        return [self.written(_without_edges(reading)) for reading in best.values()]

    def written(self, line: str) -> str:
        """A line in the phrase book's spelling, as slips are kept."""
        return self._write(line)

    def _taught(self, heard: Heard, right: Sequence[str]) -> Taught:
        return taught(self.lines(heard), map(self.written, right))

    def _is_one_of(self, meant: frozenset[Note], expected: Expected, line: str) -> bool:
        return not meant.isdisjoint(self._meant([line], expected))

    def _meant(self, lines: Sequence[str], expected: Expected) -> frozenset[Note]:
        """What lines mean, each its likeliest, metric units all one; no settings, which talk holds."""
        notes = [self._read(line, expected) for line in lines if len(line.split()) <= LONGEST]
        return frozenset(in_metres(note) for note in notes if note is not None and not note.sets_up)


def _without_edges(reading: Hypothesis) -> str:
    """A reading's words; an answer's without one unknown word before or after it: a breath."""
    words = reading.text.split()
    if reading.decode == ANSWERS and len(words) > 1:
        words = words[:-1] if words[-1] == UNKNOWN else words[1:] if words[0] == UNKNOWN else words
    return " ".join(words)

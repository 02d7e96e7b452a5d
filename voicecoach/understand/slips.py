"""What the ear writes for the words of one voice: the slips of one pair, counted, and what they are worth.

`misheard.py` knows the speech model's slips, everybody's alike. These are learned from notes that were
confirmed or corrected, and from practice. They hold words and counts, no sound. A slip is evidence beside
what the decodes heard: where one of them heard what a slip of another would come to, that is likelier. What
none of them heard no slip brings in: slips alone never file anything, however often they were counted.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence
from difflib import SequenceMatcher
from typing import NamedTuple

from pydantic import Field

from voicecoach.understand.values import Note, Where
from voicecoach.value import Value

LONGEST = 2
"""A slip has at most so many words on either side; more is another sentence."""
ALIKE = 0.5
"""Lines of which at least this share is the same are alike enough to be set side by side."""
MOST = 60
"""So many slips are kept of a voice: those that were made oftenest."""
TRIED = 6
"""Of the lines with one slip put right, so many are tried with another."""
_PLACE = ("side", "number", "gap_m", "hour")
_SAME_M = 0.006


class Slip(Value):
    """Words that the ear wrote for other words of this voice."""

    heard: str = Field(min_length=1, max_length=40, pattern=r"^[a-z' ]+$")
    """What it wrote."""
    said: str = Field(min_length=1, max_length=40, pattern=r"^[a-z' ]+$")
    """What was said."""
    times: int = Field(ge=1, le=100_000)
    """How often that was so."""
    right: int = Field(default=0, ge=0, le=100_000)
    """How often it wrote the same and was right."""

    @property
    def share(self) -> float:
        """How likely it is a slip when the words are heard; never 1."""
        return self.times / (self.times + self.right + 1)


Slips = tuple[Slip, ...]


class Taught(NamedTuple):
    """What one note taught: slips as (heard, said), and the lines that were heard right."""

    slips: tuple[tuple[str, str], ...] = ()
    right: tuple[str, ...] = ()


def put_right(slips: Slips, line: str) -> Iterator[tuple[str, float]]:
    """Every line that one slip makes of this one, with the slip's share."""
    words = line.split()
    for slip in slips:
        heard = slip.heard.split()
        for at in range(len(words) - len(heard) + 1):
            if words[at : at + len(heard)] == heard:
                yield " ".join((*words[:at], slip.said, *words[at + len(heard) :])), slip.share


def ways(
    slips: Slips, line: str, write: Callable[[str], str], was_heard: Callable[[str], bool]
) -> list[tuple[str, float]]:
    """The ways in which a line may have been said, with their shares: as heard, and with slips put right.

    Args:
        slips: What is known of this voice.
        line: What was heard.
        write: A line in the phrase book's spelling, as slips are kept.
        was_heard: Whether a line means a note that other decodes have in their own words. No other way is
            open: so slips move belief between meanings that were heard, and bring none in.
    """
    once = list(put_right(slips, write(line)))
    found = [(made, share) for made, share in once if was_heard(made)]
    if not found:
        twice = [(made, one * two) for half, one in once[:TRIED] for made, two in put_right(slips, half)]
        found = [(made, share) for made, share in twice if was_heard(made)]
    if not found:
        return [(line, 1.0)]
    made, share = max(found, key=lambda one: one[1])
    return [(line, 1.0 - share), (made, share)]


def taught(lines: Iterable[str], right: Iterable[str]) -> Taught:
    """What the lines that were heard teach, once it is known which words are right.

    A line that isn't right is set beside the one that is most like it: words that were written for others are
    slips. Words that were lost or added are none, and lines that are hardly alike teach nothing.

    Args:
        lines: What the decodes heard, the likeliest of each.
        right: Lines that mean what was meant; where the words themselves are known, those alone.
    """
    known_right = list(dict.fromkeys(right))
    slips = [slip for line in dict.fromkeys(lines) for slip in _between(line, known_right)]
    return Taught(tuple(dict.fromkeys(slips)), tuple(known_right))


def _between(line: str, right: Sequence[str]) -> list[tuple[str, str]]:
    """The slips between a line as it was heard and the right one that is most like it."""
    heard = line.split()
    matched = [SequenceMatcher(None, heard, like.split(), autojunk=False) for like in right]
    if not matched or line in right:
        return []
    best, like = max(zip(matched, right, strict=True), key=lambda one: one[0].ratio())
    if best.ratio() < ALIKE:
        return []
    said = like.split()
    pairs: list[tuple[str, str]] = []
    for what, begin, end, from_, to in best.get_opcodes():
        if what == "replace" and end - begin == to - from_ <= LONGEST:
            pairs += zip(heard[begin:end], said[from_:to], strict=True)
        elif what == "replace" and max(end - begin, to - from_) <= LONGEST:
            pairs.append((" ".join(heard[begin:end]), " ".join(said[from_:to])))
    return [pair for pair in pairs if "[" not in pair[0] + pair[1]]


def added(slips: Slips, new: Taught) -> Slips:
    """The counts with what a note taught, the most frequent first; the rarest go where there are too many."""
    counts = {(slip.heard, slip.said): slip for slip in slips}
    for heard, said in new.slips:
        before = counts.get((heard, said))
        times = before.times + 1 if before else 1
        counts[heard, said] = Slip(heard=heard, said=said, times=times, right=before.right if before else 0)
    for key, slip in counts.items():
        if any(f" {slip.heard} " in f" {line} " for line in new.right):
            counts[key] = slip.model_copy(update={"right": slip.right + 1})
    return tuple(sorted(counts.values(), key=lambda slip: -slip.times)[:MOST])


def means(read: Note | None, note: Note) -> bool:
    """True where a line says the same as the note: of a place the same bowl, distance and hour."""
    if not isinstance(read, Where) or not isinstance(note, Where) or type(read) is not type(note):
        return read == note
    return all(_alike(getattr(read, name, None), getattr(note, name, None)) for name in _PLACE) and set(
        read.remarks
    ) == set(note.remarks)


def _alike(one: object, other: object) -> bool:
    if isinstance(one, float) and isinstance(other, float):
        return abs(one - other) < _SAME_M
    return one == other

"""One play of an end, ready to be set: the head as it was left, how it came to be, who held."""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, field

from markupsafe import Markup

from voicecoach import describe
from voicecoach.coach import asides
from voicecoach.coach.apart import set_apart
from voicecoach.coach.charts import Bar, bars
from voicecoach.coach.deliveries import find
from voicecoach.coach.drawing import drawn
from voicecoach.coach.drawn import Change, Drawn, Manner
from voicecoach.coach.game_view import EndResult
from voicecoach.coach.held import HeldAfter, changes, seen, steps
from voicecoach.coach.lines_drawing import LinesDrawn, lines_drawn
from voicecoach.coach.moments import Moment, Section
from voicecoach.coach.record import Record
from voicecoach.coach.wording import Words
from voicecoach.describe.values import Sentence
from voicecoach.head.values import Bowl, Head, Picture
from voicecoach.understand.values import BowlName, Corrected, Side

Clips = Callable[[Sequence[Sentence]], Sequence[tuple[int, int]]]
"""Gives, for sentences, the numbers of the clips to play and the silence after each, milliseconds."""
SIDES: tuple[Side, Side] = ("ours", "theirs")


@dataclass
class Sayings:
    """Every sentence of a page once, with the clips that speak it."""

    playing: Clips
    said: list[tuple[str, list[int]]] = field(default_factory=list)
    """Its words, then for each clip its number and the silence after it, milliseconds."""
    _numbers: dict[tuple[str, float], int] = field(default_factory=dict)

    def number(self, sentence: Sentence) -> int:
        """The number of a sentence."""
        key = (sentence.text, sentence.pause_s)
        if key not in self._numbers:
            self._numbers[key] = len(self.said)
            clips = self.playing([sentence])
            self.said.append((sentence.text, [number for pair in clips for number in pair]))
        return self._numbers[key]


@dataclass(frozen=True)
class Line:
    """One moment in the list of an end."""

    number: int
    words: str
    notes: tuple[str, ...]
    """What was asked before it, heard first and corrected, remarked, set apart, taken back."""
    held: str
    """Who held once the bowl's effects were noted; empty for a moment in between."""


@dataclass(frozen=True)
class EndView:
    """One play of an end, ready to be set."""

    result: EndResult
    score: str
    shot: str
    held: str
    drawing: Markup | None
    sentences: tuple[str, ...]
    out_of_play: str
    ways: LinesDrawn | None
    """Both lines to the jack on the head as it was left."""
    chart: Markup | None
    lines: tuple[Line, ...]
    remarks: tuple[str, ...]
    """Those on no bowl."""
    final: int
    """The place of the moment that is set, among the states."""
    states: tuple[list[object], ...]
    """For the script: of each moment its number, words, sentences, ringed bowl, jack, and what it changes."""


def end_view(section: Section, record: Record, result: EndResult, words: Words, sayings: Sayings) -> EndView:
    """All of one play."""
    pictures = [seen(moment.head) for moment in section.moments]
    held = steps(section, record.bowls)
    scene = _scene(section, pictures, result, words)
    last = section.last.head
    listed = tuple(_lines(section, held, words))
    read = [describe.read_back(picture, words.prefs) for picture in pictures]
    final = section.moments.index(section.last)
    return EndView(
        result=result,
        score=_score(section, result, words),
        shot=words.shot(changes(held), held),
        held=words.held(held) if held else "",
        drawing=scene.svg if scene else None,
        sentences=tuple(sentence.text for sentence in read[final]) if last.bowls else (),
        out_of_play=words.out_of_play(last.bowls),
        ways=lines_drawn(pictures[final], result.name, words),
        chart=_chart(section, held, words) if held else None,
        lines=listed,
        remarks=tuple(remark.words for remark in asides.remarks(section) if remark.on is None),
        final=final,
        states=tuple(_states(section, listed, read, scene, sayings)) if scene else (),
    )


def _scene(section: Section, pictures: Sequence[Picture], result: EndResult, words: Words) -> Drawn | None:
    final = section.moments.index(section.last)
    letters: dict[Side, str] = {side: words.letter(side) for side in SIDES}
    said = f"{result.name}: the head to scale, as seen from the mat. The sentences beside it say the same."
    return drawn(pictures, final, Manner(words.measure, letters, said))


def _score(section: Section, result: EndResult, words: Words) -> str:
    """What was agreed, beside what the places called come to; the score then."""
    shots = section.agreed
    if shots is None:
        return ""
    ours, theirs = (
        f"{result.total_ours} to {words.us('ours')}",
        f"{result.total_theirs} to {words.us('theirs')}",
    )
    return f"Score then: {ours}, {theirs}."


def _lines(section: Section, held: Sequence[HeldAfter], words: Words) -> Iterator[Line]:
    after = {step.after.number: words.holds(step.holds) for step in held}
    before: Moment | None = None
    for moment in section.moments:
        said = words.moment(moment, seen(moment.before), seen(moment.head))
        notes = tuple(_notes(section, moment, before, words))
        yield Line(moment.number, said, notes, after.get(moment.number, ""))
        before = moment


def _notes(section: Section, moment: Moment, before: Moment | None, words: Words) -> Iterator[str]:
    """What belongs beside a moment."""
    if before is not None:
        yield from asides.asked(before)
    if isinstance(moment.event.note, Corrected):
        first = _first_heard(section, moment)
        start = f"First heard: {quoted(first)}; corrected" if first else "Corrected"
        yield f"{start}: {quoted(moment.entry.heard.text)}."
    if not moment.stands:
        yield "Taken back later."
    name = moment.event.bowl
    bowl = find(moment.head, name.side, name.number) if name else None
    if name is not None and bowl is not None and set_apart(moment.head, bowl):
        yield _apart(moment.head, bowl)
    if name is not None and moment is _first_of(section, name):
        said = asides.remarks_on(section).get((name.side, name.number))
        if said:
            yield f"Remark: {said}"


def _first_of(section: Section, name: BowlName) -> Moment | None:
    return next((moment for moment in section.standing if moment.event.bowl == name), None)


def _first_heard(section: Section, moment: Moment) -> str:
    """What was heard of this bowl before it was corrected."""
    bowl, dropped = moment.event.bowl, moment.event.dropped
    names = {name for name in (bowl, *dropped) if name is not None}
    earlier = [
        each.entry.heard.text
        for each in section.moments
        if each.entry.number < moment.entry.number and each.event.bowl in names and each.stands
    ]
    return earlier[-1] if earlier else ""


def quoted(words: str) -> str:
    """Words as they were heard, in quotation marks."""
    return f"\N{LEFT DOUBLE QUOTATION MARK}{words.strip()}\N{RIGHT DOUBLE QUOTATION MARK}"


def _apart(head: Head, bowl: Bowl) -> str:
    """Where a bowl was set, for want of room where it was called."""
    lie = next(lie for lie in seen(head).lies if (lie.side, lie.number) == (bowl.side, bowl.number))
    said = f"{lie.said.hour:g}" if lie.said and lie.said.hour is not None else "as called"
    return (
        f"Too close to another to lie where it was called, so it is set beside it: said hour {said}, "
        f"lies at {lie.hour_exact:.1f}."
    )


def _chart(section: Section, held: Sequence[HeldAfter], words: Words) -> Markup:
    found = [
        Bar(
            value=step.holds.shots * (1 if step.holds.side == "ours" else -1) if step.holds.side else 0,
            sure=step.holds.sure,
            mark="=" if step.holds.who == "level" else "\N{MIDDLE DOT}",
            under=f"{words.letter(step.bowl.side)}{step.bowl.number}",
        )
        for step in held
    ]
    shots = section.agreed
    if shots is not None:
        found.append(Bar(value=shots[0] - shots[1], mark="=", under="end", apart=True))
    said = f"Who held shot after each bowl. {words.held(held)} The table of the bowls says the same."
    return bars(found, said, "held")


def _states(
    section: Section,
    lines: Sequence[Line],
    read: Sequence[Sequence[Sentence]],
    scene: Drawn,
    sayings: Sayings,
) -> Iterator[list[object]]:
    names = list(scene.names)
    for at, (moment, line, said) in enumerate(zip(section.moments, lines, read, strict=True)):
        name = moment.event.bowl
        ringed = names.index((name.side, name.number)) if name and (name.side, name.number) in names else -1
        sentences = [sayings.number(sentence) for sentence in said] if moment.head.bowls else []
        jack = list(scene.states[at].jack or ())
        moved: list[Change] = scene.changes(at)
        notes = " ".join((line.words, *line.notes))
        yield [moment.number, notes, sentences, ringed, jack, moved]

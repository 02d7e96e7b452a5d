"""The page's own sentences: for the eye, so with figures, and in one wording for each side throughout."""

from collections.abc import Sequence
from datetime import datetime

from voicecoach import describe
from voicecoach.coach.bowling import Group
from voicecoach.coach.figures import MEAN_FROM, TREND_BOWLS, TREND_ENDS, Figure, Trend
from voicecoach.coach.held import HeldAfter, Holds, Who, counts
from voicecoach.coach.measure import NARROW, Measure
from voicecoach.coach.moments import Moment
from voicecoach.describe.bowls import bowl_name, side_name
from voicecoach.describe.values import Preferences
from voicecoach.head.values import Bowl, Picture
from voicecoach.phrasebook.wording import capitals
from voicecoach.understand.values import BowlName, Side

CANT = "can\N{RIGHT SINGLE QUOTATION MARK}t"
PLUS_MINUS = "\N{PLUS-MINUS SIGN}"
LEVEL: dict[Who, str] = {"level": "level", "empty": "nobody"}


class Words:
    """How one page names sides, bowls and lengths."""

    def __init__(self, prefs: Preferences, measure: Measure) -> None:
        self.prefs, self.measure = prefs, measure

    def we(self, side: Side) -> str:
        """`we`, `you` or `they`."""
        return side_name(side, self.prefs, "hold").split()[0]

    def us(self, side: Side) -> str:
        """`us`, `you` or `them`."""
        return side_name(side, self.prefs, "us")

    def our(self, side: Side) -> str:
        """`our`, `your` or `their`."""
        return side_name(side, self.prefs, "our")

    def ours(self, side: Side) -> str:
        """`ours`, `yours` or `theirs`."""
        return side_name(side, self.prefs, "ours")

    def letter(self, side: Side) -> str:
        """What a side's bowls are marked with: `O`, `Y` or `T`."""
        return self.our(side)[0].upper()

    def bowl(self, name: BowlName | Bowl) -> str:
        """`our second`."""
        return bowl_name(name.side, name.number, self.prefs)

    def holds(self, holds: Holds) -> str:
        """`us, 2`, `level`, `nobody`; unsure where it is."""
        who = LEVEL.get(holds.who) or f"{self.us(holds.side or 'ours')}, {holds.shots}"
        return who if holds.sure else f"{who} (too close to call)"

    def moment(self, moment: Moment, before: Picture, after: Picture) -> str:
        """What a note did, as it is confirmed."""
        if not moment.note.is_a_link and not moment.event.undoes:
            return " ".join(sentence.text for sentence in moment.entry.say) or "A setting."
        said = describe.confirm(moment.event, before, after, self.prefs)
        return " ".join(sentence.text for sentence in said)

    def out_of_play(self, bowls: Sequence[Bowl]) -> str:
        """Dead bowls, which no read-back places, and those in the ditch."""
        parts = [
            f"{self.bowl(bowl)} is {'in the ditch' if bowl.state == 'ditch' else 'dead'}"
            for bowl in bowls
            if bowl.state != "live"
        ]
        return capitals(f"{'; '.join(parts)}.") if parts else ""

    def shot(self, changes: Sequence[HeldAfter], found: Sequence[HeldAfter]) -> str:
        """What changed the shot, bowl by bowl, and what stood at last."""
        if not found:
            return "No bowl was called."
        parts = [self._went(step) for step in changes]
        last = found[-1].holds
        stood = "Nobody held at last" if last.side is None else f"At last {self._count(last)}"
        close = "" if last.sure else ", too close to call from the places called"
        return capitals(f"{'; '.join(parts)}. ") + f"{stood}{close}."

    def _count(self, holds: Holds) -> str:
        return f"{self.we(holds.side or 'ours')} held {holds.shots}"

    def _went(self, step: HeldAfter) -> str:
        name = self.bowl(step.bowl)
        if step.holds.who == "level":
            return f"{name} made it level"
        if step.holds.side is None:
            return f"{name} left no live bowl"
        return f"the shot went to {self.us(step.holds.side)} with {name}"

    def held(self, found: Sequence[HeldAfter]) -> str:
        """After how many bowls each side held; the counts make up all of them."""
        count = counts(found)
        unsure = sum(not step.holds.sure for step in found)
        close = f" Too close to call after {unsure} of them." if unsure else ""
        return (
            f"After {counted(len(found), 'bowl')}: {self.we('ours')} held after {count['ours']}, "
            f"{self.we('theirs')} after {count['theirs']}, level after {count['level']}, "
            f"nobody after {count['empty']}.{close}"
        )

    # What the figures say.

    def length(self, group: Group | None) -> str:
        """Whether the bowls finish short or past, and how surely."""
        ours = self.our("ours")
        if group is None or group.length.count < MEAN_FROM:
            return f"Length: {_too_few(group.length.count if group else 0)}"
        figure = group.length
        mean, known = self._mean(figure, "past", "short"), self._known(figure)
        if not figure.leans:
            start = f"Length: {CANT} tell whether {ours} bowls finish short or past"
            return f"{start}: {mean} on average, {known}."
        way = "past the jack" if (figure.mean or 0) > 0 else "short"
        return (
            f"Length: {ours} bowls finish {way}: {self.measure.length(figure.mean or 0)} on average, {known}."
        )

    def line(self, name: str, group: Group | None, more: str, less: str) -> str:
        """Whether the bowls finish to one side, and how surely; `more` is to the right."""
        start = f"Line{name}"
        if group is None or group.line.count < MEAN_FROM:
            return f"{start}: {_too_few(group.line.count if group else 0)}"
        figure = group.line
        mean, known = self._mean(figure, more, less), self._known(figure)
        if not figure.leans:
            return f"{start}: {CANT} tell {less} from {more}: {mean} on average, {known}."
        way, mean = more if (figure.mean or 0) > 0 else less, self.measure.length(figure.mean or 0)
        return f"{start}: {self.our('ours')} bowls finish {way}: {mean} on average, {known}."

    def trend(self, found: Trend) -> str:
        """How the distance changed over the ends, if it surely did."""
        if found.slope is None or found.half is None:
            return (
                f"Over the ends: too few bowls or ends to say ({found.bowls} in {found.ends}; it takes "
                f"{TREND_BOWLS} in {TREND_ENDS})."
            )
        way = "nearer" if found.slope < 0 else "farther"
        change, half = self.measure.small(found.slope), self.measure.small(found.half)
        known = f"{change} {way} with each end, give or take {half} ({counted(found.bowls, 'bowl')})"
        bowls = f"{self.our('ours')} bowls come"
        if not found.shows:
            return f"Over the ends: {CANT} tell whether {bowls} nearer the jack: {known}."
        return f"Over the ends: {bowls} {way}: {known}."

    def over_games(self, found: Trend) -> str:
        """How the distance changed from game to game, if it surely did."""
        if found.slope is None or found.half is None:
            return f"Over the games: too few to say ({found.ends}; it takes {TREND_BOWLS})."
        way = "nearer" if found.slope < 0 else "farther"
        change, half = self.measure.small(found.slope), self.measure.small(found.half)
        known = f"{change} {way} with each game, give or take {half} ({counted(found.ends, 'game')})"
        bowls = f"{self.our('ours')} bowls come"
        if not found.shows:
            return f"Over the games: {CANT} tell whether {bowls} nearer the jack: {known}."
        return f"Over the games: {bowls} {way}: {known}."

    def signed(self, figure: Figure, more: str, less: str) -> str:
        """A mean for a table cell."""
        if figure.mean is None or figure.half is None:
            return "too few"
        return f"{self._mean(figure, more, less)} {PLUS_MINUS}{NARROW}{self.measure.length(figure.half)}"

    def plain(self, value: float | None) -> str:
        """A distance for a table cell."""
        return "too few" if value is None else self.measure.length(value)

    def _mean(self, figure: Figure, more: str, less: str) -> str:
        mean = figure.mean or 0.0
        return f"{self.measure.length(mean)} {more if mean > 0 else less}"

    def _known(self, figure: Figure) -> str:
        return f"give or take {self.measure.length(figure.half or 0.0)} ({counted(figure.count, 'bowl')})"


def _too_few(count: int) -> str:
    return f"too few bowls to say ({count} with a place; it takes {MEAN_FROM})."


def counted(count: int, thing: str) -> str:
    """`1 bowl`, `2 bowls`."""
    return f"{count} {thing}{'' if count == 1 else 's'}"


def when(began: datetime | None, ended: datetime | None) -> str:
    """The day and the hours."""
    if began is None or ended is None:
        return ""
    day = f"{began:%A} {began.day} {began:%B %Y}"
    if began.date() != ended.date():
        return f"{day} to {ended.day} {ended:%B %Y}"
    if began.replace(second=0, microsecond=0) == ended.replace(second=0, microsecond=0):
        return f"{day}, {began:%H:%M}"
    return f"{day}, {began:%H:%M} to {ended:%H:%M}"

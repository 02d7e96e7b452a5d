"""The page's own sentences: for the eye, so with figures."""

from collections.abc import Sequence

from voicecoach.coach.bowling import Group
from voicecoach.coach.figures import MEAN_FROM, TREND_BOWLS, TREND_ENDS, Figure, Trend
from voicecoach.coach.moments import Moment
from voicecoach.head.values import Bowl, Head, Holding
from voicecoach.understand.values import BowlName

KINDS = {
    "jack_set": "the jack is set",
    "jack_moved": "the jack moved",
    "taken_back": "the last note is taken back",
    "end_started": "the end begins",
    "end_finished": "the end is finished",
    "game_set": "the game is set",
    "setting": "a setting",
}
BOWL_KINDS = {
    "bowl_rested": "{bowl} came to rest",
    "bowl_moved": "{bowl} moved",
    "measured": "{bowl} measured",
    "corrected": "{bowl} corrected",
}


def bowl_name(name: BowlName | Bowl) -> str:
    """`our bowl 2`."""
    return f"{'our' if name.side == 'ours' else 'their'} bowl {name.number}"


def heading(moment: Moment) -> str:
    """What happened."""
    kind, name = moment.event.note.kind, moment.event.bowl
    if kind in BOWL_KINDS:
        return BOWL_KINDS[kind].format(bowl=bowl_name(name) if name else "the jack")
    return KINDS.get(kind, kind.replace("_", " "))


def out_of_play(head: Head) -> str:
    """Dead bowls and those in the ditch, which the drawing or the read-back can't place."""
    parts = [
        f"{bowl_name(bowl)} is {'in the ditch' if bowl.state == 'ditch' else 'dead'}"
        for bowl in head.bowls
        if bowl.state != "live"
    ]
    return f"{'; '.join(parts)}.".capitalize() if parts else ""


def held(holdings: Sequence[Holding | None]) -> str:
    """How often each side held."""
    known = [holding for holding in holdings if holding is not None]
    if not known:
        return "No bowl was called."
    sure = [holding for holding in known if holding.sure]
    ours = sum(holding.side == "ours" for holding in sure)
    theirs = sum(holding.side == "theirs" for holding in sure)
    unsure = len(known) - len(sure)
    return (
        f"Of {_counted(len(known), 'moment')} with bowls in the head we held after {ours}, "
        f"they after {theirs}, and {unsure} {'was' if unsure == 1 else 'were'} too close to call."
    )


def _counted(count: int, thing: str) -> str:
    return f"{count} {thing}{'' if count == 1 else 's'}"


def claims(all_bowls: Group) -> list[str]:
    """What all our bowls together show, and nothing more."""
    count = all_bowls.line.count
    if count < MEAN_FROM:
        return [f"{_counted(count, 'bowl')}: too few to say anything. From {MEAN_FROM} on there are figures."]
    return [
        _claim(all_bowls.line, "right", "left", "Line"),
        _claim(all_bowls.length, "past the jack", "short", "Length"),
        f"Distance: {all_bowls.gap.mean:.2f} m from the jack on average.",
    ]


def _claim(figure: Figure, more: str, less: str, name: str) -> str:
    mean, half = figure.mean or 0.0, figure.half or 0.0
    known = f"by {figure.count} bowls, known to plus or minus {half:.2f} m"
    if figure.leans:
        return f"{name}: {abs(mean):.2f} m {more if mean > 0 else less} on average, {known}."
    return f"{name}: these bowls lean neither {more} nor {less} ({known})."


def signed(figure: Figure, more: str, less: str) -> str:
    """A mean for a table cell."""
    if figure.mean is None or figure.half is None:
        return "too few"
    side = more if figure.mean > 0 else less
    return f"{plain(abs(figure.mean))} {side}, \N{PLUS-MINUS SIGN}{figure.half:.2f}"


def plain(value: float | None) -> str:
    """A spread or a distance for a table cell."""
    return "too few" if value is None else f"{value:.2f}\N{NO-BREAK SPACE}m"


def trend(found: Trend) -> str:
    """How the distance changed over the ends, if it surely did."""
    if found.slope is None or found.half is None:
        return (
            f"Trend: too few bowls or ends to say. It takes {TREND_BOWLS} bowls in {TREND_ENDS} ends; "
            f"there are {found.bowls} in {found.ends}."
        )
    known = f"{found.bowls} bowls in {found.ends} ends, known to plus or minus {found.half:.3f} m"
    if not found.shows:
        return f"Trend: these bowls show no change from end to end ({known})."
    way = "nearer" if found.slope < 0 else "farther"
    return f"Trend: {abs(found.slope):.3f} m {way} with each end ({known})."

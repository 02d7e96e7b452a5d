"""What changed since the listener last heard the head."""

from voicecoach.describe.bowls import BARE, bowl_name, bowl_sentence, find
from voicecoach.describe.frames import turned
from voicecoach.describe.lists import bowl_list, read_back
from voicecoach.describe.sums import sum_up
from voicecoach.describe.values import Preferences, Sentence, Sentences
from voicecoach.head.values import Lie, Picture
from voicecoach.phrasebook.numbers import cardinal
from voicecoach.phrasebook.wording import sentence, words
from voicecoach.understand.values import BowlName


def changed(picture: Picture, prefs: Preferences, since: Picture | None) -> Sentences:
    """How many bowls are new or sound different now, each of them, and who holds."""
    if since is None or since.head.end != picture.head.end:
        return read_back(picture, prefs)
    new = [lie for lie in picture.lies if find(since, _name(lie)) is None]
    moved = [lie for lie in picture.lies if _sounds_different(lie, picture, since, prefs)]
    if picture.head.jack.state == "dead":
        moved = [lie for lie in moved if lie.state == "dead"]
    gone = [lie for lie in since.lies if find(picture, _name(lie)) is None]
    jack = picture.head.jack != since.head.jack
    if not (new or moved or gone or jack):
        return (Sentence(text=sentence("changed.nothing")),)
    dead = [lie for lie in moved if lie.state == "dead"]
    return (
        *turned(prefs),
        Sentence(text=_counts(len(new), len(moved), jack), group=0),
        *(_gone(lie, prefs) for lie in gone),
        *(bowl_sentence(lie, picture, prefs, BARE) for lie in dead),
        *bowl_list([*new, *moved], picture, prefs),
        sum_up(picture, prefs),
    )


def _counts(new: int, moved: int, jack: bool) -> str:
    """How many are new and how many sound different: `one new, two changed, the jack moved`."""
    parts = [words("changed.new", count=cardinal(new))] if new else []
    parts += [words("changed.moved", count=cardinal(moved))] if moved else []
    parts += [words("changed.jack")] if jack else []
    return sentence("changed.since", parts=words("called.joint").join(parts or [words("changed.fewer")]))


def _sounds_different(lie: Lie, picture: Picture, since: Picture, prefs: Preferences) -> bool:
    before = find(since, _name(lie))
    if before is None:
        return False
    heard = bowl_sentence(lie, picture, prefs, BARE).text
    return bowl_sentence(before, since, prefs, BARE).text != heard


def _gone(lie: Lie, prefs: Preferences) -> Sentence:
    return Sentence(text=sentence("changed.gone", name=bowl_name(lie.side, lie.number, prefs)))


def _name(lie: Lie) -> BowlName:
    return BowlName(side=lie.side, number=lie.number)

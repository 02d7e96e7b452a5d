"""One turn: what was heard goes in, what is to be spoken and kept comes out. Nothing else happens."""

from __future__ import annotations

from dataclasses import dataclass, replace

from voicecoach import describe
from voicecoach.describe.values import Battery, Sentence, Sentences
from voicecoach.head import decide, evolve, nearest_first, next_up, picture
from voicecoach.head.values import AskBack, Event, Picture, Refused
from voicecoach.hear.values import Heard
from voicecoach.session import asking, lines, timing
from voicecoach.session.settings import at_its_end, is_a_pace
from voicecoach.session.sound import ASKED_FOR_S, about_sound, still_open
from voicecoach.session.talk import ReadBack, Talk, step
from voicecoach.session.values import Entry, Outcome, Speaker
from voicecoach.session.waiting import about_what_waits, declined, left_behind
from voicecoach.understand.breaths import read_after, refused
from voicecoach.understand.notes.any_setting import AnySetting
from voicecoach.understand.notes.lines import LineNote
from voicecoach.understand.notes.settings import Setting, SoundKept
from voicecoach.understand.reading import Understanding
from voicecoach.understand.twice import unsure
from voicecoach.understand.values import (
    BowlName,
    Declined,
    EndFinished,
    Expected,
    JackMoved,
    Note,
    OpenQuestion,
    Question,
    Ranked,
    Unclear,
    Walk,
)

CALL_WORD = "director"
"""The word that begins a note on a noisy green, once that is asked for."""
WALK_WITHIN_S = 600.0
"""A walk in which no step was asked for so long is over, seconds: "next" is then no step any more."""
ANSWER_WITHIN_S = 8.0
"""How long a question back stays open, seconds: long enough to look at the head once more."""


@dataclass(frozen=True)
class When:
    """What comes in with an utterance."""

    at: str
    """The time of day for the journal, ISO 8601."""
    speaker: Speaker = "director"
    now_s: float | None = None
    """Seconds on the clock that times out a question asked back; None to take the utterance's own end."""
    battery: Battery | None = None
    """The device's battery; None where it has none."""


@dataclass(frozen=True)
class Reply:
    """What came of an utterance, before it has a number and a time."""

    outcome: Outcome
    say: Sentences = ()
    note: Note | None = None
    event: Event | None = None
    open: OpenQuestion | None = None
    to_player: Sentences = ()
    talk: Talk | None = None
    """The talk with its place in a reading or a walk moved on; None where that stays."""


def turn(talk: Talk, heard: Heard, understanding: Understanding, when: When) -> tuple[Talk, Entry]:
    """Take one utterance.

    Args:
        talk: The session so far.
        heard: What was said.
        understanding: The phrase book's reader.
        when: Who said it, and when.

    Returns:
        The session after it, and the entry to journal and then to speak.
    """
    hoped, silence = expected(talk, heard), _since(talk.unsure_s, heard)
    kept = talk.refused if silence is None or silence < ANSWER_WITHIN_S else None
    read = read_after(understanding, kept, heard, hoped)
    after, entry = _finished(talk, heard, _respond(talk, read, heard, when), when)
    if isinstance(read, Unclear) and read.why == "chatter":
        return after, entry  # what was asked about is still to be said again
    left = refused(understanding, heard, hoped) if entry.outcome == "refused" else None
    return replace(after, unsure=unsure(read), unsure_s=heard.ended_s, refused=left), entry


def file_note(talk: Talk, note: Note, source: str, when: When) -> tuple[Talk, Entry]:
    """Take a note that nobody spoke, such as a game from a file; `source` says where it is from."""
    return _finished(talk, Heard(text="", source=source), _file(talk, note), when)


def doubt(talk: Talk, heard: Heard, when: When) -> tuple[Talk, Entry]:
    """Take an utterance that may have been the program's own voice: nothing is made of its words."""
    return _finished(talk, heard, Reply("refused", describe.own_voice(), open=talk.open), when)


def _finished(talk: Talk, heard: Heard, reply: Reply, when: When) -> tuple[Talk, Entry]:
    """Number the reply, make its entry, and step the talk on."""
    entry = Entry(
        number=talk.number + 1,
        at=when.at,
        speaker=when.speaker,
        heard=heard,
        outcome=reply.outcome,
        note=reply.note,
        event=reply.event,
        open=reply.open,
        say=reply.say,
        say_to_player=reply.to_player,
    )
    after = step(reply.talk or talk, entry)
    clock = heard.ended_s if when.now_s is None else when.now_s
    newly_asked = entry.open is not None and entry.open != talk.open
    walked_s = clock if isinstance(entry.note, Walk) else after.walked_s
    return replace(after, asked_s=clock if newly_asked else after.asked_s, walked_s=walked_s), entry


def lapse(talk: Talk, *, at: str, now_s: float) -> tuple[Talk, Entry | None]:
    """Close the question that is open, aloud, once nobody has answered it for `ANSWER_WITHIN_S`.

    A walk that nobody went on with for `WALK_WITHIN_S` is over, in silence.
    """
    if talk.walked_s is not None and now_s - talk.walked_s > WALK_WITHIN_S:
        talk = replace(talk, walking=None, walked_s=None)
    if talk.open is None or talk.asked_s is None:
        return talk, None
    within_s = ASKED_FOR_S if isinstance(talk.open.pending, SoundKept) else ANSWER_WITHIN_S
    if now_s - talk.asked_s < within_s:
        return talk, None
    entry = Entry(
        number=talk.number + 1, at=at, heard=Heard(text=""), outcome="refused", say=describe.lapse(talk.open)
    )
    return replace(step(talk, entry), asked_s=None), entry


def expected(talk: Talk, heard: Heard) -> Expected:
    """What the session expects to hear next, for the stage that understands."""
    head = talk.play.head
    upcoming = next_up(head)
    return Expected(
        next_side=upcoming.side,
        next_number=upcoming.number,
        open=talk.open,
        after_s=_since(talk.filed_s, heard),
        lying=tuple(BowlName(side=bowl.side, number=bowl.number) for bowl in head.bowls),
        nearest=nearest_first(head),
        ditched=isinstance(talk.play.note, JackMoved) and "in the ditch" in talk.play.note.remarks,
        walking=talk.walking is not None,
        timing=timing.is_timing(talk.away_s, heard),
        finished=head.finished or (talk.open is not None and isinstance(talk.open.pending, EndFinished)),
        keeping=talk.manner.sound,
        reading=bool(talk.reading.sentences),
        format=head.game.format,
        bowls_each=head.game.bowls_each,
        feet=talk.in_feet,
        bowl_m=head.game.bowl_mm / 1000,
        call_word=CALL_WORD if talk.manner.call_word else None,
        your="ours" if talk.manner.prefs.sides == "yours" else talk.your.side,
        murmured_s=_since(talk.dropped_s, heard),
        unsure=talk.unsure if _is_soon_after(talk, heard) else (),
    )


def _since(ended_s: float | None, heard: Heard) -> float | None:
    """Seconds of silence before an utterance; None where nobody knows, or another clock began meanwhile."""
    if ended_s is None or heard.started_s is None or heard.started_s < ended_s:
        return None
    return heard.started_s - ended_s


def _is_soon_after(talk: Talk, heard: Heard) -> bool:
    """True while what was asked about is still likely to be answered or said again."""
    silence = _since(talk.unsure_s, heard)
    return silence is not None and silence < ANSWER_WITHIN_S


def interrupted(talk: Talk, unfinished: Sentence) -> Talk:
    """The talk after the voice was cut off in `unfinished`: "go on" begins there."""
    sentences = talk.reading.sentences
    if unfinished not in sentences:
        return talk
    return replace(talk, reading=ReadBack(sentences, sentences.index(unfinished)))


def _respond(talk: Talk, meaning: Ranked | Unclear, heard: Heard, when: When) -> Reply:
    if isinstance(meaning, Unclear):
        return _unclear(talk, meaning)
    if meaning.doubt is not None:
        return _asked(meaning.doubt)
    said = meaning.notes[0]
    note = timing.timed(talk.away_s, about_what_waits(talk.open, said), heard)
    if isinstance(note, Question | LineNote | Walk):
        return _told(talk, note, when)
    reply = _file(talk, note)
    if reply.outcome == "noted" and note is said:
        return replace(reply, say=(*reply.say, *left_behind(talk, note)))
    return reply


def _unclear(talk: Talk, meaning: Unclear) -> Reply:
    if meaning.why == "chatter":
        return Reply("dropped", open=talk.open)
    if meaning.doubt is not None:
        return _asked(meaning.doubt)
    return Reply("refused", describe.plainly(meaning.say), open=talk.open)


def _asked(question: OpenQuestion) -> Reply:
    return Reply("asked", describe.ask(question), open=question)


def _told(talk: Talk, note: Question | LineNote | Walk, when: When) -> Reply:
    if isinstance(note, LineNote):
        return Reply("answered", lines.told(talk, note), note, open=talk.open)
    return _answer(talk, note, when) if isinstance(note, Question) else _walk(talk, note)


def _answer(talk: Talk, note: Question, when: When) -> Reply:
    after, sentences = asking.answer(talk, note, when.at, when.battery)
    return Reply("answered", sentences, note, open=talk.open, talk=after)


def _walk(talk: Talk, note: Walk) -> Reply:
    walking, sentences = describe.walk(note, talk.walking, picture(talk.play.head), talk.manner.prefs)
    return Reply("answered", sentences, note, open=talk.open, talk=replace(talk, walking=walking))


def _file(talk: Talk, note: Note) -> Reply:
    if isinstance(note, AnySetting) and (reply := _listener_set(talk, note)):
        return reply
    if isinstance(note, Declined) and talk.open is not None:
        return _declined(talk.open)
    result = decide(talk.play, note)
    if isinstance(result, AskBack):
        opened = describe.opened(result)
        return Reply("asked", describe.ask(opened, result.law), open=opened)
    if isinstance(result, Refused):
        return Reply("refused", describe.refuse(result))
    if isinstance(note, AnySetting):
        said = describe.confirm_set(result, note, talk.manner.prefs)
        return Reply("noted", said, result.note, result, open=talk.open)
    before, after = picture(talk.play.head), picture(evolve(talk.play, result).head)
    outcome: Outcome = "answered" if note.is_answered else "noted"
    return Reply(
        outcome,
        describe.confirm(result, before, after, talk.manner.prefs),
        result.note,
        result,
        to_player=_unasked(talk, result, before, after),
    )


def _listener_set(talk: Talk, note: Setting) -> Reply | None:
    """What comes of a setting that the head doesn't go by; None for one that it does."""
    if not is_a_pace(note):
        return Reply("refused", describe.no_pace(), open=talk.open)
    if note.head_keeps:
        return None
    if isinstance(note, SoundKept) and (question := about_sound(note)):
        return _asked(question)
    said = describe.confirm_setting(note, at_its_end(talk.manner, note))
    return Reply("noted", said, note, open=still_open(talk.open, note))


def _declined(open_: OpenQuestion) -> Reply:
    """What comes of a plain no."""
    if not isinstance(open_.pending, SoundKept):
        return Reply("refused", describe.refuse(declined(open_)))
    if open_.pending.value != "on":
        return Reply("refused", describe.nothing_deleted())
    return Reply("noted", describe.no_sound(), SoundKept(value="off"))


def _unasked(talk: Talk, event: Event, before: Picture, after: Picture) -> Sentences:
    """What the player hears without asking: bowls and the jack, and what was put right about them.

    A correction left unsaid would leave the player with a head that isn't there.
    """
    prefs = talk.manner.prefs
    if not event.note.player_hears:
        return ()
    told = describe.for_player(event, before, after, prefs)
    if (before.lies, before.head.jack) == (after.lies, after.head.jack):
        return told
    if told or not prefs.unasked or not event.note.puts_right:
        return told
    return describe.confirm(event, before, after, prefs)

"""A faint voice is turned up for the speech model, one that is too loud down; others are left as they are."""

from pathlib import Path

import numpy as np
import pytest

from tests.hear.conftest import AUDIO
from tests.hear.spoken import faint, in_noise, stream, words_of
from voicecoach.hear.blocks import BLOCK, RATE_HZ, Samples, silence
from voicecoach.hear.decoder import Decoder
from voicecoach.hear.ear import Ear
from voicecoach.hear.level import Level
from voicecoach.hear.recogniser import Recogniser

FAINT_DB = -55.0
LEAST_DB, MOST_DB = -24.0, -8.0
"""Between these the loudest part of a voice is heard best."""
FAINT_NOTES = (
    ("our_second_bowl_eighty_centimetres_two_oclock.joe.flac", 20.0),
    ("their_first_bowl_one_metre_four_oclock.slt.flac", 20.0),
    ("five_oclock.joe.flac", 12.0),
)
"""What was lost of them before: the first came in three pieces; of the others, whole to the ear, words."""


def tone(level_db: float, seconds: float) -> Samples:
    """A tone whose root mean square is so far below full scale; its period is a whole part of a block."""
    at = np.arange(round(seconds * RATE_HZ))
    return np.asarray(np.sqrt(2) * 10 ** (level_db / 20) * np.sin(2 * np.pi * at / 32), np.float32)


def levelled(sound: Samples) -> tuple[Samples, list[int]]:
    """What came out of a sound given block by block, and how much after each."""
    level, out = Level(), []
    for start in range(0, sound.size, BLOCK):
        out.append(level.process(sound[start : start + BLOCK]))
    out.append(level.rest())
    return np.concatenate(out), [each.size for each in out]


def level_db(sound: Samples) -> float:
    return float(10 * np.log10(np.mean(np.square(sound, dtype=np.float64))))


@pytest.mark.parametrize(("name", "above_noise_db"), FAINT_NOTES)
def test_a_faint_note_is_heard_as_it_was_said(
    name: str, above_noise_db: float, recogniser: Recogniser
) -> None:
    sound = faint(AUDIO / name, FAINT_DB, above_noise_db)
    heard = list(Ear(recogniser).listen(stream(sound, [512]), "green"))
    assert [one.text for one in heard] == [words_of(Path(name))]
    assert heard[0].link == "faint", "it is turned up for the model, and said to be faint all the same"
    assert heard[0].above_noise_db == pytest.approx(above_noise_db, abs=3)


def test_asking_for_the_words_so_far_changes_nothing_of_what_is_heard(
    recogniser: Recogniser, monkeypatch: pytest.MonkeyPatch
) -> None:
    taken: list[Samples] = []
    accept = Decoder.accept

    def kept(decoder: Decoder, samples: Samples) -> None:
        taken.append(samples)
        accept(decoder, samples)

    monkeypatch.setattr(Decoder, "accept", kept)
    heard = []
    for asks in (False, True):
        ear = Ear(recogniser)
        for block in stream(faint(AUDIO / FAINT_NOTES[0][0], FAINT_DB, 20.0), [512]):
            list(ear.hear_block(block, "green"))
            if asks:
                str(ear.so_far)
        heard.append(np.concatenate(taken))
        taken.clear()
    assert np.array_equal(heard[0], heard[1])


def test_a_voice_at_the_usual_distance_is_left_as_it_is(second_bowl: Path) -> None:
    sound = in_noise(second_bowl, 20.0)
    out, _ = levelled(sound)
    assert np.array_equal(out, sound)


@pytest.mark.parametrize("level", [LEAST_DB + 0.1, MOST_DB - 0.1])
def test_so_is_a_sound_of_any_loudness_between(level: float) -> None:
    out, _ = levelled(tone(level, 2.0))
    assert np.array_equal(out, tone(level, 2.0))


@pytest.mark.parametrize(
    ("level", "turned"), [(-30.0, LEAST_DB), (-45.0, LEAST_DB), (-53.9, LEAST_DB), (-4.0, MOST_DB)]
)
def test_a_faint_one_is_turned_up_and_a_loud_one_down(level: float, turned: float) -> None:
    out, _ = levelled(tone(level, 2.0))
    assert level_db(out) == pytest.approx(turned, abs=0.1)


def test_next_to_nothing_is_not_made_a_voice_of() -> None:
    out, _ = levelled(tone(-80.0, 2.0))
    assert level_db(out) == pytest.approx(-50.0, abs=0.1)
    nothing, _ = levelled(silence(2.0))
    assert np.array_equal(nothing, silence(2.0))


def test_it_waits_until_it_can_tell_and_nothing_is_lost() -> None:
    sound = tone(FAINT_DB, 2.0)
    out, sizes = levelled(sound)
    assert out.size == sound.size
    held = next(at for at, size in enumerate(sizes) if size)
    assert held * BLOCK < 0.85 * RATE_HZ <= (held + 1) * BLOCK, "and no longer"
    assert set(sizes[held + 1 : -2]) == {BLOCK}


def test_what_is_asked_for_sooner_is_given_as_far_as_it_is_known() -> None:
    level, sound = Level(), tone(FAINT_DB, 0.5)
    assert level.process(sound).size == 0
    early = level.rest()
    assert early.size == sound.size
    assert level_db(early) == pytest.approx(FAINT_DB + 30, abs=0.1)
    assert level.process(tone(FAINT_DB, 0.1)).size == 1_600, "it is told by then"


def test_a_voice_that_grows_loud_is_turned_up_no_more_and_never_clips() -> None:
    sound = np.concatenate([tone(FAINT_DB, 1.5), tone(-20.0, 0.5), tone(FAINT_DB, 0.5)])
    out, _ = levelled(sound)
    assert float(np.max(np.abs(out))) < 0.3
    assert np.array_equal(out[-RATE_HZ // 2 :], sound[-RATE_HZ // 2 :])


def test_loud_sound_that_comes_at_once_after_faint_sound_is_not_cut_flat() -> None:
    sound = np.concatenate([tone(FAINT_DB, 1.5), tone(-3.0, 0.5)])
    level = Level()
    level.process(sound[:RATE_HZ])
    out = level.process(sound[RATE_HZ:])
    assert float(np.max(np.abs(out))) == pytest.approx(np.sqrt(2) * 10 ** (MOST_DB / 20), rel=0.02)

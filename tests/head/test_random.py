"""Random notes, sensible and not, never break the head."""

from itertools import combinations

from tests.bench.random_notes import Notes
from tests.head.acts import spoken
from voicecoach.head import begin, decide, evolve, next_up, picture
from voicecoach.head.bodies import bowls_in_place, jack_in_place
from voicecoach.head.values import AskBack, Event, Head, Play

SEQUENCES = 1000
"""A hundred thousand of them run in the bench."""


def overlaps(head: Head) -> list[float]:
    """How deep any two bodies lie in each other, metres."""
    bodies = bowls_in_place(head) + jack_in_place(head)
    gaps = [one.gap_to(other.place, other.radius_m) for one, other in combinations(bodies, 2)]
    return [gap for gap in gaps if gap < -1e-7]


def links(play: Play) -> int:
    """How many notes can be taken back."""
    count, before = 0, play.before
    while before is not None:
        count, before = count + 1, before.before
    return count


def test_random_sequences_never_raise_never_overlap_and_never_lose_an_entry() -> None:
    for seed in range(SEQUENCES):
        notes = Notes(seed)
        play, kept = begin(notes.game()), 0
        for _ in range(10):
            decision = decide(play, notes.draw())
            if isinstance(decision, AskBack):
                assert not any(letter.isdigit() for letter in spoken(decision))
                answer = notes.answer(decision)
                decision = decide(play, answer) if answer else decision
            if isinstance(decision, Event):
                play = evolve(play, decision)
                if decision.note.kind not in ("question", "setting", "walk", "aim"):
                    kept += -1 if decision.undoes else 1
                assert not overlaps(play.head), (seed, decision)
        assert links(play) == kept
        assert next_up(play.head).number >= 1
        if seed % 25 == 0:
            assert len(picture(play.head).lies) == len(play.head.bowls)

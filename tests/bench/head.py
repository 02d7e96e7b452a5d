"""How fast the head is, and that nothing breaks it: `python -m tests.bench.head [SEQUENCES]`.

Times are processor time of this process, so that a busy machine does not count against it.
"""

from __future__ import annotations

import sys
import time
from itertools import combinations

from tests.bench.random_notes import Notes
from voicecoach.head import begin, decide, evolve, picture
from voicecoach.head.bodies import bowls_in_place, jack_in_place
from voicecoach.head.path import hands, the_jack
from voicecoach.head.sample import HEADS
from voicecoach.head.values import AskBack, Event, Head, Play
from voicecoach.understand.values import BowlRested, EndFinished, EndStarted, JackMoved, Note

PICTURE_S = 0.020
HANDS_S = 0.020
SEASON_S = 10.0
ENDS = 1000
SEQUENCES = 100_000
NOTES_EACH = 8
NO_LINK = ("question", "setting", "walk", "aim")
"""Kinds of note that can't be taken back."""


def an_end(jack_m: float = 0.5) -> list[Note]:
    """Sixteen bowls with a jack move after the eleventh."""
    bowls: list[Note] = [
        BowlRested(gap_m=0.3 + 0.15 * number, hour=float(number * 5 % 12 + 1)) for number in range(16)
    ]
    return [*bowls[:11], JackMoved(gap_m=jack_m, hour=12.0), *bowls[11:]]


def done(play: Play, notes: list[Note], events: list[Event]) -> Play:
    """The play after notes that are all carried out; their events are kept."""
    for note in notes:
        decision = decide(play, note)
        if not isinstance(decision, Event):
            raise SystemExit(f"bench: {note.kind} should have been carried out, got {decision}")
        events.append(decision)
        play = evolve(play, decision)
    return play


def bench_picture() -> bool:
    """A full end of sixteen bowls: every marginal and who holds, each time of a head not seen before."""
    times = []
    for head in [done(begin(), an_end(0.5 + 0.001 * count), []).head for count in range(41)]:
        started = time.process_time()
        picture(head)
        times.append(time.process_time() - started)
    first, usual = times[0], sorted(times)[len(times) // 2]
    print(f"picture of 16 bowls with a jack move, {HEADS} whole heads: median {usual * 1000:.1f} ms,")
    print(f"  {usual / PICTURE_S:.2f} of the 20 ms allowed; the very first one {first * 1000:.1f} ms")
    return usual < PICTURE_S


def bench_hands() -> bool:
    """Both hands' lines to the jack past sixteen bowls, each time of a head not seen before."""
    times = []
    for head in [done(begin(), an_end(0.5 + 0.001 * count), []).head for count in range(41)]:
        target = the_jack(head)
        if target is None:
            raise SystemExit("bench: the jack should have been alive")
        started = time.process_time()
        hands(head, target)
        times.append(time.process_time() - started)
    first, usual = times[0], sorted(times)[len(times) // 2]
    print(f"both hands past 16 bowls, {HEADS} whole heads: median {usual * 1000:.1f} ms,")
    print(f"  {usual / HANDS_S:.2f} of the 20 ms allowed; the very first one {first * 1000:.1f} ms")
    return usual < HANDS_S


def season(ends: int) -> list[Note]:
    """Every note of so many ends of sixteen bowls."""
    return [*an_end(), EndFinished(side="ours", shots=1), EndStarted()] * ends


def folded(events: list[Event]) -> Play:
    """The play that events make, as a replay folds them."""
    play = begin()
    for event in events:
        play = evolve(play, event)
    return play


def bench_season() -> bool:
    """A season: every note decided once, then its events folded as a replay does."""
    events: list[Event] = []
    started = time.process_time()
    play = done(begin(), season(ENDS), events)
    deciding = time.process_time() - started
    started = time.process_time()
    replayed = folded(events)
    folding = time.process_time() - started
    same = replayed.head == play.head
    print(f"season of {ENDS} ends, {len(events)} entries: folded in {folding:.2f} s,")
    print(f"  {folding / SEASON_S:.3f} of the 10 s allowed; replay equals live: {same}")
    print(f"  deciding the same notes: {deciding:.2f} s, {deciding / len(events) * 1e6:.0f} us a note")
    print(f"  10,000 entries folded: {folding / len(events) * 10_000:.2f} s")
    return folding < SEASON_S and same


def overlapping(head: Head) -> bool:
    """Whether any two bodies lie in each other."""
    bodies = bowls_in_place(head) + jack_in_place(head)
    return any(one.gap_to(other.place, other.radius_m) < -1e-7 for one, other in combinations(bodies, 2))


def links(play: Play) -> int:
    """How many notes can be taken back."""
    count, before = 0, play.before
    while before is not None:
        count, before = count + 1, before.before
    return count


def one_sequence(seed: int) -> tuple[int, int, bool, bool]:
    """Notes decided, events made, whether bodies overlapped, whether an entry was lost."""
    notes = Notes(seed)
    play, kept, decided, made, overlap = begin(notes.game()), 0, 0, 0, False
    for _ in range(NOTES_EACH):
        decision = decide(play, notes.draw())
        answer = notes.answer(decision) if isinstance(decision, AskBack) else None
        decision = decide(play, answer) if answer else decision
        decided += 1
        if isinstance(decision, Event):
            play = evolve(play, decision)
            made += 1
            kept += 0 if decision.note.kind in NO_LINK else -1 if decision.undoes else 1
            overlap = overlap or overlapping(play.head)
    return decided, made, overlap, links(play) != kept


def bench_random(sequences: int) -> bool:
    """Random sequences never raise, never leave two bodies overlapping, never lose an entry."""
    decided = made = overlaps = lost = 0
    started = time.process_time()
    for seed in range(sequences):
        notes, events, overlap, gone = one_sequence(seed)
        decided, made = decided + notes, made + events
        overlaps, lost = overlaps + overlap, lost + gone
    took = time.process_time() - started
    print(f"random sequences: {sequences}, notes {decided}, carried out {made}, in {took:.0f} s:")
    print(f"  raised 0, overlapping {overlaps}, entries lost {lost}")
    return not overlaps and not lost


def main(arguments: list[str]) -> int:
    """Run every measure; 1 when one misses its mark."""
    sequences = int(arguments[0]) if arguments else SEQUENCES
    results = [bench_picture(), bench_hands(), bench_season(), bench_random(sequences)]
    print("head: every mark reached" if all(results) else "head: a mark was missed")
    return 0 if all(results) else 1


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))

"""The engine against an independent referee over random ends of every format."""

import random

import pytest

from tests.head.acts import bowl, decided, jack, jack_at, played
from tests.head.referee import COARSE_M, Referee, at
from voicecoach.head import begin, decide, evolve, next_up, picture
from voicecoach.head.clock import apart
from voicecoach.head.values import AskBack, Event, Game, Play
from voicecoach.understand.values import EndFinished, Format

BOWLS = {"singles": 8, "pairs": 16, "triples": 18, "fours": 16}
"""Bowls in one end: 4 each; 4 each; 3 each; 2 each (derived)."""
GAPS = (0.1, 0.2, 0.35, 0.5, 0.8, 1.0, 1.3, 1.7, 2.2, 3.0, 4.5)
OUTSIDE = "17.1.6: wholly outside the sides of the rink"


def one_end(form: Format, rng: random.Random) -> tuple[Play, Referee]:
    """A whole end, noted by the engine and kept by the referee."""
    game = Game(
        format=form,
        bowl_mm=rng.choice((116.0, 121.0, 128.0)),
        rink_m=rng.choice((None, 5.0)),
        widest_m=1000.0,
    )
    referee = Referee(bowl_m=game.bowl_mm / 1000, rink_m=game.rink_m or 1000.0)
    play = begin(game)
    for _ in range(BOWLS[form]):
        if rng.random() < 0.12:
            play = move_jack(play, referee, rng)
        play = rest(play, referee, rng)
    return play, referee


def move_jack(play: Play, referee: Referee, rng: random.Random) -> Play:
    by_m, hour = rng.choice((0.2, 0.5, 0.9)), rng.randint(1, 24) / 2
    spot = at(referee.jack, by_m, hour, 0.0)
    if referee.crowded(spot, 0.032, without_jack=True) or (referee.rink_m < 10 and abs(spot.real) > 2.2):
        return play
    referee.moves_jack(by_m, hour)
    return played([jack(by_m, hour)], play=play)


def rest(play: Play, referee: Referee, rng: random.Random) -> Play:
    """The next bowl rests where there is room, or dies."""
    name = next_up(play.head)
    life = rng.choice(({}, {}, {}, {}, {"dead": True}, {"ditch": True}, {"ditch": True, "toucher": True}))
    for _ in range(200):
        gap_m, hour = rng.choice(GAPS), rng.randint(1, 24) / 2
        if not referee.crowded(
            at(referee.jack, gap_m, hour, (referee.bowl_m + 0.064) / 2), referee.bowl_m / 2
        ):
            break
    words = {"dead": "dead", "ditch": "in the ditch", "toucher": "toucher"}
    remarks = tuple(words[word] for word in life)
    referee.rests(name.side, name.number, gap_m, hour, **life)
    decision = decide(play, bowl(gap_m, hour, remarks=remarks))
    if isinstance(decision, AskBack):
        assert referee.dead((name.side, name.number)) == [OUTSIDE]
        assert decision.law == "17.1.6"
        decision = decided(play, decision.choices[decision.answers.index("dead")])
    assert isinstance(decision, Event)
    return evolve(play, decision)


@pytest.mark.parametrize("form", ["singles", "pairs", "triples", "fours"])
def test_shots_agree_with_the_referee_over_random_ends_of_every_format(form: Format) -> None:
    # Laws CM3, 23 and CM1 39.1 (read): bowls nearer than the other side's nearest; CM1 40.4: nearest points.
    told = 0
    for seed in range(40):
        play, referee = one_end(form, random.Random(f"{form} {seed}"))
        assert len(play.head.bowls) == BOWLS[form]
        compare(play, referee)
        if referee.close():
            continue
        told += 1
        side, shots = referee.shots()
        after = played([EndFinished(confirmed=True)], play=play).head.score
        assert (after.ours, after.theirs) == (
            shots if side == "ours" else 0,
            shots if side == "theirs" else 0,
        )
        assert after.ends == 1
    assert told > 20


def compare(play: Play, referee: Referee) -> None:
    """Every bowl's life, gap and hour, and the jack's place."""
    gaps = referee.gaps()
    assert jack_at(play.head) == pytest.approx((referee.jack.real, referee.jack.imag))
    for lie in picture(play.head).lies:
        name = (lie.side, lie.number)
        assert (lie.state == "dead") == (name not in gaps), referee.dead(name)
        if name in gaps:
            assert lie.gap_m is not None
            assert lie.hour_exact is not None
            assert -1e-9 <= gaps[name] - lie.gap_m <= COARSE_M
            assert apart(lie.hour_exact, referee.hour(name)) < 1e-6

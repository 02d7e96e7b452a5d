"""Every law that the head goes by: its number, its edition, a line in our own words, the test that covers it.

World Bowls, "Laws of the Sport of Bowls": CM3 is the Crystal Mark third edition (2014), kept in the
fourth (2022) as far as is known. "Between" includes both ends (CM1, Foreword).
"""

from typing import NamedTuple


class Law(NamedTuple):
    """One row of the table."""

    number: str
    edition: str
    line: str
    test: str
    """The name of the test function that covers it, in tests/head."""


LAWS = (
    Law(
        "5.4",
        "CM3",
        "The side that won the last scoring end leads the next.",
        "test_who_won_the_last_scoring_end_leads",
    ),
    Law(
        "6.1.1",
        "CM3",
        "The mat line is 2 m or more from the rear ditch and 25 m or more from the front one.",
        "test_the_edges_of_the_mat_line_are_asked_about_with_law_6_1_1",
    ),
    Law(
        "9.2",
        "CM3",
        "A jack is placed no nearer to the front ditch than 2 m.",
        "test_a_jack_under_two_metres_from_the_front_ditch_is_asked_about",
    ),
    Law(
        "10.1.3",
        "CM3",
        "The shortest jack is 23 m from the mat line.",
        "test_the_shortest_jack_is_twenty_three_metres",
    ),
    Law(
        "14.1",
        "CM3",
        "A bowl that touches the jack in its original course is a toucher.",
        "test_a_bowl_that_rests_against_the_jack_is_a_toucher",
    ),
    Law(
        "15.1",
        "CM3",
        "A toucher is marked or named before the next bowl rests.",
        "test_a_toucher_named_after_the_next_bowl_rested_is_asked_about",
    ),
    Law(
        "17.1.1",
        "CM3",
        "A bowl in the ditch that is no toucher is dead.",
        "test_a_bowl_in_the_ditch_lives_only_as_a_toucher",
    ),
    Law(
        "17.1.3",
        "CM3",
        "A bowl at rest under 14 m from the mat line is dead.",
        "test_a_bowl_dies_under_fourteen_metres_and_lives_at_fourteen",
    ),
    Law(
        "17.1.4",
        "CM3",
        "A bowl knocked wholly out of the rink is dead.",
        "test_a_bowl_knocked_out_of_the_rink_is_dead",
    ),
    Law(
        "17.1.6",
        "CM3",
        "A bowl that comes to rest out of the rink is dead.",
        "test_a_bowl_outside_the_rink_is_asked_about_once_the_rink_is_set",
    ),
    Law(
        "18.1",
        "CM3",
        "A jack in the front ditch within the sides is live.",
        "test_a_jack_in_the_ditch_is_live_and_lies_on_the_ditchs_edge",
    ),
    Law(
        "19",
        "CM3",
        "A jack over the bank, outside a side, or back under 20 m from the mat line is dead.",
        "test_a_jack_that_comes_back_dies_under_twenty_metres_and_lives_at_twenty",
    ),
    Law(
        "20",
        "CM3",
        "With a dead jack the end is dead and played again.",
        "test_a_dead_end_is_played_again_under_its_own_number_without_a_score",
    ),
    Law(
        "23",
        "CM3",
        "Shots are a side's bowls that lie nearer than the other side's nearest.",
        "test_shots_agree_with_the_referee_over_random_ends_of_every_format",
    ),
    Law(
        "23.1",
        "CM3",
        "The end is decided once the last bowl has come to rest.",
        "test_an_end_with_bowls_of_the_format_uncalled_is_asked_about",
    ),
    Law(
        "23.3",
        "CM3",
        "Nothing is measured before the last bowl has come to rest.",
        "test_a_tape_before_the_last_bowl_is_pointed_out",
    ),
    Law(
        "24",
        "CM3",
        "Level, both touching or no live bowl: the end counts and nobody scores.",
        "test_an_end_without_a_shot_counts_and_leaves_the_score",
    ),
    Law(
        "40.4",
        "CM1",
        "The distance is between the nearest points of bowl and jack.",
        "test_equal_centres_leave_the_larger_bowl_nearer",
    ),
    Law(
        "46.2",
        "CM3",
        "A green is 31 to 40 m long in the direction of play.",
        "test_sizes_beyond_the_laws_are_asked_about",
    ),
    Law("49.1", "CM3", "A rink is 4.3 to 5.8 m wide outdoors.", "test_sizes_beyond_the_laws_are_asked_about"),
    Law(
        "51.2",
        "CM4",
        "A jack is 63 to 64 mm across outdoors, up to 67 mm synthetic or indoors.",
        "test_sizes_beyond_the_laws_are_asked_about",
    ),
    Law("52", "CM3", "A bowl is 112 to 131 mm across.", "test_sizes_beyond_the_laws_are_asked_about"),
    Law(
        "C.26",
        "CM3",
        "Jack high: nearest parts of bowl and jack are equally far from the mat line.",
        "test_jack_high_compares_nearest_parts",
    ),
)

"""What each mistake costs, and what a vote is worth: the weights by which a decision is made."""

from __future__ import annotations

from voicecoach.hear.values import DROWNED_DB, Link
from voicecoach.understand.plausible import Odds
from voicecoach.value import Value


class Costs(Value):
    """What each mistake costs, in questions."""

    wrong_note: float = 7.0
    """A note accepted that wasn't meant.

    Measured on 300 spoken notes each, outdoors at 10 and at 5 dB: 71 and 53 % right at once, one and none
    wrong; with 9, 69 and 52 %, and as many wrong.
    """
    clear_db: float = 14.0
    """Speech this far above the noise is heard well.

    Notes spoken outdoors at 20 dB are measured as 18 to 23 dB above it, those at 10 dB as 8 to 14, those at
    5 dB as 4 to 11.
    """
    wrong_note_clear: float = 0.7
    """What a wrong note costs over a good link there, as a share of `wrong_note`: belief is too modest there.

    Measured on 303 notes at 20 dB: 96.7 in place of 95.4 % right at once, robotic voices 89 in place of 86 %,
    and none wrong; with half, 97.0 % and one wrong.
    """
    drowned_db: float = DROWNED_DB
    """Speech less far above the noise is drowned in it."""
    wrong_note_drowned: float = 3.0
    """What a wrong note costs there, as a multiple of `wrong_note`.

    Decodes that agree there are not as sure as they seem. Measured at 5 dB: of 102 notes in robotic voices
    one wrong in place of two; of 303 in natural-sounding ones 44 in place of 53 % right at once, none wrong.
    """
    wrong_setting: float = 14.0
    """A setting changed that nobody asked for: its one or two words ("louder") are soon heard in talk."""
    without_name: float = 0.85
    """The share of its belief that a place keeps without a bowl's name: it is sooner talk.

    In five hours of talk, "six metres ten o'clock" was the one note filed that nobody had called.
    """
    name_lost: float = 0.65
    """The same where the name may have been lost: over a poor link, or in speech that has no word.

    Not over a noisy link where speech stands `drowned_db` above the noise: there it would have been noticed.
    Measured on 303 notes at 10 dB: 74.3 in place of 72.9 % right at once, and as many wrong.
    """
    name_takes_s: float = 0.3
    """As much speech without a word may have been a bowl's name, seconds.

    Measured on 20 notes outdoors at 10 and 5 dB of which no name was heard: up to 0.21 s where none was said,
    0.51 and 0.71 s where "their wood" and "our third" were lost. But at 5 dB speech itself goes unnoticed.
    """
    without_side: float = 1.0
    """The share of its belief that a bowl keeps that has its number, but nobody said whose it is."""
    without_side_poorly_heard: float = 0.65
    """The same over a clipped, faint, narrow or noisy link, where "our" and "their" are lost first."""
    without_main: float = 0.85
    """The share of its belief that a note keeps of which the main decode heard nothing.

    On 710 spoken notes at 10 and 5 dB, 4 such notes were right and 1 was wrong; in 2.5 hours of talk, one was
    filed that nobody had called.
    """
    wrong_answer: float = 3.0
    """A question answered, or a word like "stop" obeyed, that wasn't meant."""
    wrong_reply: float = 5.0
    """A note filed on an answer, though something else was meant: that was heard twice."""
    wrong_answer_poorly_heard: float = 8.0
    """The same over such a link: in a crowd, words are heard that nobody said."""
    question: float = 1.0
    """A question back."""
    wasted_question: float = 4.0
    """A question back that offers nothing of what was meant."""
    lost: float = 3.0
    """A note that was meant and is dropped."""
    trusted_from: float = 0.7
    """A lowest confidence in a word below this says nothing for what was heard."""
    trusted: float = 0.9
    """How far full confidence in every word makes up for a decode that heard something else."""
    trusted_setting: float = 1.0
    """The share of that trust which a setting, or a change to the game, has."""
    trusted_setting_poorly_heard: float = 0.0
    """The same over a clipped, faint, narrow or noisy link.

    In eight hours of talk "we lead" and "the head in stereo" were filed: two decodes of four were sure of
    every word, and wrong.
    """
    word_lost: float = 0.0
    """A note accepted whose words are another note's with some left out, beside what a wrong note costs."""
    word_lost_poorly_heard: float = 1.0
    """The same over a clipped, faint, narrow or noisy link: noise takes words away.

    "One foot seven, one o'clock" was "one foot seven o'clock" to three decodes of four. On 600 spoken notes
    outdoors at 5 and 10 dB, one wrong note less and as many right. Well heard, words are sooner added: to a
    clear "jack in the ditch" one decode added "high".
    """
    per_cost: float = 3.0
    """How fast a costlier way to read the same words becomes unlikely (per unit of the parser's cost)."""
    odds: Odds = Odds()
    """What is plausible on the green."""

    def over(self, link: Link, *, unheard_s: float = 0.0, above_noise_db: float | None = None) -> Costs:
        """The costs for what was heard over such a link.

        Args:
            link: Its worst fault.
            unheard_s: Seconds of speech in which no word was heard.
            above_noise_db: How far the speech stood above the noise, decibels; None where nobody knows.
        """
        poor = link != "good"
        drowned = above_noise_db is not None and above_noise_db < self.drowned_db
        clear = not poor and above_noise_db is not None and above_noise_db >= self.clear_db
        noticed = not poor or (link == "noisy" and above_noise_db is not None and not drowned)
        changed: dict[str, float] = {}
        if drowned:
            changed["wrong_note"] = self.wrong_note * self.wrong_note_drowned
        if not noticed or unheard_s >= self.name_takes_s:
            changed["without_name"] = self.name_lost  # weighed against the usual cost, however clear the link
        elif clear:
            changed["wrong_note"] = self.wrong_note * self.wrong_note_clear
        if poor:
            changed |= {
                "wrong_answer": self.wrong_answer_poorly_heard,
                "without_side": self.without_side_poorly_heard,
                "trusted_setting": self.trusted_setting_poorly_heard,
                "word_lost": self.word_lost_poorly_heard,
            }
        return self.model_copy(update=changed)

    def of_nobody(self, *, numbered: bool) -> float:
        """The share of its belief that a bowl keeps of which nobody said whose it is, or even which."""
        return self.without_side if numbered else self.without_name

    def trust(self, lowest: float) -> float:
        """What the lowest confidence in a word is worth, 0 to `trusted`."""
        return self.trusted * max(0.0, (lowest - self.trusted_from) / (1 - self.trusted_from))

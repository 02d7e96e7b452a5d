"""Answers to questions about the game: the score, the order of play, the end."""

from voicecoach.describe.bowls import bowl_name
from voicecoach.describe.confirming_game import game_parts, score_words
from voicecoach.describe.counts import bowls_left
from voicecoach.describe.values import Preferences, Sentence, Sentences
from voicecoach.head.values import Picture
from voicecoach.phrasebook.numbers import cardinal
from voicecoach.phrasebook.wording import sentence
from voicecoach.understand.values import Question


def score(_question: Question, picture: Picture, prefs: Preferences, _since: Picture | None) -> Sentences:
    """The score of the game so far."""
    score = picture.head.score
    key = "score.plain" if not score.ends else "score.one end" if score.ends == 1 else "score.ends"
    return _one(key, score=score_words(score, prefs), ends=cardinal(score.ends))


def next_up(_question: Question, picture: Picture, prefs: Preferences, _since: Picture | None) -> Sentences:
    """Whose bowl is next."""
    if picture.head.finished:
        return _one("answer.end over", end=cardinal(picture.head.end))
    if picture.next_up is None:
        return _one("answer.all called")
    if not (picture.lies or picture.head.lead):
        return _one("answer.lead unknown")
    return _one("answer.next up", name=bowl_name(picture.next_up.side, picture.next_up.number, prefs))


def left(_question: Question, picture: Picture, prefs: Preferences, _since: Picture | None) -> Sentences:
    """How many bowls are still to come."""
    return bowls_left(picture, prefs) or _one("answer.left unknown")


def end(_question: Question, picture: Picture, _prefs: Preferences, _since: Picture | None) -> Sentences:
    """Which end it is, and whether it is over."""
    key = "answer.end over" if picture.head.finished else "answer.end"
    return _one(key, end=cardinal(picture.head.end))


def game(_question: Question, picture: Picture, prefs: Preferences, _since: Picture | None) -> Sentences:
    """How the game is played."""
    parts = game_parts(picture.head.game, prefs)
    return tuple(Sentence(text=text) for text in parts) or _one("answer.no game")


def _one(key: str, **slots: str) -> Sentences:
    return (Sentence(text=sentence(key, **slots)),)

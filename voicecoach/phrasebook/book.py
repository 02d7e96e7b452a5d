"""Reads the phrase book's data files and answers what is in them."""

from __future__ import annotations

import importlib
import random
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import cached_property, lru_cache
from importlib import resources
from typing import Any

from voicecoach.phrasebook.grammar import (
    Choice,
    Constant,
    Node,
    Reference,
    TreeOf,
    compile_rule,
    literals,
    references,
)
from voicecoach.phrasebook.sampling import Decks, Sampler
from voicecoach.phrasebook.shipped import parsed
from voicecoach.phrasebook.spelling import Spelling
from voicecoach.understand.values import OpenQuestion

FILES = (
    "spelling",
    "numbers",
    "bowls",
    "jack",
    "questions",
    "questions_free",
    "game",
    "listening",
    "lines",
    "orders",
    "answers",
    "loose",
    "decoys",
)
Instead = tuple[tuple[str, str], ...]
"""Words that a speech model lacks, each with how it is heard."""
TELLING = ("bowl", "jack", "game", "score")
"""The bags whose words say something in a note."""
SPEECH_MODEL = "vosk-model-small-en-us-0.15"
"""The model that `voicecoach setup` installs, by the name in its manifest."""


@dataclass(frozen=True)
class Command:
    """A whole sentence of the book and the note it makes."""

    node: Choice
    kind: str
    constants: Mapping[str, Constant]
    text: str
    """The templates as they are written: what is drawn from them hangs on nothing else."""
    unsure: bool = False
    """True where it is asked first whether that is meant: "that's wrong"."""
    when: str | None = None
    """What must be going on for it to be meant (`walking`); None for always."""


@dataclass(frozen=True)
class Order:
    """One usual order of a free note's pieces: for the recogniser's phrase list."""

    node: Node
    kind: str
    text: str
    """The template as it is written."""


@dataclass(frozen=True)
class Example:
    """A sentence from the book, its kind, and the fields of its note that it sets."""

    kind: str
    sentence: str
    meaning: Mapping[str, Any]
    about: str
    """What it is an example of, for a list that people read."""


class PhraseBook:
    """The whole book: templates, words, samples, examples."""

    def __init__(self, data: Mapping[str, Any], tree_of: TreeOf | None = None) -> None:
        """Read the book.

        Args:
            data: Its sections.
            tree_of: Gives the tree of each template; None to read them all anew.
        """
        tree_of = tree_of or importlib.import_module("voicecoach.phrasebook.templates").tree_of
        self.lists: dict[str, dict[str, Constant]] = data["lists"]
        self.rules = {name: compile_rule(rule, tree_of) for name, rule in data["rules"].items()}
        self.parts = {name: compile_rule(rule, tree_of) for name, rule in data["parts"].items()}
        self.bags: dict[str, list[str]] = data["bags"]
        self.commands = tuple(_command(entry, tree_of) for entry in data["sentences"])
        self.orders = tuple(
            Order(compile_rule(say, tree_of), entry["kind"], say)
            for entry in data["orders"]
            for say in entry["say"]
        )
        self.fillers: dict[str, list[str]] = data["fillers"]
        self.misheard: list[dict[str, Any]] = data.get("misheard", [])
        self.loose = compile_rule(data["loose"], tree_of)
        """Small words that may fall anywhere in a note."""
        self.loose_heard = compile_rule(
            [phrase for phrase in data["loose"] if phrase not in self._slips()], tree_of
        )
        """Those of them that the ear doesn't write for something else."""
        self.spelling = Spelling(data["units"], data["homophones"], data["typed"], data["heard"])
        self.asking: dict[str, Any] = data["asking"]
        self.game_words = frozenset(data["game_words"])
        self.half_game_words = frozenset(data["half_game_words"])
        self.elsewhere = frozenset(data["elsewhere"])
        self.never_passed_over = frozenset(data["never_passed_over"])
        self._same_answers: dict[str, list[str]] = data["same_answers"]
        self._answers: dict[str, list[str]] = data["answers"]
        self._decoys: list[str] = data["decoys"]
        self._examples: list[dict[str, Any]] = data["examples"]
        self._sampler = Sampler(self.lists, self.rules, self.spelling)

    def _slips(self) -> frozenset[str]:
        """Words that the ear writes for others."""
        heard = [word for slip in self.misheard for phrase in slip["heard"] for word in phrase.split()]
        return frozenset(heard)

    def nodes(self) -> Iterator[Node]:
        """Every tree of the book."""
        yield from self.rules.values()
        yield from self.parts.values()
        yield from (command.node for command in self.commands)
        yield from (order.node for order in self.orders)

    @cached_property
    def vocabulary(self) -> frozenset[str]:
        """Every word of the book, in its own spelling."""
        phrases = [word for node in self.nodes() for word in literals(node)]
        phrases += [phrase for entries in self.lists.values() for phrase in entries]
        phrases += [phrase for entries in self.fillers.values() for phrase in entries]
        return frozenset(" ".join(phrases).split())

    @cached_property
    def readable(self) -> frozenset[str]:
        """Every word that a note may hold: the book's own, and the small words between them."""
        return self.vocabulary | frozenset(literals(self.loose))

    @cached_property
    def telling(self) -> frozenset[str]:
        """Every word that may say something in a note: of a bowl, the jack, the game or the score."""
        todo = [self.rules[name] for name in ("whole", "amount", "gap", "hour", "hour_alone")]
        todo += [self.parts[part] for bag in TELLING for part in self.bags[bag]]
        words, seen = set(self.game_words | self.half_game_words | self.never_passed_over), set[str]()
        while todo:
            node = todo.pop()
            words.update(literals(node))
            for name in set(references(node)) - seen:
                seen.add(name)
                if name in self.rules:
                    todo.append(self.rules[name])
                else:
                    words.update(word for phrase in self.lists[name] for word in phrase.split())
        return frozenset(words)

    @cached_property
    def _words(self) -> frozenset[str]:
        heard = self.spelling.heard_forms(self.vocabulary)
        return frozenset(word for form in heard for word in form.split())

    def words(self) -> frozenset[str]:
        """Every word that the recogniser may hear."""
        return self._words

    def sample(self, each: int, seed: int, kind: str | None = None) -> list[str]:
        """Whole sentences (of one kind of note) as the recogniser spells them, the same for the same seed.

        Of every template so many, or all that a small one has. What one gives hangs on no other: adding a
        template, or taking one out, leaves all other sentences as they were.
        """
        every: list[Order | Command] = [*self.orders, *self.commands]
        drawn = (
            sentence
            for one in every
            if kind is None or one.kind == kind
            for sentence in self._sampler.sentences(one.node, each, random.Random(f"{seed} {one.text}"))
        )
        return list(dict.fromkeys(drawn))

    def drawn(self, each: int, seed: int) -> list[tuple[str, str]]:
        """So many sentences from every template, each with the kind of note it should be."""
        rng, decks = random.Random(seed), Decks()
        templates = [(order.kind, order.node) for order in self.orders]
        templates += [(command.kind, command.node) for command in self.commands if command.node.drawn]
        return [
            (kind, " ".join(self.spelling.speak(self._sampler.draw(node, decks, rng), rng)))
            for kind, node in templates
            for _ in range(each)
        ]

    def slot_phrases(self) -> list[str]:
        """Phrases for one piece of a note alone: every hour, owner, number and word for where."""
        rules = ("hour", "side", "nth")
        nodes: list[Node] = [self.rules[name] for name in rules]
        nodes += [self.parts[name] for name in ("remark", "fix", "moved")]
        return [*self._sampler.all_of(Choice(tuple(nodes))), *self.fillers["call"]]

    def answers(self, question: OpenQuestion | None) -> list[str]:
        """Phrases that answer one open question, and the few that may be said meanwhile; none without one."""
        if question is None:
            return []
        rules = self._answers[question.slot] + (self._answers["unit"] if question.figure is not None else [])
        nodes: list[Node] = [Reference(name) if name in self.rules else self.parts[name] for name in rules]
        offered = [words for answer in question.answers for words in self.answer_words(answer)]
        chosen = [form for words in offered for form in self.spelling.spoken(words)]
        return sorted({*chosen, *self._sampler.all_of(Choice(tuple(nodes)))})

    def answer_words(self, answer: str) -> list[str]:
        """The words that choose an answer that was offered: itself, and others that mean it."""
        return [answer, *self._same_answers.get(answer, [])]

    def decoys(self) -> list[str]:
        """Common words that are not in the book, to soak up chatter."""
        return [word for word in self._decoys if word not in self.words()]

    def examples(self) -> list[Example]:
        """The sentences shown to people and tried by tests."""
        return [
            Example(group["kind"], sentence, meaning, group["about"])
            for group in self._examples
            for entry in group["say"]
            for sentence, meaning in entry.items()
        ]


def _command(entry: Mapping[str, Any], tree_of: TreeOf) -> Command:
    constants = {
        key: value for key, value in entry.items() if key not in ("kind", "say", "read", "when", "unsure")
    }
    said = [{"read": entry["read"]}] if "read" in entry else entry["say"]
    text = f"{entry['kind']} {constants} {said}"
    unsure = bool(entry.get("unsure"))
    return Command(compile_rule(said, tree_of), entry["kind"], constants, text, unsure, entry.get("when"))


class DefinedTwice(ValueError):
    """Two files of the phrase book define the same name: one of the two would be lost without a word."""

    def __init__(self, name: str, section: str, file: str) -> None:
        super().__init__(
            f"{file} defines {name!r} under {section}, and another file has defined it: "
            "give one of the two another name."
        )


def merge(into: dict[str, Any], section: str, value: Any, file: str) -> None:
    """Add a section of one of the files to the book's data.

    Raises:
        DefinedTwice: for a name that another file has already defined in this section.
    """
    if section not in into:
        into[section] = value
    elif isinstance(value, dict):
        for name in value:
            if name in into[section]:
                raise DefinedTwice(name, section, file)
        into[section] = {**into[section], **value}
    else:
        into[section] = [*into[section], *value]


@lru_cache(maxsize=2)
def load(model: str = SPEECH_MODEL, instead: Instead = ()) -> PhraseBook:
    """The book that is shipped with the program, with the slips that are known of a speech model, if any."""
    return PhraseBook(read(model, instead))


def read(model: str = SPEECH_MODEL, instead: Instead = ()) -> dict[str, Any]:
    """The book's files as one table of sections.

    Args:
        model: The speech model's name.
        instead: Words that this model lacks, each with how it is heard.
    """
    data: dict[str, Any] = {}
    folder = resources.files("voicecoach.phrasebook")
    slips = folder / "slips" / f"{model}.yaml"
    for file in [*(folder / f"{name}.yaml" for name in FILES), *([slips] if slips.is_file() else [])]:
        for section, value in parsed(file.read_text(encoding="utf-8")).items():
            merge(data, section, value, file.name)
    data["heard"] = {**data["heard"], **dict(instead)}
    return data

"""Bowls that are called by who played them ("our lead's second"), or by how they lie ("their shot bowl")."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from voicecoach.understand.bag import Piece
from voicecoach.understand.values import BowlName, Expected

PLAYERS: Mapping[str, int] = {"singles": 1, "pairs": 2, "triples": 3, "fours": 4}
BOWLS_EACH: Mapping[str, int] = {"singles": 4, "pairs": 4, "triples": 3, "fours": 2}
"""In each format, where nothing else was set (common practice, no source)."""
OTHERS = ("target", "landmark")
"""Slots that hold the name of another bowl than the one a note is about."""
PLACES: Mapping[str, int] = {"first": 0, "second": 1, "third": 2}


def named(pieces: Sequence[Piece], expected: Expected) -> list[Piece] | None:
    """The pieces with each player's bowl by its number; None where the game has no such bowl."""
    side = next((piece.says["side"] for piece in pieces if "side" in piece.says), None)
    owner = side or expected.next_side
    made = []
    for piece in pieces:
        whose = {"side": side} if side and "nearest" in piece.says else {}
        says = numbered({**whose, **piece.says}, owner, expected)
        for slot in OTHERS:
            other = says.get(slot) if says else None
            if says and isinstance(other, dict):
                known = numbered(other, other.get("side", owner), expected)
                says = {**says, slot: known} if known else None
        if says is None:
            return None
        made.append(piece._replace(says=says))
    return made


def numbered(says: dict[str, Any], owner: Any, expected: Expected) -> dict[str, Any] | None:
    """What a name says, a player's bowl by its number; None where the game has no such bowl.

    Each side's players follow each other with all their bowls: of pairs with four each, the skip has the
    fifth to the eighth. A player's bowl without a number is the next of theirs that is not called yet.
    """
    if "nearest" in says:
        return _nearest(says, expected)
    if "player" not in says:
        return says
    players = PLAYERS.get(expected.format or "", 0)
    each = expected.bowls_each or BOWLS_EACH.get(expected.format or "", 0)
    place = PLACES.get(says["player"], players - 1)
    if not 0 <= place < players or says.get("nth", 1) > each:
        return None
    own = range(place * each + 1, (place + 1) * each + 1)
    free = [number for number in own if BowlName(side=owner, number=number) not in expected.lying]
    number = own[says["nth"] - 1] if "nth" in says else (free or [own[-1]])[0]
    kept = {key: value for key, value in says.items() if key not in ("player", "nth")}
    return {**kept, "number": number}


def _nearest(says: dict[str, Any], expected: Expected) -> dict[str, Any] | None:
    """What "their shot bowl" says, with its number; None where none of theirs lies."""
    sides = (says["side"],) if "side" in says else ("ours", "theirs")
    bowl = next((name for name in expected.nearest if name.side in sides), None)
    kept = {key: value for key, value in says.items() if key != "nearest"}
    return {**kept, "side": bowl.side, "number": bowl.number} if bowl else None

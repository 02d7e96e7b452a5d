"""When to speak of a poor link: not at every utterance, and not for noise in which nobody says a note."""

from __future__ import annotations

from voicecoach.hear.values import Link

_RECENT = 5
_ENOUGH = 3
ALONE_S = 60.0
"""How long wind or a crowd is not spoken of while nobody says a note, seconds."""


class LinkWatch:
    """Tells once that a link is too poor to be trusted, and again only after it was good for a while."""

    def __init__(self) -> None:
        self._recent: list[Link] = []
        self._told: Link = "good"
        self._alone_since_s: float | None = None

    def warning(self, link: Link, *, note: bool = True, at_s: float = 0.0) -> Link | None:
        """The fault to speak of after an utterance heard over such a link, if any.

        Args:
            link: How good the link was.
            note: False where no note was said. Noise alone isn't spoken of in its first minute.
            at_s: When it was said, seconds on the audio clock.
        """
        if note or link == "good":
            self._alone_since_s = None
        elif self._is_new(at_s):
            return None
        self._recent = [*self._recent[-(_RECENT - 1) :], link]
        if self._recent.count("good") >= _ENOUGH:
            self._told = "good"
        usual = max(self._recent, key=self._recent.count)
        if usual in ("good", self._told) or self._recent.count(usual) < _ENOUGH:
            return None
        self._told = usual
        return usual

    def _is_new(self, at_s: float) -> bool:
        """True in the first minute of a poor link over which no note was said."""
        if self._alone_since_s is None:
            self._alone_since_s = at_s
        return at_s - self._alone_since_s < ALONE_S

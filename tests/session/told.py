"""Notes told one after another, as a director says them, and what was said to each."""

from voicecoach.conversation import Conversation
from voicecoach.head.values import Head, Lie
from voicecoach.hear.values import Heard
from voicecoach.session.values import Entry


class Told:
    """One conversation without a journal."""

    def __init__(self, *lines: str) -> None:
        self._conversation = Conversation()
        self.entries: list[Entry] = []
        for line in lines:
            self.tell(line)

    def tell(self, line: str) -> str:
        """Tell one more line; what is said to it."""
        self.entries.append(self._conversation.hear(Heard(text=line)))
        return self.said

    @property
    def outcomes(self) -> list[str]:
        """What came of each line."""
        return [entry.outcome for entry in self.entries]

    @property
    def said(self) -> str:
        """What was said to the last line."""
        return " ".join(sentence.text for sentence in self.entries[-1].say)

    @property
    def head(self) -> Head:
        """The head now."""
        return self._conversation.picture().head

    def lie(self, at: int = 0) -> Lie:
        """How one bowl lies, in the order called."""
        return self._conversation.picture().lies[at]

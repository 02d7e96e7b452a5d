"""The head: what a note does to it, and how it lies."""

from voicecoach.head.decide import decide
from voicecoach.head.evolve import begin, evolve
from voicecoach.head.merge import merged
from voicecoach.head.order import next_up
from voicecoach.head.picture import picture

__all__ = ["begin", "decide", "evolve", "merged", "next_up", "picture"]

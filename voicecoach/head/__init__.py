"""The head: what a note does to it, and how it lies.

What comes in: the play so far and one note. What goes out: an `Event`, a question (`AskBack`) or a refusal
(`Refused`) from `decide`; the next play from `evolve`; a `Picture` of the head, made for speaking, from
`picture`.

`decide` holds every rule: whose bowl it is, what words such as "jack high" say about a place, what the laws
make of a bowl beyond a bound, what a correction corrects. `evolve` holds none. It only applies the facts
that an event carries, so a journal is replayed by folding its events, and a rule that changes next year
does not change a game that was played last year. For the same reason nothing is erased: to take a note back
is an event of its own.

Every end has one frame, seen from the mat: the origin at the centre of the mat line, y up the rink, x to
the right, in metres. The clock face lies on the jack and never turns. A called distance is the gap between
the nearest points of bowl and jack, as the laws measure it.

A called place is an estimate by eye, and is kept as one: a distribution round the called point, as wide as
the caller's eye is unsure (`estimate`), shared where it has a common cause, such as a move of the jack
(`sample`). Who holds shot is counted in many drawn heads as the laws count it. It is only said where nine
in ten of them agree; otherwise it is "too close to call from here". Only a tape that the user entered is
called a measure.

The head may not know any language: it refuses and asks with names and figures (`values/reasons.py`), and
`describe` has the words. It knows no sound, file or clock either, and its random draws are seeded, so that
the same notes always give the same head.
"""

from voicecoach.head.decide import decide
from voicecoach.head.evolve import begin, evolve
from voicecoach.head.merge import merged
from voicecoach.head.order import nearest_first, next_up
from voicecoach.head.picture import picture

__all__ = ["begin", "decide", "evolve", "merged", "nearest_first", "next_up", "picture"]

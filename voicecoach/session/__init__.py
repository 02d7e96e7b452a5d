"""Joins the three stages in the middle into one pure turn.

What comes in: the talk so far, what was heard, who said it and when. What goes out: the talk after it, and
one `Entry` to be journalled and then spoken. Every utterance ends in exactly one of five outcomes: noted,
asked, answered, refused or dropped.

A `Talk` is all that a turn needs to know of what went before: the play, the settings, the open question,
how far a read-back or the walk has got. It is a value. A turn gives a new one and leaves the old one as it
was, so replaying and trying out are the same operation as living through it: `step` changes the head and
the settings, live and in replay, and nothing else does. `resume` folds a journal's entries into the talk as
it stood; an open question and times on the audio clock are not carried over, since nobody waits for them
any more.

What the stage that understands may expect next (whose turn, which question) is worked out here and handed
to it with the call: no stage reaches to its right.

The session may not know microphones, files or the time of day. The time comes in with the utterance
(`When`). What has to happen beside a turn, such as beginning another journal or keeping settings for next
time, is done by `voicecoach.conversation`, which joins the turn to the clock and the journal.
"""

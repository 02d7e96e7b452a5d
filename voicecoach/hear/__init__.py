"""Microphone or recording in, `Heard` out.

What comes in: blocks of sound, mono at 16 kHz, of any length; and, while a question is open, the phrases
that may answer it. What goes out: one `Heard` for each utterance. It holds the likeliest transcript, the
n-best lists of every decode, when speech began and ended, how good the link from mouth to program was, and
how far the voice stood above the noise. Nothing is decided here: a `Heard` says what may have been said,
not what was meant.

Four things are done to the sound.

- `segments` finds where speech begins and ends. A short pause ends an utterance that is a whole note
  already, a longer one is given to an utterance that isn't. Whether it is whole, somebody to the right has
  to say: the ear is handed a function for that (`is_whole`) and knows nothing of notes.
- `level` brings the voice to the loudness that the speech model hears best.
- Several decoders listen at once, each with a phrase list and a treatment of the sound of its own
  (`decodes` says which, `fronts` and `gate` what is done to the sound). A phrase list makes every decoder
  hear something that is in the list, surely and often wrongly, so that one decoder's confidence is worth
  little. Decoders that make different mistakes and agree all the same are worth much: their agreement is
  the evidence that the next stage weighs.
- `link` measures noise and faults. In noise other decoders count than in the quiet.

The ear may know the words of the phrase book (through the protocol `Book`), never what they mean. It has no
clock of its own: times are positions in the stream, in seconds, and the same sound in blocks of another
length gives the same words. Sound libraries and the speech model are loaded by the modules that use them,
so that `hear.values` can be imported where neither is installed.
"""

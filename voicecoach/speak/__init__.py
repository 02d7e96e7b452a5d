"""Sentences in, sound out.

What comes in: `Sentence` values, how fast and how loud to speak, and the headphones or the file they go to.
What goes out: sound, and how far the listener heard it: after a "stop" the session must know in which
sentence the voice fell silent.

The chain is short. `voice` turns one sentence into samples; `saying` gives each its loudness and the pauses
between them; `stereo` and `placing` put a bowl where it lies, for a listener who asked for it; `headphones`
plays, or `files` writes.

Two parts of it can't be trusted and are kept at arm's length. The voice engine may hang, end its process or
report success for a file that it never wrote: it runs in a helper process (`voice_worker`) that is asked
within a time limit and replaced when it fails. The sound library may hang on a device that has just been
unplugged: its calls are made with a limit as well, and the thread that it asks for sound only copies
samples that are ready.

No output passes a fixed ceiling, and every sentence is brought to one loudness (ITU-R BS.1770): somebody
wears this in an open ear, on a green. How loud the headphones themselves are is the listener's to set.

This stage knows sentences and nothing else: neither bowls nor notes, nor why something is said.
"""

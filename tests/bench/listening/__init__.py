"""How well the voice is understood: heard again by the recogniser, in noise by an index, and timed."""

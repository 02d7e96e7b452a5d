"""The phrase book: what may be said and what is spoken, as data.

What comes in: the YAML files beside this one. What goes out: the phrases that the recogniser may hear, the
templates that the parser matches, the examples that the guide lists and the tests try, and the wording of
everything that is spoken.

There is one book so that these can't drift apart. A sentence that is added to it can be heard, understood,
read about in the guide and tested from then on; a word that the speech model lacks, an example that another
kind of note wins, or a template that nothing uses is found by a test.

Templates are written in hassil's notation and compiled to a small tree (`grammar`), because the recogniser
needs sample sentences as much as the parser needs a matcher. The phrase list is drawn from the tree
(`sampling`) and is a set of likelihoods, not only of permissions: what stands in it more often is heard
more often, so numbers that sound alike must be in it about equally often. Each template draws with a seed
of its own, so that adding one leaves the lines of the others as they were. `spelling` holds which spellings
are one word, and how a word that the model lacks is heard; slips of one model, in `slips`, belong to that
model.

The book knows values and no stage: it may be read by `hear`, `understand` and `describe`, and imports none
of them. Changing what is said or spoken means changing data; only a new kind of note needs code, elsewhere.
"""

from voicecoach.phrasebook.book import PhraseBook, load

__all__ = ["PhraseBook", "load"]

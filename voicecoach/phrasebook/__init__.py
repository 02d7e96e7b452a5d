"""The phrase book: what may be said and what is spoken, as data."""

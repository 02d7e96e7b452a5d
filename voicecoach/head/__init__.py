"""The head: what a note does to it, and how it lies."""

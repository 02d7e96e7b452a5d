"""A lesson in noise for the speech model: its weights, taught by itself on clean speech."""

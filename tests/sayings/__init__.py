"""What people say on the green, with what should come of it, written without a look at the phrase book."""

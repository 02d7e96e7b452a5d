"""Sound devices, for the two ends: which there are, and calls to them that must not hang."""

"""Sentences in, sound out."""

"""Microphone or recording in, `Heard` out."""

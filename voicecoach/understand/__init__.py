"""`Heard` in, ranked notes out."""

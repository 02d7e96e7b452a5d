"""Measurements, run by hand: what the program reaches, in plain lines."""

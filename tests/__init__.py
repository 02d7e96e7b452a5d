"""The tests, in folders named after the parts they test."""

"""This program beside what else there is, on the same sound: `python -m tests.bench.against`."""

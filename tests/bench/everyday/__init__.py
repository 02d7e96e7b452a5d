"""How well everyday sayings, questions and commands are heard: python -m tests.bench.everyday."""

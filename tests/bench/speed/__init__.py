"""How fast the main job is on this machine: `python -m tests.bench.speed`."""

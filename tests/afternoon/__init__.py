"""An afternoon in real time, on the virtual devices: `python -m tests.afternoon`."""

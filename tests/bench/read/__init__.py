"""How well and how fast notes are read: `python -m tests.bench.read --help`."""

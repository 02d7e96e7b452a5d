# make demo   set up whatever is missing, then hear a recorded end and read its head back
# make test   set up whatever is missing, then run the tests
# make quick  those that need no sound, model or browser, in less than a minute
# make check  the linters, as the tests run them
# make bench  measure: speed, head, page, hearing, listening, and this program beside others
# make bench-fuzz  bad input by script, with counts
# make soak   hours of sound that holds no note: what is filed for nothing
# make arm    the demo in an emulated Debian for 64-bit ARM, its libraries' wheels listed
# make stick  the program, its model and its guide in one folder, for machines without a network
# make afternoon  a game by voice on virtual devices, in real time
# Everything that is made lies in .venv, models and out, which git ignores.

PYTHON ?= python3
BIN := .venv/bin
.SHELLFLAGS := -eu -c
.DEFAULT_GOAL := help

.PHONY: help
help:
	@sed -n 's/^# \(make .*\)/\1/p' Makefile

# Stamps say what has been done, so that a second run starts at once.
.venv/made: Makefile
	@$(PYTHON) -c 'import sys; sys.exit(sys.version_info < (3, 10))' || \
	  { echo 'Python 3.10 or newer is needed: make PYTHON=/path/to/python3 ...' >&2; exit 1; }
	@$(PYTHON) -m venv .venv || \
	  { echo 'The virtual environment could not be made. On Debian: apt-get install python3-venv' >&2; exit 1; }
	@touch $@

# The tools that build come first, pinned as well: left to itself, pip takes the newest there are.
PIP := $(BIN)/python -m pip install --quiet --no-cache-dir --constraint constraints.txt

# What pip says is shown, and then what to do about it.
OR_ADVICE = 2> .venv/pip.log || { cat .venv/pip.log >&2; $(BIN)/python -m voicecoach.wheels .venv/pip.log; exit 1; }

.venv/program: .venv/made pyproject.toml constraints.txt
	$(PIP) pip hatchling setuptools $(OR_ADVICE)
	$(PIP) --use-pep517 --no-build-isolation --editable . $(OR_ADVICE)
	@touch $@

.venv/tests: .venv/program
	$(PIP) --use-pep517 --no-build-isolation --editable '.[dev]' $(OR_ADVICE)
	@touch $@

.PHONY: ready
ready: .venv/program
	@$(BIN)/python -m voicecoach.native program
	@$(BIN)/voicecoach setup

.PHONY: ready-to-test
ready-to-test: .venv/tests
	@$(BIN)/python -m voicecoach.native tests
	@$(BIN)/voicecoach setup

.PHONY: demo
demo: ready
	@$(BIN)/voicecoach demo

.PHONY: test
test: ready-to-test
	$(BIN)/python -m pytest -n 5 --dist loadfile --no-loadscope-reorder

# The browser, Debian packages and the model aren't needed for it.
.PHONY: quick
quick: .venv/tests
	$(BIN)/python -m pytest -n 2 --quick

.PHONY: check
check: .venv/tests
	$(BIN)/ruff format --check
	$(BIN)/ruff check
	$(BIN)/mypy

# Every measurement; each prints its own table.
.PHONY: bench
bench: bench-speed bench-head bench-page bench-hearing bench-listening bench-against

.PHONY: bench-speed bench-head bench-page bench-hearing bench-listening bench-against bench-fuzz
bench-speed bench-head bench-page bench-hearing bench-listening bench-against bench-fuzz: bench-%: ready-to-test
	$(BIN)/python -m tests.bench.$*

# HOURS=0.5 for less; interrupted, it reports what it heard.
HOURS ?= 5
.PHONY: soak
soak: ready-to-test
	$(BIN)/python -m tests.bench.soak --hours $(HOURS)

# MINUTES=60 for more; `python -m tests.afternoon --busy` keeps every core busy in between.
MINUTES ?= 30
.PHONY: afternoon
afternoon: ready-to-test
	$(BIN)/python -m tests.afternoon --minutes $(MINUTES)

# With 100, 50 and 25 % of one core; `--share 0.3` for another. The kernel's own quota, so it needs root.
.PHONY: bench-quota
bench-quota: ready-to-test
	$(BIN)/python -m tests.bench.quota

# The demo in an emulated Debian for 64-bit ARM, and a wheel for ARM of each library; kept in out/arm.
QEMU ?= qemu-aarch64-static
.PHONY: arm
arm: ready
	QEMU="$(QEMU)" $(BIN)/python -m tests.arm

# STICK=/media/stick puts it there; PYTHONS are those of the ARM machines.
STICK ?= out/stick
PYTHONS ?= 3.11 3.13
.PHONY: stick
stick: ready
	@$(BIN)/python -m voicecoach.stick $(foreach each,$(PYTHONS),--python $(each)) $(STICK)

# The versions installed now, for constraints.txt.
.PHONY: constraints
constraints: .venv/tests
	@$(BIN)/python -m pip freeze --exclude-editable

.PHONY: build
build: .venv/tests
	$(BIN)/python -m pip wheel --quiet --no-deps --wheel-dir dist .

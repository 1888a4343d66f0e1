# Every target sets up what it needs; the first one that runs makes .venv from the lock file.

VENV := .venv
BIN := $(VENV)/bin
READY := $(VENV)/ready
KILLS := 1000
SEED := 1

.PHONY: demo test long quick check strings bench torture picture clean

demo: $(READY)
	$(BIN)/headlap demo

test: $(READY)
	$(BIN)/pytest -n auto --dist worksteal -m "not long"

long: $(READY)
	$(BIN)/pytest -n auto --dist worksteal -m long

quick: $(READY)
	$(BIN)/pytest -n auto --dist worksteal -m "not walk and not long" --hypothesis-profile=quick

check: $(READY)
	$(BIN)/ruff format --check .
	$(BIN)/ruff check .
	$(BIN)/mypy
	$(BIN)/lint-imports

strings: $(READY)
	$(BIN)/python -m tests.words

bench: $(READY)
	$(BIN)/python -m bench

torture: $(READY)
	$(BIN)/python -m tests.torture $(KILLS) $(SEED)

picture: $(READY)
	$(BIN)/python -m bench.picture docs/week.svg

clean:
	rm -rf $(VENV)

# The first Python that runs and is new enough; some machines have names that do not run.
$(READY): requirements.lock pyproject.toml
	@python=; \
	for name in python3.11 python3.12 python3.13 python3; do \
	  if $$name -c 'import sys; sys.exit(sys.version_info < (3, 11))' 2>/dev/null; then \
	    python=$$name; break; \
	  fi; \
	done; \
	if [ -z "$$python" ]; then \
	  echo "Headlap needs Python 3.11 or newer, and none was found on this machine." >&2; exit 1; \
	fi; \
	echo "Setting up $(VENV) with $$python, once; it takes a minute or two."; \
	$$python -m venv $(VENV)
	@$(BIN)/python -m pip install --quiet --disable-pip-version-check --require-hashes -r requirements.lock
	@$(BIN)/python -m pip install --quiet --disable-pip-version-check --no-deps --no-build-isolation --editable .
	@touch $@

# The entry points. On a fresh machine Rust, Python 3.11 or newer, and make are enough:
# everything else is fetched into target/ and .venv/.

PYTHON ?= python3
CARGO  ?= cargo

VENV   := .venv
VPY    := $(VENV)/bin/python
STAMP  := $(VENV)/.requirements-installed
WHEELS := target/wheels

.DEFAULT_GOAL := help
.PHONY: help demo test-browser test test-rust test-python test-cluster test-properties bench size calibration properties schemas lint fmt docs wheel clean python-is-new-enough

help: ## list the targets
	@grep -hE '^[a-z-]+:.*## ' $(MAKEFILE_LIST) | sed -E 's/^([a-z-]+):.*## (.*)/  make \1|\2/' | \
	  while IFS='|' read -r target what; do printf '%-20s %s\n' "$$target" "$$what"; done

demo: ## one invented no-cool call and an invented shop's three years, into target/demo/
	$(CARGO) run --release -p kingvalve-examples --bin no_cool_call -- examples/data/no_cool_r454b.json target/demo
	$(CARGO) run --release -p kingvalve-examples --bin shop -- target/demo/shop

test: test-rust test-python test-properties ## Rust tests; the built wheel under pytest; every refrigerant beside its peers

test-rust:
	$(CARGO) test --workspace

test-python: $(STAMP) wheel
	$(VPY) -m pip install --quiet --force-reinstall --no-deps $(WHEELS)/kingvalve-*.whl
	$(VPY) -m pytest bindings/python/tests

test-browser: ## sheets in headless Chromium: one page, accessible, inert; records against the schema by another validator
	CARGO="$(CARGO)" tests/browser/run

GRID    = target/property_grid.jsonl
PEERS   = PROPERTY_GRID=$(GRID) $(VPY) -m pytest -c bindings/python/pyproject.toml --rootdir . tests/properties

test-properties: $(STAMP)
	$(CARGO) run --quiet -p kingvalve-tests --bin property_grid -- 6 3 > $(GRID)
	$(PEERS) --quiet

CLUSTER := target/cluster

test-cluster: wheel ## tables on a distributed engine, two local workers; installs Java (as root) and PySpark when missing
	@command -v java >/dev/null 2>&1 || { apt-get update -qq && apt-get install -y -qq default-jre-headless; }
	test -x $(CLUSTER)/bin/python || $(PYTHON) -m venv $(CLUSTER)
	$(CLUSTER)/bin/python -m pip install --quiet --requirement examples/python/requirements-cluster.txt
	$(CLUSTER)/bin/python -m pip install --quiet --force-reinstall --no-deps $(WHEELS)/kingvalve-*.whl
	PYSPARK_PYTHON=$(CLUSTER)/bin/python $(CLUSTER)/bin/python examples/python/spark_batches.py

bench: $(STAMP) wheel ## speed, and the table of ratios against peers timed in the same run
	$(VPY) -m pip install --quiet --force-reinstall --no-deps $(WHEELS)/kingvalve-*.whl
	$(CARGO) bench -p kingvalve-benches -- --quiet
	$(VPY) benches/peers.py

size: ## bytes the library adds to a stripped release program that uses one refrigerant; fails above 1.5 MB
	for each in without with; do \
	  $(CARGO) rustc --release --quiet -p kingvalve-benches --bin size_$$each -- -C strip=symbols || exit 1; done
	@without=$$(wc -c < target/release/size_without); with=$$(wc -c < target/release/size_with); \
	  echo "with $$with bytes, without $$without: kingvalve adds $$((with - without))"; \
	  test $$((with - without)) -le 1500000

calibration: ## whether verdicts and intervals keep what they claim, over simulated parts
	$(CARGO) run --release --quiet -p kingvalve-tests --bin calibration

properties: $(STAMP) ## every refrigerant on the full grid beside CoolProp and teqp, and docs/properties.md made anew
	$(CARGO) run --release --quiet -p kingvalve-tests --bin property_grid -- 60 40 > $(GRID)
	$(PEERS) --quiet
	$(VPY) tests/properties/compare.py $(GRID) tests/reference/property_differences.csv
	$(CARGO) run --release --quiet -p kingvalve-tests --bin property_page > target/properties.md
	mkdir -p docs && mv target/properties.md docs/properties.md

schemas: ## the JSON Schemas that the Python package carries, made anew
	$(CARGO) run --quiet -p kingvalve-tests --bin schemas > target/schemas.tsv
	mv target/schemas.tsv bindings/python/schemas.tsv

lint: ## formatting, clippy and rustdoc, warnings as errors
	$(CARGO) fmt --all --check
	$(CARGO) clippy --workspace --all-targets -- -D warnings
	RUSTDOCFLAGS="-D warnings" $(CARGO) doc --workspace --no-deps

fmt: ## format the Rust code
	$(CARGO) fmt --all

docs: ## the reference pages, into target/doc/
	$(CARGO) doc --workspace --no-deps

wheel: $(STAMP) ## the Python wheel, into target/wheels/
	rm -f $(WHEELS)/kingvalve-*.whl
	$(VENV)/bin/maturin build --locked --manifest-path bindings/python/Cargo.toml --compression-level 9 \
	  --interpreter $(VPY) --out $(WHEELS)

clean: ## remove everything built
	rm -rf target $(VENV)

python-is-new-enough:
	@command -v $(PYTHON) >/dev/null 2>&1 || { \
	  echo "make: no $(PYTHON) found; install Python 3.11 or newer, or name one: make PYTHON=python3.12 ..." >&2; exit 1; }
	@$(PYTHON) -c 'import sys; sys.exit(sys.version_info < (3, 11))' || { \
	  echo "make: $$($(PYTHON) --version) is too old; kingvalve needs Python 3.11 or newer. Name one: make PYTHON=python3.12 ..." >&2; \
	  exit 1; }
	@$(PYTHON) -c 'import ensurepip, venv' 2>/dev/null || { \
	  echo "make: $(PYTHON) cannot make virtual environments; install its venv module (on Debian: apt-get install python3-venv)" >&2; \
	  exit 1; }

# Made anew only when the pinned requirements change.
$(STAMP): bindings/python/requirements-dev.txt | python-is-new-enough
	rm -rf $(VENV)
	$(PYTHON) -m venv $(VENV)
	$(VPY) -m pip install --quiet --requirement bindings/python/requirements-dev.txt
	touch $@

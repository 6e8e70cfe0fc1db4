# What each of these does is in dev.py; on Windows: py -3 dev.py demo
PYTHON ?= python3

.PHONY: demo run test check lock

demo run test check:
	@$(PYTHON) dev.py $@ $(ARGS)

# For whoever changes a dependency: needs uv. Writes down exact versions and hashes for every system.
lock:
	UV_PYTHON_DOWNLOADS=never uv pip compile -q --universal --python-version 3.11 --generate-hashes \
	    --custom-compile-command "make lock" pyproject.toml -o requirements.lock
	UV_PYTHON_DOWNLOADS=never uv pip compile -q --universal --python-version 3.11 --generate-hashes \
	    --custom-compile-command "make lock" --constraint requirements.lock --group dev pyproject.toml \
	    -o requirements-dev.lock
	echo 'psycopg[binary]>=3.2' | UV_PYTHON_DOWNLOADS=never uv pip compile -q --universal --python-version 3.11 \
	    --generate-hashes --custom-compile-command "make lock" --constraint requirements.lock - \
	    -o requirements-postgresql.lock

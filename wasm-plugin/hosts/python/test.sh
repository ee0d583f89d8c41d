#!/usr/bin/env bash
# Builds the wheel, installs it in an empty environment and holds it against the command line. Needs rustup and Python 3.10 or
# newer; fetches maturin, numpy and mypy. `LAYLOAD_WHEEL` names a wheel that is there already.
set -euo pipefail
cd "$(dirname "$0")/../../.."
here=wasm-plugin/hosts/python
python=${PYTHON:-python3}
# As `tests/run` builds it, so that nothing is compiled twice.
[ -x target/debug/layload ] || cargo build --locked --workspace --all-features --lib --bins --test cli
export LAYLOAD_PROGRAM=$PWD/target/debug/layload
"$python" $here/make_stubs.py "$LAYLOAD_PROGRAM" --check
wheel=${LAYLOAD_WHEEL:-}
if [ -z "$wheel" ]; then
    bash $here/build.sh --profile dev
    wheel=$(ls target/wheels/layload-*.whl)
fi
rm -rf target/python-test
"$python" -m venv target/python-test
target/python-test/bin/pip install --quiet --disable-pip-version-check "$wheel" mypy
# Types of the package, as a program that uses it meets them.
target/python-test/bin/mypy --cache-dir target/mypy --strict $here/test/typed.py
target/python-test/bin/python $here/test/test_package.py

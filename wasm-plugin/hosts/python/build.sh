#!/usr/bin/env bash
# Builds the wheel into target/wheels. Needs rustup and Python 3.10 or newer; fetches maturin. Options are maturin's, `--profile dev`
# for a quick one.
set -euo pipefail
cd "$(dirname "$0")/../../.."
python=${PYTHON:-python3}
if [ ! -x target/maturin/bin/maturin ]; then
    "$python" -m venv target/maturin
    target/maturin/bin/pip install --quiet --disable-pip-version-check "maturin>=1.9,<2"
fi
rm -f target/wheels/layload-*.whl
CARGO_TARGET_DIR=$PWD/target/python-build target/maturin/bin/maturin build --locked --manifest-path wasm-plugin/hosts/python/Cargo.toml \
    --out target/wheels "${@:---release}"
ls -l target/wheels/layload-*.whl

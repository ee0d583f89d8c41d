#!/usr/bin/env bash
# Makes include/layload.h from the sources; with --check it tells whether the one that is there is up to date. The tool is
# installed into target/tools at first.
set -euo pipefail
cd "$(dirname "$0")/../../.."
version=0.29.4
tool=target/tools/bin/cbindgen
[ -x $tool ] && [ "$($tool --version)" = "cbindgen $version" ] ||
    cargo install --quiet --locked --debug --root target/tools --version $version cbindgen
made=$(mktemp)
trap 'rm -f "$made"' EXIT
$tool --quiet --config wasm-plugin/hosts/c/cbindgen.toml --output "$made" wasm-plugin/hosts/c
header=wasm-plugin/hosts/c/include/layload.h
if [ "${1:-}" = --check ]; then
    diff -u $header "$made" || { echo "$header is not what the sources make: bash wasm-plugin/hosts/c/header.sh" >&2; exit 1; }
else
    cp "$made" $header
fi

#!/usr/bin/env bash
# Tests of the web page in Chromium: types, whole sessions at two widths, the same bytes as the native program.
# Needs rustup, Node 20 or newer and Chromium (`CHROMIUM` names it if it is not /usr/bin/chromium).
set -euo pipefail
cd "$(dirname "$0")/../.."
bash wasm-plugin/build.sh
bash wasm-plugin/web/build.sh
# The program that the page is held against: as `tests/run` builds it, so that nothing is compiled twice.
[ -x target/debug/layload ] || cargo build --package layload --all-features
cd wasm-plugin/web
npm run --silent types
npm test --silent

#!/usr/bin/env bash
# Builds the web page: target/web/index.html, which opens from a disk or any web server. Needs rustup and Node 20 or newer.
set -euo pipefail
cd "$(dirname "$0")"
[ -f ../../target/plugin/layload.wasm ] || bash ../build.sh
[ -d node_modules/esbuild ] && [ node_modules/.package-lock.json -nt package-lock.json ] || npm ci --no-audit --no-fund
npm run --silent build

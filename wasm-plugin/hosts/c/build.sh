#!/usr/bin/env bash
# Builds the library for C and C++: target/c has the shared and the static library and the header. Needs only rustup.
set -euo pipefail
cd "$(dirname "$0")/../../.."
cargo build --locked --release --package layload-c
mkdir -p target/c
for file in target/release/liblayload_c.* target/release/layload_c.*; do
    case $file in
        *.so | *.dylib | *.a | *.dll | *.lib) cp "$file" target/c/ ;;
    esac
done
cp wasm-plugin/hosts/c/include/layload.h target/c/
ls -l target/c

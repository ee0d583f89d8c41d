#!/usr/bin/env bash
# Builds the component: target/plugin/layload.wasm. Needs only rustup.
set -euo pipefail
cd "$(dirname "$0")/.."
# A folder of its own, so that it does not undo the ordinary compiler's work.
folder=target/plugin-build
target=wasm32-unknown-unknown
if [ ! -d "$(rustc --print target-libdir --target $target)" ]; then
    rustup target add $target
fi
# No path of this machine goes into the component, so that its bytes depend on its sources alone.
cargo fetch --locked --quiet --target $target
# Calls are replaced by what they call only where that is small, as where size counts: in full it makes a sixth more of
# program for a twentieth less of time.
flags="-Ctarget-feature=+simd128"$'\x1f'"-Cllvm-args=--inline-threshold=50"
for sources in "${CARGO_HOME:-$HOME/.cargo}"/registry/src/*/; do
    flags+=$'\x1f'"--remap-path-prefix=$sources="
done
CARGO_ENCODED_RUSTFLAGS=$flags cargo rustc --locked --package layload-plugin --profile plugin \
    --crate-type cdylib --target $target --target-dir $folder
mkdir -p target/plugin
cargo run --locked --quiet --package layload-encoder --profile encoder --target-dir target/plugin-build -- \
    $folder/$target/plugin/layload_plugin.wasm target/plugin/layload.wasm
echo "target/plugin/layload.wasm: $(wc -c <target/plugin/layload.wasm) bytes, $(gzip -9c target/plugin/layload.wasm | wc -c) compressed"

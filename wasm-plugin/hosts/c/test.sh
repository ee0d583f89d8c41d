#!/usr/bin/env bash
# Builds the sample hosts in C and C++ and runs them: the same bytes as the program, by the shared and the static library, what
# must be refused is refused, and all of it again under the address sanitizer, which sees what is not freed. Needs rustup and a
# C and a C++ compiler (`CC`, `CXX`).
set -euo pipefail
cd "$(dirname "$0")/../../.."
here=wasm-plugin/hosts/c
# With a test among what is built crates get the features they have in `tests/run`, so that nothing is compiled twice.
cargo build --locked --quiet --workspace --all-features --lib --bins --test cli
library=$PWD/target/debug
out=target/c-test
mkdir -p $out
strict="-Wall -Wextra -Wpedantic -Werror -I$here/include"
shared="-L$library -llayload_c -Wl,-rpath,$library"
# What the static library needs of the system: `cargo rustc -p layload-c -- --print native-static-libs`.
static="$library/liblayload_c.a -lpthread -ldl -lm"
sanitizer="-g -fsanitize=address,undefined -fno-sanitize-recover=all"
cc=${CC:-cc} cxx=${CXX:-c++}
$cc -std=c11 -O1 $strict $here/example/check.c $shared -o $out/check
$cc -std=c11 -O1 $strict $here/example/check.c $static -o $out/check_static
$cc -std=c11 $sanitizer $strict $here/example/check.c $shared -o $out/check_sanitized
$cxx -std=c++17 -O1 $strict $here/example/check.cpp $shared -o $out/check_cpp
$cxx -std=c++17 $sanitizer $strict $here/example/check.cpp $shared -o $out/check_cpp_sanitized
$cc -std=c11 $sanitizer $strict $here/test/refused.c $shared -lm -o $out/refused

same() { # name, question, then what the program is asked
    local name=$1 question=$2 host mesh=$5 job=$7
    shift 2
    local ended=0
    target/debug/layload "$@" --json >$out/wanted.json || ended=$?
    # 1 and 3 are answers too.
    [[ $ended =~ ^[013]$ ]] || { echo "$name: the program ended with $ended" >&2; exit 1; }
    for host in check check_static check_sanitized check_cpp check_cpp_sanitized; do
        $out/$host "$mesh" "$job" "$question" >$out/got.json 2>$out/said || { cat $out/said; exit 1; }
        cmp $out/wanted.json $out/got.json || { echo "$host: $name differs" >&2; exit 1; }
    done
    echo "$name: the same bytes from five hosts"
}
rod=samples/plain_rod.stl rod_job=samples/bench_single.toml
piston=samples/flat_crown_piston.stl piston_job=samples/bench_piston.toml
same "rod by its field" '{"question": "check", "cells": 500}' check --cells=500 $rod --job $rod_job
same "rod by sections" '{"question": "check", "quick": true, "paint": true}' check --quick $rod --job $rod_job
same "piston" '{"question": "check", "quick": true}' check --quick $piston --job $piston_job
same "walls" '{"question": "walls"}' walls --color=never $piston --job $piston_job

for host in check_sanitized check_cpp_sanitized; do
    ended=0
    $out/$host tests/meshes/open.stl $rod_job >$out/got.json 2>$out/said || ended=$?
    [ $ended = 2 ] && [ ! -s $out/got.json ] && grep -q mesh-open $out/said && grep -q help: $out/said ||
        { cat $out/said; echo "$host: an open mesh was not refused" >&2; exit 1; }
done
# Ctrl-C ends a check before the next case of its stress field.
$out/check_sanitized $rod $rod_job '{"question": "check", "cells": 60000}' >$out/got.json 2>$out/said &
host=$!
for _ in $(seq 200); do
    grep -q "solving the stress field" $out/said && break
    sleep 0.1
done
kill -INT $host
ended=0
wait $host || ended=$?
[ $ended = 2 ] && [ ! -s $out/got.json ] && grep -q cancelled $out/said ||
    { cat $out/said; echo "the check was not stopped" >&2; exit 1; }
echo "open meshes are refused, Ctrl-C stops"
$out/refused $rod $rod_job

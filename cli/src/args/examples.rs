use clap::Command;

/// Examples of every command.
const EXAMPLES: [(&str, &[&str]); 20] = [
    (
        "check",
        &[
            "layload check samples/plain_rod.stl --job samples/bench_single.toml",
            "layload check rod.stl -j engine.toml --rpm 6000 --life 5h --material PEEK",
            "layload check *.stl -j engine.toml --quick",
            "layload check rod.stl -j engine.toml --report rod.html",
        ],
    ),
    ("directions", &["layload directions samples/plain_rod.stl -j samples/bench_single.toml --quick"]),
    ("sweep", &["layload sweep rod.stl -j engine.toml --from 2000 --to 9000"]),
    (
        "walls",
        &["layload walls samples/thin_web_rod.stl", "layload walls piston.stl --least-mm 1.8 --mesh-out walls.3mf"],
    ),
    ("places", &["layload places samples/places/mount.stl"]),
    ("compare", &["layload compare old.stl new.stl -j engine.toml"]),
    ("size", &["layload size rod.stl -j engine.toml --rpm 6000 --life 2h"]),
    ("fit", &["layload fit samples/coupons.csv --out mine.toml"]),
    (
        "learn",
        &[
            "layload learn bench.log --mesh rod.stl -j engine.toml --add failed",
            "layload learn bench.log --mesh rod.stl -j engine.toml",
        ],
    ),
    (
        "diagnose",
        &[
            "layload diagnose rod.stl -j engine.toml --seen flat-between-layers,whitened --at \"small end\" --speed-rpm 6000 --time 40s",
            "layload diagnose rod.stl -j engine.toml --seen melted --at 12,0,4.5 --log bench.log --time 20min",
        ],
    ),
    ("plan", &["layload plan rod.stl -j engine.toml", "layload plan rod.stl -j engine.toml --parts 3 --log bench.log"]),
    ("study", &["layload study samples/study.toml --out results"]),
    ("materials", &["layload materials", "layload materials PA12-CF15"]),
    (
        "new-job",
        &[
            "layload new-job engine.toml",
            "layload new-job engine.toml --part piston",
            "layload new-job mount.toml --part mount",
        ],
    ),
    ("new-study", &["layload new-study study.toml --mesh rod.stl --job engine.toml"]),
    ("explain", &["layload explain margin", "layload explain safety", "layload explain"]),
    ("schema", &["layload schema check"]),
    ("completions", &["layload completions bash > layload.bash"]),
    ("man", &["layload man check | man -l -"]),
    ("host", &["layload host target/plugin/layload.wasm check rod.stl -j engine.toml"]),
];

/// Puts the examples under the help of every command.
pub(super) fn with_examples(mut whole: Command) -> Command {
    for (name, lines) in EXAMPLES {
        if whole.find_subcommand(name).is_some() {
            whole = whole.mut_subcommand(name, |command| command.after_help(shown(lines)));
        }
    }
    whole.after_help(shown(&[
        "layload check samples/plain_rod.stl --job samples/bench_single.toml",
        "layload new-job engine.toml",
        "layload explain safety",
    ]))
}

fn shown(lines: &[&str]) -> String {
    let lines = lines.iter().map(|line| format!("\n  {line}"));
    format!("Examples:{}", lines.collect::<String>())
}

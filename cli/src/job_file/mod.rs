//! A job file with every key explained, for a new engine; a study file with every input.

use crate::args::FormName;

/// Tables that every job has, with what differs between parts in braces.
const ENGINE: &str = include_str!("engine.toml");
const PRINT: &str = include_str!("print.toml");
const RUN: &str = include_str!("run.toml");

/// A study with every input explained; names of files in braces.
const STUDY: &str = include_str!("study.toml");

/// Tables of one part.
const ROD: &str = include_str!("rod.toml");
const PISTON: &str = include_str!("piston.toml");
const MOUNT: &str = include_str!("mount.toml");

/// What differs.
struct Usual {
    part: &'static str,
    kind: &'static str,
    pose: &'static str,
    material: &'static str,
    wanted_life_h: &'static str,
    run: &'static str,
    steps: &'static str,
}

/// The job file of a part.
pub(crate) fn text(part: FormName) -> String {
    let (usual, own) = match part {
        FormName::Rod => (
            Usual {
                part: "connecting rod",
                kind: "# kind = \"rod\"",
                pose: "build_direction = \"flat\"",
                material: "name = \"PA12-CF15\"",
                wanted_life_h: "2.0",
                run: "# run_s = 60.0",
                steps: "  { rpm = 3000.0, throttle = 0.4, seconds = 120.0 },\n  { rpm = 5000.0, throttle = 1.0, seconds = 60.0 },\n",
            },
            ROD,
        ),
        FormName::Piston => (
            Usual {
                part: "piston",
                kind: "# kind = \"piston\"",
                pose: "build_direction = \"upright\"",
                material: "name = \"PEI\"",
                wanted_life_h: "0.5",
                run: "run_s = 5.0",
                steps: "  { rpm = 3000.0, throttle = 0.3, seconds = 5.0 },\n",
            },
            PISTON,
        ),
        FormName::Mount => (
            Usual {
                part: "mount",
                kind: "kind = \"any\"",
                pose: "build_direction = \"flat\"",
                material: "name = \"PA12-CF15\"",
                wanted_life_h: "10.0",
                run: "# run_s = 60.0",
                steps: "  { rpm = 5000.0, throttle = 1.0, seconds = 60.0 },\n",
            },
            MOUNT,
        ),
    };
    [ENGINE, own, PRINT, RUN]
        .concat()
        .replace("{part}", usual.part)
        .replace("{kind}", &padded(usual.kind))
        .replace("{pose}", &padded(usual.pose))
        .replace("{material}", &padded(usual.material))
        .replace("{wanted_life_h}", usual.wanted_life_h)
        .replace("{run}", &padded(usual.run))
        .replace("{steps}", usual.steps)
}

/// The study of a part and a job.
pub(crate) fn study(job: &str, mesh: &str) -> String {
    // Text in quotes is written alike in JSON and in TOML.
    let quoted = |name: &str| serde_json::Value::from(name).to_string();
    STUDY.replace("{job}", &quoted(job)).replace("{mesh}", &quoted(mesh))
}

/// Up to the column in which the comments stand.
fn padded(line: &str) -> String {
    format!("{line:<31}")
}

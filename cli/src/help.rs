//! What to do about an error, in the words of a command line: options before keys of the job file.

use layload_core::{BoresByHand, Help, LengthUnit, OwnFile};

const NAME_ROD: &str =
    "name its bores with --small-end x,y,z,diameter, --big-end x,y,z,diameter (millimetres) and --pin-axis x,y,z";

const NAME_PISTON: &str = "if it is a piston, say --part piston and name what is not seen: --crown-direction x,y,z, \
                           --piston-body x,y,z,diameter (a point of its axis), --pin-bore x,y,z,diameter and --pin-axis \
                           x,y,z, or the same keys in [part.piston] of the job file";

/// The help of an error as a sentence.
pub(crate) fn words(help: &Help) -> String {
    match help {
        Help::Words(words) => words.clone().into_owned(),
        Help::Give { key } => give(key),
        Help::SeeJobFile => {
            "keys carry their unit, for example stroke_mm; `layload new-job FILE.toml` writes one with every key explained"
                .into()
        }
        Help::SeeCard => "compare the card with one printed by `layload materials NAME`".into(),
        Help::SayUnit { fitting } => say_unit(fitting),
        Help::ChooseBody => "choose one by its number with --body N, or with body = N in [part] of the job file".into(),
        Help::NameRod => format!(
            "if it is a rod all the same, {NAME_ROD}, or with [part.small_end], [part.big_end] and part.pin_axis in the \
             job file"
        ),
        Help::NamePiston => NAME_PISTON.into(),
        Help::NameEither => format!("if it is a rod, {NAME_ROD}; {NAME_PISTON}"),
        Help::ConfirmBores(bores) => format!(
            "export the part again with finer curves (a chord error of 0.01 mm); or, if the print shall have these \
             sides, say that they are bores: {}",
            options(bores)
        ),
        Help::GivePinAxis => "say it with --pin-axis x,y,z, or with part.pin_axis in the job file".into(),
        Help::AskField => "leave --quick out, so that the stress field is solved".into(),
        Help::LeaveFieldOut => "use sections alone with --quick, or check it as one mesh with its cap".into(),
        Help::AskOfPiston => {
            "a piston is checked by `layload check` and measured by `layload walls`".into()
        }
        Help::Count { usual } => format!("give another --count; {usual} is usual"),
        Help::SpeedRange => "give --from above 0 and --to above it, at most 100 000 rpm".into(),
        Help::InPlaceOfMesh(file) => in_place_of_mesh(*file).into(),
        Help::CorrectLog => "correct or delete that line; entries are best added with layload learn LOG --add".into(),
        Help::GiveSteps => "give --steps RPM:THROTTLE:SECONDS, several with commas between them".into(),
        Help::AddRun => "add a run: layload learn LOG --mesh MESH --job JOB --add survived --steps 5000:1:600".into(),
        Help::ChooseFamily { known } => format!("give --family; the log has: {}", known.join("; ")),
    }
}

/// Options that say the same as a key of a job file, where there is one.
const OPTIONS: [(&str, &str); 9] = [
    ("engine.stroke_mm", "--stroke-mm"),
    ("engine.bore_mm", "--bore-mm"),
    ("engine.reciprocating_mass_g", "--reciprocating-mass-g"),
    ("material.name", "--material NAME"),
    ("duty.steps", "--rpm N"),
    ("part.small_end.", "--small-end"),
    ("part.big_end.", "--big-end"),
    ("part.piston.pin_", "--pin-bore"),
    ("part.piston.", "--piston-body"),
];

/// Of what belongs to the part there is enough to start with in the mesh; of an engine nothing.
fn give(key: &str) -> String {
    let by_hand = key.ends_with("center_mm") || key.ends_with("diameter_mm");
    let known =
        OPTIONS.iter().find(|(own, _)| *own == key || (by_hand && own.ends_with(['.', '_']) && key.starts_with(own)));
    let option = known.map_or("--job FILE with it", |(_, option)| option);
    let set = format!("set {key} in the job file or give {option}");
    if key.starts_with("part.") {
        return set;
    }
    format!(
        "{set}; without a job file a check needs --stroke-mm, --bore-mm, --reciprocating-mass-g, --material and --rpm"
    )
}

fn say_unit(fitting: &[LengthUnit]) -> String {
    let words: Vec<&str> = fitting.iter().map(|unit| unit.word()).collect();
    let which = match words.as_slice() {
        [] => "say in which unit it was drawn with --mesh-unit or part.mesh_unit".into(),
        [word] => format!("if so, give --mesh-unit {word} or set part.mesh_unit = \"{word}\""),
        several => format!(
            "give the unit in which it was drawn, {}, or set part.mesh_unit in the job file",
            several.iter().map(|word| format!("--mesh-unit {word}")).collect::<Vec<_>>().join(" or ")
        ),
    };
    format!("{which}; if it really is that small, say --mesh-unit millimetre")
}

fn options(bores: &BoresByHand) -> String {
    let list =
        |numbers: &[f64]| numbers.iter().map(|value| format!("{:.4}", value + 0.0)).collect::<Vec<_>>().join(",");
    format!(
        "--small-end {} --big-end {} --pin-axis {}",
        list(&bores.small_end_mm),
        list(&bores.big_end_mm),
        list(&bores.pin_axis)
    )
}

fn in_place_of_mesh(file: OwnFile) -> &'static str {
    match file {
        OwnFile::Job => "the mesh comes first and the job after --job: layload check PART.stl --job JOB.toml",
        OwnFile::Card => "the mesh comes first and the card after --card: layload check PART.stl --card CARD.toml",
        OwnFile::Study => "give the study alone: layload study STUDY.toml --out FOLDER",
        OwnFile::BenchLog => "the mesh comes first and the log after --log: layload check PART.stl --log BENCH.log",
    }
}

/// The same of a plugin's host: limits are options.
#[cfg(feature = "host")]
pub(crate) fn of_host(error: &layload_host::HostError) -> String {
    use layload_host::HostError;
    match error {
        HostError::Memory { .. } => "give it more with --memory-mib, or export the mesh coarser".into(),
        HostError::Deadline { .. } => "give it more with --deadline-ms, or export the mesh coarser".into(),
        other => other.help(),
    }
}

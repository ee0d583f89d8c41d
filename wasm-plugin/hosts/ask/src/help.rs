//! What to do about an error, in the names that a host knows: keys of the job, which `set-key` takes, and functions of the
//! interface.

use layload_core::{BoresByHand, Help, LengthUnit, OwnFile};

const NAME_ROD: &str =
    "name its bores with center_mm and diameter_mm of part.small_end and part.big_end, and part.pin_axis";

const NAME_PISTON: &str = "if it is a piston, set part.kind to \"piston\" and name what is not seen of it: \
                           part.piston.crown_direction, center_mm and diameter_mm, pin_center_mm and pin_diameter_mm, and \
                           part.pin_axis";

/// The help of an error as a sentence.
pub fn words(help: &Help) -> String {
    match help {
        Help::Words(words) => words.clone().into_owned(),
        Help::Give { key } => format!("set {key}"),
        Help::SeeJobFile => "keys carry their unit, for example engine.stroke_mm".into(),
        Help::SeeCard => "compare the card with one of the list of materials".into(),
        Help::SayUnit { fitting } => say_unit(fitting),
        Help::ChooseBody => "choose one by its number with part.body".into(),
        Help::NameRod => format!("if it is a rod all the same, {NAME_ROD}"),
        Help::NamePiston => NAME_PISTON.into(),
        Help::NameEither => format!("if it is a rod, {NAME_ROD}; {NAME_PISTON}"),
        Help::ConfirmBores(bores) => format!(
            "export the part again with finer curves (a chord error of 0.01 mm); or, if the print shall have these \
             sides, say that they are bores: {}",
            keys(bores)
        ),
        Help::GivePinAxis => "set part.pin_axis".into(),
        Help::AskField => "ask by the stress field too".into(),
        Help::LeaveFieldOut => "check it without the stress field, or as one mesh with its cap".into(),
        Help::AskOfPiston => {
            "a piston is checked and its walls are measured; compare ways to print it by checks in several build \
             directions"
                .into()
        }
        Help::Count { usual } => format!("ask for another number of them; {usual} is usual"),
        Help::SpeedRange => "give a lowest speed above 0 and a highest above it, at most 100 000 rpm".into(),
        Help::InPlaceOfMesh(file) => format!("give an STL as the part, and {}", place(*file)),
        Help::CorrectLog => "correct or delete that line".into(),
        Help::GiveSteps => "give the run at least one step of speed, throttle and time".into(),
        Help::AddRun => "add a run to the log".into(),
        Help::ChooseFamily { known } => format!("ask for one of the families of the log: {}", known.join("; ")),
    }
}

fn say_unit(fitting: &[LengthUnit]) -> String {
    let words: Vec<String> = fitting.iter().map(|unit| format!("\"{}\"", unit.word())).collect();
    let which = match words.as_slice() {
        [] => "set part.mesh_unit to the unit in which it was drawn".into(),
        [word] => format!("if so, set part.mesh_unit to {word}"),
        several => format!("set part.mesh_unit to the unit in which it was drawn, {}", several.join(" or ")),
    };
    format!("{which}; if it really is that small, to \"millimetre\"")
}

fn keys(bores: &BoresByHand) -> String {
    let list =
        |numbers: &[f64]| numbers.iter().map(|value| format!("{:.4}", value + 0.0)).collect::<Vec<_>>().join(", ");
    let bore = |end: &str, [x, y, z, diameter]: [f64; 4]| {
        format!("part.{end}.center_mm = [{}] and diameter_mm = {diameter:.4}", list(&[x, y, z]))
    };
    format!(
        "{}, {}, part.pin_axis = [{}]",
        bore("small_end", bores.small_end_mm),
        bore("big_end", bores.big_end_mm),
        list(&bores.pin_axis)
    )
}

fn place(file: OwnFile) -> &'static str {
    match file {
        OwnFile::Job => "the job by itself",
        OwnFile::Card => "the card as that of the job",
        OwnFile::Study => "the study to the command line, which runs studies",
        OwnFile::BenchLog => "the bench log to the command line, which learns from logs",
    }
}

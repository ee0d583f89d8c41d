use super::SizeRequest;
use crate::report::{CandidateReport, NumbersBy};

/// What the search came to, in a sentence or two.
pub(super) fn answer(
    candidates: &[CandidateReport],
    lightest: Option<usize>,
    strongest: usize,
    request: &SizeRequest,
    rpm: f64,
    life: f64,
) -> String {
    let wanted = format!("{rpm:.0} rpm for {:.2} h", life / 3600.0);
    if let Some(c) = lightest.map(|k| &candidates[k]) {
        let (reached, then) = match c.by {
            NumbersBy::Field => (
                "The lightest that reaches",
                "The stress field was solved for this size; draw the new part and check its own mesh.",
            ),
            NumbersBy::CorrectedSections => (
                "The lightest that reaches",
                "No mesh of this size was made: its numbers are those of plates, rings and cuts, corrected by the stress field \
                 of the present part. Draw it and check the new mesh.",
            ),
            NumbersBy::Sections => (
                "The lightest in which sections find no fault at",
                "Sections do not see fillets, pockets and blends: check the new mesh by its stress field.",
            ),
        };
        return format!("{reached} {wanted}: {}; {:.1} g, margin {:.2}. {then}", how(c), c.mass_g, c.margin);
    }
    let c = &candidates[strongest];
    let by = if request.field.is_some() { "No size reaches" } else { "By sections no size reaches" };
    format!(
        "{by} {wanted} with thickness from {} to {} times that of the mesh. The nearest has a margin of {:.2}, all modes \
         together: {}; first to fail: {}, {}.",
        request.factors.0,
        request.factors.1,
        c.margin,
        how(c),
        c.governing_mode.words(),
        c.governing_place
    )
}

fn how(c: &CandidateReport) -> String {
    let size = match (c.varied, c.thickness_mm, c.crown_mm) {
        (None, ..) => "the present mesh".into(),
        (_, Some([small, shank, big]), _) => {
            format!("small end {small:.2}, shank {shank:.2} and big end {big:.2} mm thick along the pins")
        }
        (_, _, Some(crown)) => format!("a crown {crown:.2} mm thick"),
        _ => String::new(),
    };
    format!("{size}, {}, {}, {} walls", c.material, c.direction, c.walls)
}

/// Where the search is weak.
pub(super) fn notes(of_part: &str, field: bool, crown: bool, walls_idle: bool) -> Vec<String> {
    let mut notes = vec![
        "A size found inside the range has a margin of just 1. Leave more for what the model does not see, draw it, and check the \
         new mesh."
            .to_string(),
        "Print time is for comparing: acceleration, travel and cooling pauses are not in it, and supports are taken to \
         grow with the height."
            .to_string(),
    ];
    if field && !crown {
        notes.push(
            "Numbers called solved are those of a stress field of the part at that size, its shank sloping to the thickness of \
             each end. Those called corrected are sections raised by what the field found over them in the present part, \
             printed the same way; a fillet or a pocket that grows otherwise than its section is not seen."
                .into(),
        );
    }
    notes.push(of_part.into());
    if walls_idle {
        notes.push(
            "In a part that is solid inside, the number of walls changes nothing; only the job's own was tried.".into(),
        );
    }
    notes
}

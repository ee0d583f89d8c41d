use std::fmt::Write;

use layload_core::Mode;
use layload_core::report::{CauseReport, DiagnosisReport};

use super::numbers::{duration, significant, whole};
use super::safety;
use super::screen::warnings;
use super::wrap::{heading, list, paragraph};

/// Less likely causes are not listed.
const LISTED: f64 = 0.01;

/// What caused a break, and the mode under which a log has it.
pub(crate) fn diagnosis(report: &DiagnosisReport, added: Option<&(String, Option<Mode>)>) -> String {
    let mut text = String::new();
    verdict(&mut text, report);
    run(&mut text, report);
    warnings(&mut text, &report.warnings);
    heading(&mut text, "Causes: how likely each is, and how likely by model, place and time before the looks");
    for cause in report.causes.iter().filter(|cause| cause.probability >= LISTED) {
        row(&mut text, cause);
    }
    list(&mut text, "What the break contradicts", &report.contradictions);
    if let Some(next) = &report.next_look {
        heading(&mut text, "Next look: what would tell the two likeliest causes apart");
        let how = format!("{}? If so, {} is likelier; if not, {}.", capital(&next.how), next.if_there, next.if_not);
        paragraph(&mut text, "- ", "  ", &how);
    }
    list(&mut text, "What to change", &report.changes);
    text.push('\n');
    if let Some((log, mode)) = added {
        let kept = mode
            .map_or_else(|| "without a failure mode, as none is clear".into(), |mode| format!("as {}", mode.words()));
        paragraph(&mut text, "Log         ", "            ", &format!("the run is added to {log} {kept}."));
    }
    safety(&mut text);
    text
}

/// The likeliest cause in a sentence.
fn verdict(text: &mut String, report: &DiagnosisReport) {
    let Some(first) = report.causes.first() else { return };
    let likely = share(first.probability);
    let told = match (&first.mode, report.undecided) {
        (None, _) => format!("no failure mode that is known fits ({likely}): look for a cause outside the model"),
        (Some(_), true) => format!("undecided: {} ({likely}) comes first, the next is nearly as likely", first.words),
        (Some(_), false) => format!("{} ({likely})", first.words),
    };
    paragraph(text, "Cause       ", "            ", &format!("{told}."));
}

/// The run and what was seen.
fn run(text: &mut String, report: &DiagnosisReport) {
    let run = &report.run;
    let after = run.seconds.map_or_else(|| "time not given".into(), |seconds| format!("after {}", duration(seconds)));
    let warm = match run.measured_c {
        Some(measured) => format!("{measured:.0} °C measured, {:.0} °C by the model", run.model_c),
        None => format!("{:.0} °C by the model", run.model_c),
    };
    let failed = format!("the model has {} of such parts failed by then", share(run.failed_by));
    paragraph(text, "Run         ", "            ", &format!("{} rpm, {after}, {warm}; {failed}.", whole(run.rpm)));
    if let Some(place) = &report.place {
        let told =
            if place.at_mm.is_some() { format!("{} ({})", place.region, place.told) } else { place.told.clone() };
        paragraph(text, "Place       ", "            ", &format!("{told}."));
    }
    let looks: Vec<&str> = report.looks.iter().map(|look| look.words.as_str()).collect();
    let told = if looks.is_empty() {
        "nothing yet: say what the break looks like (layload explain looks)".into()
    } else {
        looks.join("; ")
    };
    paragraph(text, "Seen        ", "            ", &format!("{told}."));
}

fn row(text: &mut String, cause: &CauseReport) {
    let mut told = cause.words.clone();
    if let (Some(margin), Some(place)) = (cause.margin, &cause.place) {
        let _ = write!(told, ": margin {}, {place}", significant(margin));
    }
    for (word, looks) in [("for it", &cause.speaks_for), ("against it", &cause.speaks_against)] {
        if !looks.is_empty() {
            let _ = write!(told, "; {word}: {}", looks.join(", "));
        }
    }
    let head = format!("  {:>5} {:>5}  ", share(cause.probability), share(cause.before));
    paragraph(text, &head, &" ".repeat(15), &told);
}

/// A share in per cent, never told as none or all.
fn share(share: f64) -> String {
    if share > 0.995 {
        ">99 %".into()
    } else if share < 0.005 {
        "<1 %".into()
    } else {
        format!("{:.0} %", 100.0 * share)
    }
}

fn capital(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect())
}

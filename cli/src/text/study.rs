use std::fmt::Write;
use std::path::Path;

use layload_core::job::Quantity;
use layload_core::report::{EffectReport, NumbersBy, StudyReport};

use super::numbers::significant;
use super::safety;
use super::screen::warnings;
use super::wrap::{heading, paragraph};

/// What a study found.
pub(crate) fn study(report: &StudyReport, table: &Path) -> String {
    let mut text = String::new();
    let title = report.title.as_ref().map_or_else(String::new, |title| format!("{title}: "));
    let failed = report.cases - report.answered;
    let failed = if failed > 0 { format!(", {failed} gave no answer") } else { String::new() };
    paragraph(
        &mut text,
        "Study  ",
        "       ",
        &format!("{title}{} cases{failed}. {} Table: {}.", report.cases, reaching(report), table.display()),
    );
    warnings(&mut text, &report.warnings);
    for response in &report.responses {
        let unit = if response.unit == "1" { String::new() } else { format!(", {}", response.unit) };
        heading(&mut text, &format!("The {}{unit}", response.name));
        let _ = writeln!(
            text,
            "  mean {}, deviation {}; 90 % from {} to {}",
            significant(response.mean),
            significant(response.deviation),
            significant(response.low),
            significant(response.high)
        );
        let indices = response.effects.iter().any(|effect| effect.first_order.is_some());
        if indices {
            text.push_str("  input                     own  with others  mean at its least and greatest\n");
        } else {
            text.push_str("  input                   share of variance  mean at its least and greatest\n");
        }
        for effect in &response.effects {
            row(&mut text, effect);
        }
    }
    text.push('\n');
    safety(&mut text);
    text
}

/// How many reach the wanted life, and what that rests on.
fn reaching(report: &StudyReport) -> String {
    let count = report.reaching;
    if report.by == NumbersBy::Sections {
        return format!(
            "In {count} of them sections find no fault for the wanted life. Sections do not see fillets, pockets and blends, so \
             a check may still fail."
        );
    }
    let solved = report.correction.map_or_else(
        || "No case was solved by a field of its own.".into(),
        |of| {
            format!(
                "{} cases were solved by a field of their own: their margins are {:.2} to {:.2} times the corrected ones, the \
                 middle one {:.2} times.",
                of.solved, of.low, of.high, of.median
            )
        },
    );
    format!(
        "{count} of them reach the wanted life by sections, corrected by the stress field of the mesh as it is. {solved}"
    )
}

fn row(text: &mut String, effect: &EffectReport) {
    let share = match (effect.first_order, effect.total_order) {
        (Some(first), Some(total)) => format!("{:>5.0} % {:>10.0} %", first * 100.0, total * 100.0),
        _ => format!("{:>17.0} %", effect.share_of_variance * 100.0),
    };
    let at = |quantity: &Quantity| match quantity {
        Quantity::Number(number) => significant(*number),
        Quantity::Word(word) => word.clone(),
    };
    let ends = match (effect.levels.first(), effect.levels.last()) {
        (Some(low), Some(high)) => {
            format!("{} at {}, {} at {}", significant(low.mean), at(&low.at), significant(high.mean), at(&high.at))
        }
        _ => String::new(),
    };
    let _ = writeln!(text, "  {:<22} {share}  {ends}", effect.input);
}

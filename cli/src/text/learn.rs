use std::fmt::Write;

use layload_core::report::{LearnReport, LearnedLifeReport};

use super::numbers::{duration, significant, whole};
use super::safety;
use super::screen::warnings;
use super::wrap::{heading, list, paragraph};

/// What a bench log teaches.
pub(crate) fn learn(report: &LearnReport, unfinished: Option<usize>, numbers: &[usize]) -> String {
    let mut text = String::new();
    let survived = report.runs - report.failures;
    paragraph(
        &mut text,
        "Family ",
        "       ",
        &format!("{}: {} runs, {} failed, {survived} survived.", report.family, report.runs, report.failures),
    );
    if let Some(line) = unfinished {
        paragraph(&mut text, "Log    ", "       ", &format!("line {line}, the last one, is unfinished and left out."));
    }
    warnings(&mut text, &report.warnings);
    known(&mut text, report);
    quantities(&mut text, report);
    runs(&mut text, report, numbers);
    agreement(&mut text, report);
    list(&mut text, "Findings", &report.findings);
    text.push('\n');
    safety(&mut text);
    text
}

/// What is known before the log and with it.
fn known(text: &mut String, report: &LearnReport) {
    heading(text, "What is known                    before the log          with it");
    let range = |middle: f64, [low, high]: [f64; 2]| {
        format!("{} ({} to {})", significant(middle), significant(low), significant(high))
    };
    let (a, b) = (&report.before, &report.after);
    let _ = writeln!(
        text,
        "  {:<22} {:>24} {:>24}",
        "strength / card's",
        range(a.strength, a.strength_range),
        range(b.strength, b.strength_range)
    );
    let _ = writeln!(
        text,
        "  {:<22} {:>24} {:>24}",
        "life / model's",
        range(a.life, a.life_range),
        range(b.life, b.life_range)
    );
    let (a, b) = (&report.life_before, &report.life_after);
    let mut row = |name: &str, of: &dyn Fn(&LearnedLifeReport) -> String| {
        let _ = writeln!(text, "  {name:<22} {:>24} {:>24}", of(a), of(b));
    };
    row("margin on stress", &|life| {
        format!("{} (times or / {})", significant(life.margin), significant(life.margin_factor))
    });
    row("90 % reach", &|life| duration(life.b10_s));
    row("50 % reach", &|life| duration(life.b50_s));
    row("top speed", &|life| life.max_rpm.map_or_else(|| "none".into(), |rpm| format!("{} rpm", whole(rpm))));
    row("wanted life", &|life| life.state.word().to_lowercase());
}

/// What breaks by known modes teach of each quantity.
fn quantities(text: &mut String, report: &LearnReport) {
    if report.quantities.is_empty() {
        return;
    }
    heading(text, "Each by the breaks that it decides      before the log          with it");
    let range = |middle: f64, [low, high]: [f64; 2]| {
        format!("{} ({} to {})", significant(middle), significant(low), significant(high))
    };
    for of in &report.quantities {
        let name = format!("{} ({})", of.name, of.failures);
        let _ = writeln!(
            text,
            "  {name:<26} {:>22} {:>22}",
            range(of.before, of.before_range),
            range(of.after, of.after_range)
        );
    }
}

/// The runs, and what the model says of each.
fn runs(text: &mut String, report: &LearnReport, numbers: &[usize]) {
    heading(text, "The runs, and the share of parts that the model has failed by then");
    text.push_str("  date           rpm          ran              before  after  50 % reach\n");
    for (run, number) in report.entries.iter().zip(numbers) {
        let _ = writeln!(
            text,
            "  {:<10} {:>7} {:>12} {:<10} {:>9.1} % {:>4.0} %  {}",
            run.date.as_deref().unwrap_or("-"),
            whole(run.rpm),
            duration(run.seconds),
            if run.failed { "failed" } else { "survived" },
            run.failed_by_before * 100.0,
            run.failed_by_after * 100.0,
            duration(run.b50_before_s)
        );
        let place = run.place.as_ref().map(|place| format!(", at: {place}; the model: {}", run.model_place));
        let mode = run.mode.map(|mode| format!(", by {}", mode.words()));
        let told = format!("line {number}{}{}", mode.unwrap_or_default(), place.unwrap_or_default());
        paragraph(text, "             ", "             ", &told);
    }
}

/// How likely such a log is.
fn agreement(text: &mut String, report: &LearnReport) {
    let verdict =
        if report.disagrees { "DISAGREES with the model beyond chance" } else { "agrees with the model within chance" };
    let scatter = report
        .scatter_chance
        .map_or_else(String::new, |chance| format!("; that failures scatter so much, {:.1} %", chance * 100.0));
    paragraph(
        text,
        "\nLog    ",
        "       ",
        &format!("{verdict}: the chance of runs so far off is {:.1} %{scatter}.", report.chance * 100.0),
    );
}

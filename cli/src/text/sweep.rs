use std::fmt::Write;

use layload_core::report::SweepReport;

use super::numbers::{duration, significant, whole};
use super::safety;
use super::screen::warnings;
use super::wrap::{heading, paragraph};

const SOLVED: &str = "by the stress field at the speed of the job; at other speeds its ratio to the sections is kept.";

const SECTIONS: &str = "by sections alone, which do not see fillets, pockets and blends: no answer yet.";

/// Life against speed as a table.
pub(crate) fn sweep(report: &SweepReport) -> String {
    let mut text = String::new();
    let holding = report.sweep.iter().filter(|point| point.margin >= 1.0);
    let wanted = duration(report.wanted_life_s);
    let (hold, holds) =
        if report.solved { ("hold", "holds") } else { ("show no fault by sections", "shows no fault by sections") };
    let answer = match (holding.clone().next(), holding.clone().next_back()) {
        (Some(first), Some(last)) if holding.count() == report.sweep.len() => {
            format!("all from {} to {} rpm {hold} for {wanted}.", whole(first.rpm), whole(last.rpm))
        }
        (Some(first), Some(last)) => {
            format!("of those checked, {} to {} rpm {hold} for {wanted}.", whole(first.rpm), whole(last.rpm))
        }
        _ => format!("no speed checked {holds} for {wanted}."),
    };
    paragraph(&mut text, "Speeds ", "       ", &answer);
    paragraph(&mut text, "Stress ", "       ", if report.solved { SOLVED } else { SECTIONS });
    warnings(&mut text, &report.warnings);
    heading(&mut text, "Life against the top speed of the duty");
    text.push_str("     rpm   90 % reach    50 % reach   hottest  margin  fails first\n");
    for point in &report.sweep {
        let heat = point.peak_temperature_c.map_or_else(|| "runs away".into(), |c| format!("{c:.0} °C"));
        let margin = if point.margin > 99.0 { "> 99".into() } else { significant(point.margin) };
        let _ = writeln!(
            text,
            "  {:>6} {:>13} {:>13} {heat:>9} {margin:>7}  {}",
            whole(point.rpm),
            duration(point.life_b10_s),
            duration(point.life_b50_s),
            point.governing_mode.words()
        );
    }
    text.push_str("  margin: of all modes together, 1 is the limit\n");
    text.push('\n');
    safety(&mut text);
    text
}

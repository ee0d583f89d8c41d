use crate::report::Report;

use super::answer::noun;
use super::numbers::{duration, significant};

/// How far the margin may be off, why, and what to measure first.
pub(super) fn confidence(report: &Report) -> String {
    let (verdict, uncertainty) = (&report.verdict, &report.uncertainty);
    if verdict.margin <= 0.0 {
        return "there is no margin to judge.".into();
    }
    if uncertainty.influences.is_empty() {
        return "how far this margin may be off was not worked out.".into();
    }
    let measure =
        uncertainty.measure_first.as_ref().map_or_else(String::new, |name| format!(" Measure first: {name}."));
    format!(
        "the true margin is probably between {} and {} ({:.0} % from values nobody measured).{measure}",
        significant(verdict.margin / uncertainty.margin_factor),
        significant(verdict.margin * uncertainty.margin_factor),
        uncertainty.memory_share * 100.0
    )
}

/// How lives scatter, and how far they can be off; none where the first load breaks half of the parts.
pub(super) fn lives(report: &Report) -> Option<String> {
    let lives = &report.life;
    let or_none = |seconds: f64| if seconds > 0.0 { duration(seconds) } else { "less than one full load".into() };
    (lives.b50_s > 0.0).then(|| {
        format!(
            "50 % of {}s last {}, 99 % last {}. With material values at their 1-in-20 limits 90 % last: {} if weak, {} if strong.",
            noun(report),
            duration(lives.b50_s),
            or_none(lives.b1_s),
            or_none(lives.b10_low_s),
            duration(lives.b10_high_s)
        )
    })
}

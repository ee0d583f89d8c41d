use layload_core::report::Report;

use super::sweep::LIVES_H;
use crate::plot::{Axis, Strip};
use crate::text::numbers::duration;

/// The lives of one in ten to half the parts against the wanted life.
pub(crate) fn life(report: &Report) -> Strip {
    let (lives, wanted) = (&report.life, report.verdict.wanted_life_s);
    let hours = |seconds: f64| (seconds / 3600.0).clamp(LIVES_H.0, LIVES_H.1);
    let all = [lives.b10_s, lives.b50_s, wanted].map(hours);
    let low = all.into_iter().fold(f64::INFINITY, f64::min) / 3.0;
    let high = all.into_iter().fold(0.0, f64::max) * 3.0;
    let words = |seconds: f64| if seconds > 0.0 { duration(seconds) } else { "first load".into() };
    let after = |seconds: f64| {
        if seconds > 0.0 { format!("after {}", duration(seconds)) } else { "at the first full load".into() }
    };
    Strip {
        title: "Running time".into(),
        told: format!(
            "10 % of parts have failed {}, 50 % {}; wanted: {}. With material values at their 1-in-20 limits 10 % fail {} if \
             weak, {} if strong.",
            after(lives.b10_s),
            after(lives.b50_s),
            duration(wanted),
            after(lives.b10_low_s),
            after(lives.b10_high_s)
        ),
        along: Axis::powers("running time, h", low, high),
        stretch: (hours(lives.b10_s), hours(lives.b50_s)),
        whiskers: (hours(lives.b10_low_s), hours(lives.b10_high_s)),
        above: if hours(lives.b10_s) < hours(lives.b50_s) {
            vec![
                (hours(lives.b10_s), format!("10 % failed: {}", words(lives.b10_s))),
                (hours(lives.b50_s), format!("50 % failed: {}", words(lives.b50_s))),
            ]
        } else {
            vec![(hours(lives.b50_s), format!("50 % failed: {}", words(lives.b50_s)))]
        },
        limit: (hours(wanted), format!("wanted {}", duration(wanted))),
    }
}

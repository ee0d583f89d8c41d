//! What is the same of two answers.

use layload_core::LoadedPart;
use layload_core::report::Report;
use nalgebra::Point3;

use super::corpus::frame;

/// What a check says, with places seen from the part.
pub(super) struct Answer {
    pub(super) holds: Option<bool>,
    pub(super) modes: Vec<Mode>,
}

/// What a check says of a way to fail.
pub(super) struct Mode {
    pub(super) name: String,
    /// Without numbers.
    pub(super) place: String,
    /// In the frame of the part, m. Beside the line of centres and along the pins only how far: of two places that mirror
    /// each other, with the same stress, either may be named.
    pub(super) at: Option<Point3<f64>>,
    pub(super) margin: f64,
}

impl Answer {
    pub(super) fn of(report: &Report, part: &LoadedPart) -> Self {
        let frame = frame(part);
        let at = |mm: [f64; 3]| {
            let at = frame.point(&Point3::from(mm.map(|c| c * 1e-3)));
            Point3::new(at.x, at.y.abs(), at.z.abs())
        };
        let governing = Mode {
            name: format!("{:?}", report.verdict.governing_mode),
            place: words(&report.verdict.governing_place),
            at: None,
            margin: report.verdict.margin,
        };
        let modes = report.modes.iter().map(|mode| Mode {
            name: format!("{:?}", mode.mode),
            place: words(&mode.place),
            at: mode.center_mm.map(at),
            margin: mode.margin,
        });
        Self { holds: report.verdict.holds, modes: std::iter::once(governing).chain(modes).collect() }
    }

    /// Where two answers differ, and the greatest share by which their margins do.
    pub(super) fn against(&self, other: &Self, length: f64) -> (Vec<String>, f64) {
        let mut faults = Vec::new();
        let mut spread = 0.0_f64;
        if self.holds != other.holds {
            faults.push(format!("holds {:?} and {:?}", self.holds, other.holds));
        }
        for (number, mode) in self.modes.iter().enumerate() {
            // The first is what governs; the others are found by name and place, as equal margins may change places.
            let among = if number == 0 { &other.modes[..1] } else { &other.modes[1..] };
            let Some(same) = among.iter().find(|same| (&same.name, &same.place) == (&mode.name, &mode.place)) else {
                let role = if number == 0 { "does not govern" } else { "is missing" };
                faults.push(format!("{} at {} {role}", mode.name, mode.place));
                continue;
            };
            // A margin of nothing has no share.
            if (same.margin - mode.margin).abs() > 1e-12 {
                spread = spread.max((same.margin / mode.margin - 1.0).abs());
            }
            if let (Some(a), Some(b)) = (mode.at, same.at)
                && (a - b).norm() > PLACE * length
            {
                faults.push(format!("{} at {a} and {b}", mode.name));
            }
        }
        (faults, spread)
    }
}

/// Places lie as near to each other, over the length of the part, as to one point of it: many times rounding, and a tenth
/// of the step between stations.
const PLACE: f64 = 3e-4;

fn words(place: &str) -> String {
    place.chars().filter(|c| !c.is_ascii_digit() && *c != '.').collect()
}

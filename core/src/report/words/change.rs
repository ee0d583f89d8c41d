//! A change of the input from what to what, in its unit.

use crate::report::{ChangedInput, ChangedValue, FurtherChange, SensitivityReport};

use super::numbers::whole;

impl SensitivityReport {
    /// What is changed, from what to what; of what has no number in words.
    pub fn told(&self) -> String {
        told(self)
    }

    /// The same change taken further, with the mass that it adds.
    pub(super) fn told_further(&self, further: &FurtherChange) -> String {
        let what = told(&Self { moves: further.moves.clone(), ..self.clone() });
        match further.mass_change_g {
            Some(grams) if grams >= 0.05 => format!("{what} (+{grams:.1} g)"),
            _ => what,
        }
    }
}

fn told(entry: &SensitivityReport) -> String {
    let SensitivityReport { key, input, change, moves, .. } = entry;
    match key {
        ChangedInput::BuildDirection => return format!("build direction {change}"),
        ChangedInput::Moisture => return "plastic dried and kept dry".into(),
        ChangedInput::CrownPlate => return format!("aluminium plate of {change} on the crown"),
        ChangedInput::CrownCoating => return format!("ceramic coating of {change} on the crown"),
        _ => {}
    }
    // Values of one change have one unit.
    match moves.first() {
        Some(first) => {
            let list: Vec<String> = moves.iter().map(from_to).collect();
            format!("{} {}", list.join(", "), first.unit).trim_end().into()
        }
        None => format!("{input}: {change}"),
    }
}

/// A value before and after, with as many digits as show the step.
fn from_to(value: &ChangedValue) -> String {
    let ChangedValue { name, from, to, unit } = value;
    let digits = match unit.as_str() {
        "mm" if (to - from).abs() < 0.095 => 3,
        "mm" if (to - from).abs() < 0.95 => 2,
        "mm" | "g" | "bar" | "s" | "" => 1,
        _ => 0,
    };
    let number = |value: f64| if digits == 0 { whole(value) } else { format!("{value:.digits$}") };
    format!("{name} {} -> {}", number(*from), number(*to))
}

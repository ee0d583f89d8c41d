//! A change of the input from what to what, in its unit.

use crate::report::{PistonReport, Report, RodReport, SensitivityReport, TemperatureFrom};

use super::numbers::whole;
use super::taken::number;

/// Eyes whose depths differ by less are told as one, mm.
const ALIKE_MM: f64 = 0.05;

/// How a value is changed.
#[derive(Debug, Clone, Copy, PartialEq)]
enum Step {
    Times(f64),
    Plus(f64),
    To(f64),
}

impl Step {
    /// From the words of a change, such as `10 % more`.
    fn read(words: &str) -> Option<Self> {
        match words {
            "half" => return Some(Self::Times(0.5)),
            "twice" | "two for each" => return Some(Self::Times(2.0)),
            "half as thick again" => return Some(Self::Times(1.5)),
            _ => {}
        }
        let mut parts = words.split(' ');
        let amount: f64 = parts.next()?.parse().ok()?;
        let (unit, way) = (parts.next()?, parts.next());
        let sign = if way == Some("less") { -1.0 } else { 1.0 };
        match (unit, way) {
            ("%", Some(_)) => Some(Self::Times(1.0 + sign * amount / 100.0)),
            ("%", None) => Some(Self::To(amount)),
            (_, Some(_)) => Some(Self::Plus(sign * amount)),
            (_, None) => None,
        }
    }

    fn of(self, base: f64) -> f64 {
        match self {
            Self::Times(factor) => base * factor,
            Self::Plus(more) => base + more,
            Self::To(value) => value,
        }
    }
}

/// A value that a change starts from.
struct Base {
    name: &'static str,
    value: f64,
    unit: &'static str,
}

impl Base {
    fn told(&self, step: Step) -> String {
        let (from, to) = (self.value, step.of(self.value));
        let digits = match self.unit {
            "mm" if (to - from).abs() < 0.095 => 3,
            "mm" if (to - from).abs() < 0.95 => 2,
            "mm" | "g" | "bar" | "s" | "" => 1,
            _ => 0,
        };
        let number = |value: f64| if digits == 0 { whole(value) } else { format!("{value:.digits$}") };
        format!("{} {} -> {}", self.name, number(from), number(to))
    }
}

/// What is changed, from what to what; without a value to start from in the words of the change.
pub fn told(report: &Report, entry: &SensitivityReport) -> String {
    if let Some(fixed) = fixed(&entry.input, &entry.change) {
        return fixed;
    }
    let bases = bases(report, &entry.input);
    match Step::read(&entry.change).filter(|_| !bases.is_empty()) {
        // Those of one change have one unit.
        Some(step) => {
            let list: Vec<String> = bases.iter().map(|base| base.told(step)).collect();
            format!("{} {}", list.join(", "), bases.first().map_or("", |base| base.unit)).trim_end().into()
        }
        None => format!("{}: {}", entry.input, entry.change),
    }
}

/// Changes that start from nothing.
fn fixed(input: &str, change: &str) -> Option<String> {
    match input {
        "build direction" => Some(format!("build direction {change}")),
        "water in the plastic" => Some("plastic dried and kept dry".into()),
        "aluminium plate on the crown" => Some(format!("aluminium plate of {change} on the crown")),
        "ceramic coating of the crown" => Some(format!("ceramic coating of {change} on the crown")),
        _ => None,
    }
}

fn bases(report: &Report, input: &str) -> Vec<Base> {
    let one = |name: &'static str, value: Option<f64>, unit: &'static str| -> Vec<Base> {
        value.map(|value| Base { name, value, unit }).into_iter().collect()
    };
    let taken = |name: &'static str, unit: &'static str| one(name, number(report, name), unit);
    match input {
        "speed" => one("speed", Some(report.verdict.duty_rpm), "rpm"),
        "reciprocating mass" => taken("reciprocating mass", "g"),
        "peak cylinder pressure" => {
            one("peak cylinder pressure", number(report, input).or(Some(report.loads.peak_pressure_bar)), "bar")
        }
        "temperature of air and pins" | "temperature of air, pin and cylinder" => around(report),
        "infill" => taken("infill", "%"),
        "nozzle of the printer" => taken("nozzle temperature", "°C"),
        "air round the print" => {
            one("air around the print", number(report, "air round the part while it is printed"), "°C")
        }
        "parts printed together" => one("printed together", number(report, input), "parts"),
        "compression ratio" => taken("compression ratio", ""),
        "length of one run" => taken("length of one run", "s"),
        "what lies on the crown" => one("layer on the crown", number(report, "thickness of the layer"), "mm"),
        "cooling under the crown" => taken("film under the crown", "W/(m² K)"),
        "radial clearance of the pin" => {
            one("radial clearance of the pin", number(report, "radial clearance of the pin in its bosses"), "mm")
        }
        _ => {
            let rod = report.rod.as_ref().map(|rod| of_rod(report, rod, input));
            let piston = report.piston.as_ref().map(|piston| of_piston(piston, input));
            rod.or(piston).unwrap_or_default()
        }
    }
}

/// Temperatures around the part, or the one given for it.
fn around(report: &Report) -> Vec<Base> {
    if report.heat.from == TemperatureFrom::Given {
        return vec![Base { name: "part temperature", value: report.heat.taken_c, unit: "°C" }];
    }
    let names = ["crankcase air", "piston pin", "crank pin", "cylinder wall"];
    let short = |name: &'static str| if name == "crankcase air" { "air" } else { name };
    // No crank pin touches a piston.
    let of_part = names.into_iter().filter(|name| *name != "crank pin" || report.rod.is_some());
    of_part.filter_map(|name| Some(Base { name: short(name), value: number(report, name)?, unit: "°C" })).collect()
}

fn of_rod(report: &Report, rod: &RodReport, input: &str) -> Vec<Base> {
    let mm = |name: &'static str, value: f64| Base { name, value, unit: "mm" };
    match input {
        "rod thickness along the pins" => {
            let eyes: Vec<f64> = rod.eyes.iter().map(|eye| eye.thickness_mm).collect();
            match eyes.as_slice() {
                [small, big] if (small - big).abs() >= ALIKE_MM => {
                    vec![mm("thickness along the pins: small end", *small), mm("big end", *big)]
                }
                [one, ..] => vec![mm("rod thickness along the pins", *one)],
                [] => Vec::new(),
            }
        }
        "radial clearance of the pins" => {
            let names = ["radial clearance of the piston pin", "radial clearance in the big end"];
            let all = names.into_iter().filter_map(|name| Some(mm(name, number(report, name)?)));
            all.filter(|base| base.value > 0.0).collect()
        }
        "preload of the cap's studs" => {
            let of_cap = rod.caps.first().map(|cap| Base {
                name: "preload of the cap's studs",
                value: cap.preload_n,
                unit: "N",
            });
            of_cap.into_iter().collect()
        }
        _ => Vec::new(),
    }
}

fn of_piston(piston: &PistonReport, input: &str) -> Vec<Base> {
    let mm = |name: &'static str, value: f64| Base { name, value, unit: "mm" };
    match input {
        "crown thickness" => vec![mm("crown thickness", piston.crown.thickness_mm)],
        "softening temperature" => {
            vec![Base { name: "softening temperature", value: piston.crown_heat.softening_c, unit: "°C" }]
        }
        "wall round the pin bore" => {
            piston.boss_wall_mm.map(|wall| mm("wall round the pin bore", wall)).into_iter().collect()
        }
        "height of the ring lands" => {
            let least = piston.lands.iter().map(|land| land.height_mm).reduce(f64::min);
            least.map(|height| mm("height of the ring lands", height)).into_iter().collect()
        }
        "length of the skirt" => vec![mm("length of the skirt", piston.skirt_length_mm)],
        "clearance in the cylinder" => {
            let skirt = piston.growth.first().map(|growth| growth.cold_clearance_mm);
            skirt.map(|cold| mm("cold clearance in the cylinder", cold)).into_iter().collect()
        }
        _ => Vec::new(),
    }
}

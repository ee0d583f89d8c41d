use crate::report::{HeatReport, PistonReport, Report, RodReport, TemperatureFrom};

use super::numbers::{duration, whole};

/// How hot it gets.
pub(super) fn heat(report: &Report) -> String {
    match (&report.piston, &report.rod) {
        (Some(piston), _) => crown(&report.heat, piston),
        (None, Some(rod)) => shank(&report.heat, rod),
        (None, None) => format!("strength is taken at up to {:.0} °C.", report.heat.taken_c),
    }
}

/// Of a rod.
fn shank(heat: &HeatReport, rod: &RodReport) -> String {
    let settled = match (heat.hottest.temperature_c, rod.highest_c) {
        (Some(peak), Some(most)) => {
            format!("shank {peak:.0} °C; lasts with all of it at {most:.0} °C")
        }
        (Some(peak), None) => format!("shank {peak:.0} °C; would not last even at 23 °C"),
        (None, Some(most)) => {
            format!("the shank heats itself without limit; lasts with all of it at {most:.0} °C")
        }
        (None, None) => "the shank heats itself without limit".into(),
    };
    let runaway = rod.runaway_rpm.map_or_else(String::new, |rpm| format!("; runaway from {} rpm", whole(rpm)));
    let taken = match heat.from {
        TemperatureFrom::Given => format!("; strength is taken at the given {:.0} °C", heat.taken_c),
        TemperatureFrom::Settled => String::new(),
        TemperatureFrom::AfterRun => format!("; strength is taken after one run, at up to {:.0} °C", heat.taken_c),
    };
    format!("{settled}{runaway}{taken}.")
}

/// Of a piston.
fn crown(heat: &HeatReport, piston: &PistonReport) -> String {
    let crown = &piston.crown_heat;
    let surface = crown.surface_c;
    let taken = match heat.from {
        TemperatureFrom::Given => ". Strength is taken at the given temperature",
        TemperatureFrom::Settled | TemperatureFrom::AfterRun => "",
    };
    let course = match crown.softening_time_s {
        Some(seconds) => {
            let land = crown.land_soft_s.is_some_and(|land| land <= seconds);
            format!(
                "{} is lost after {}: too much of it is soft. Until then the crown's face reaches {surface:.0} °C; the \
                 plastic softens at {:.0} °C",
                if land { "the top land" } else { "the crown" },
                duration(seconds),
                crown.softening_c
            )
        }
        None => format!(
            "crown face {surface:.0} °C in {}, {:.0} °C at {:.2} mm; softens at {:.0} °C",
            duration(crown.run_s),
            crown.counting_depth_c,
            crown.counting_depth_mm,
            crown.softening_c
        ),
    };
    format!("{course}{taken}.")
}

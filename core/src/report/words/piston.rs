use crate::report::{HeatReport, PistonReport, TemperatureFrom};

use super::numbers::duration;

/// How hot the crown gets, in one sentence or two.
pub(super) fn crown_heat(heat: &HeatReport, piston: &PistonReport) -> String {
    let crown = &piston.crown_heat;
    let surface = heat.crown_surface_c.unwrap_or(f64::NAN);
    let soft = match heat.softening_time_s {
        Some(seconds) => format!(
            "so much softens that it counts as lost after {} ({})",
            duration(seconds),
            if crown.land_soft_s.is_some_and(|land| land <= seconds) { "the top land" } else { "the crown" }
        ),
        None => format!("the crown reaches {:.0} °C at the depth that counts", crown.counting_depth_c),
    };
    let taken = match heat.from {
        TemperatureFrom::Given => "Strength was taken at the given temperature instead",
        TemperatureFrom::Settled | TemperatureFrom::AfterRun => "Strength was taken place by place",
    };
    format!(
        "in a run of {} the crown's face reaches {surface:.0} °C; {soft}; it softens at {:.0} °C. {taken}.",
        duration(crown.run_s),
        crown.softening_c
    )
}

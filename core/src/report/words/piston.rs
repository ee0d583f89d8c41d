use crate::report::data::{HeatReport, TemperatureFrom};
use crate::report::piston_data::PistonReport;

use super::numbers::duration;

/// How hot the crown gets, in one sentence or two.
pub(crate) fn crown_heat(heat: &HeatReport, piston: &PistonReport) -> String {
    let crown = &piston.crown_heat;
    let surface = crown.surface_c;
    let taken = match heat.from {
        TemperatureFrom::Given => "Strength was taken at the given temperature instead",
        TemperatureFrom::Settled | TemperatureFrom::AfterRun => "Strength was taken place by place",
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
            "in a run of {} the crown's face reaches {surface:.0} °C; the crown reaches {:.0} °C at the depth that counts; \
             it softens at {:.0} °C",
            duration(crown.run_s),
            crown.counting_depth_c,
            crown.softening_c
        ),
    };
    format!("{course}. {taken}.")
}

use layload_core::DutyStep;
use layload_core::job::Job;

use crate::args::JobArguments;

/// Lays the options over a job.
pub(super) fn overlay(job: &mut Job, options: &JobArguments) {
    fn set<T>(slot: &mut Option<T>, option: Option<T>) {
        if option.is_some() {
            *slot = option;
        }
    }
    set(&mut job.engine.bore_mm, options.bore_mm);
    set(&mut job.engine.stroke_mm, options.stroke_mm);
    set(&mut job.engine.reciprocating_mass_g, options.reciprocating_mass_g);
    set(&mut job.engine.compression_ratio, options.compression_ratio);
    set(&mut job.engine.strokes, options.strokes.map(Into::into));
    if options.peak_pressure_bar.is_some() {
        job.engine.gas.peak_pressure_bar = options.peak_pressure_bar;
        job.engine.gas.pressure_table = None;
    }
    set(&mut job.print.build_direction, options.build_direction);
    set(&mut job.print.walls, options.walls);
    set(&mut job.print.bead_width_mm, options.bead_width_mm);
    set(&mut job.print.layer_height_mm, options.layer_height_mm);
    set(&mut job.print.infill_percent, options.infill_percent);
    if options.material.is_some() {
        job.material.name.clone_from(&options.material);
        job.material.card_file = None;
    }
    if let Some(path) = &options.card {
        job.material.name = None;
        job.material.card_file = Some(path.display().to_string());
    }
    set(&mut job.material.temperature_c, options.temperature_c);
    set(&mut job.material.moisture, options.moisture.map(Into::into));
    set(&mut job.duty.wanted_life_h, options.wanted_life_h.or(options.life.map(|seconds| seconds / 3600.0)));
    if let Some(rpm) = options.rpm {
        job.duty.steps = Some(vec![DutyStep { rpm, throttle: 1.0, seconds: 60.0 }]);
    }
    set(&mut job.part.mesh_unit, options.mesh_unit.map(Into::into));
    set(&mut job.part.body, options.body);
    set(&mut job.part.pin_axis, options.pin_axis);
    set(&mut job.part.kind, options.part.map(Into::into));
    let piston = &mut job.part.piston;
    set(&mut piston.crown_direction, options.crown_direction);
    let places = [
        (&mut piston.center_mm, &mut piston.diameter_mm, options.piston_body),
        (&mut piston.pin_center_mm, &mut piston.pin_diameter_mm, options.pin_bore),
    ];
    for (center, diameter, given) in places {
        if let Some([x, y, z, d]) = given {
            *center = Some([x, y, z]);
            *diameter = Some(d);
        }
    }
    for (eye, given) in [(&mut job.part.small_end, options.small_end), (&mut job.part.big_end, options.big_end)] {
        if let Some([x, y, z, diameter]) = given {
            eye.center_mm = Some([x, y, z]);
            eye.diameter_mm = Some(diameter);
        }
    }
}

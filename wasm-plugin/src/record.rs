//! Tables of the job file and values of the report, to and from the records of the interface.

use layload_core::LengthUnit;
use layload_core::job::{
    Assumption, BuildDirection, DutyTable, EngineTable, EyeTable, LayerTable, MaterialTable, NamedPose, PartTable,
    PrintTable, Quantity, SurroundingsTable,
};
use layload_core::material::MoistureState;
use layload_core::report;
use layload_core::report::words::Words;
use layload_core::report::{DirectionReport, SpeedVerdict, StationReport, SweepPoint, ThinRegionReport};
use layload_core::{DutyStep, Strokes};

use crate::interface::checker as wit;

pub(crate) fn vector([x, y, z]: [f64; 3]) -> wit::Vector {
    wit::Vector { x, y, z }
}

fn coordinates(vector: &wit::Vector) -> [f64; 3] {
    [vector.x, vector.y, vector.z]
}

/// A word as the report's JSON spells it.
fn spelled(word: &impl serde::Serialize) -> String {
    match serde_json::to_value(word) {
        Ok(serde_json::Value::String(text)) => text,
        _ => String::new(),
    }
}

pub(crate) fn engine(table: &EngineTable) -> wit::Engine {
    wit::Engine {
        strokes: table.strokes.map(|strokes| match strokes {
            Strokes::Two => wit::Strokes::Two,
            Strokes::Four => wit::Strokes::Four,
        }),
        bore_mm: table.bore_mm,
        stroke_mm: table.stroke_mm,
        reciprocating_mass_g: table.reciprocating_mass_g,
        compression_ratio: table.compression_ratio,
        pin_offset_mm: table.pin_offset_mm,
        peak_pressure_bar: table.gas.peak_pressure_bar,
        crankcase_pressure_bar: table.gas.crankcase_pressure_bar,
    }
}

pub(crate) fn set_engine(table: &mut EngineTable, engine: &wit::Engine) {
    table.strokes = engine.strokes.map(|strokes| match strokes {
        wit::Strokes::Two => Strokes::Two,
        wit::Strokes::Four => Strokes::Four,
    });
    table.bore_mm = engine.bore_mm;
    table.stroke_mm = engine.stroke_mm;
    table.reciprocating_mass_g = engine.reciprocating_mass_g;
    table.compression_ratio = engine.compression_ratio;
    table.pin_offset_mm = engine.pin_offset_mm;
    table.gas.peak_pressure_bar = engine.peak_pressure_bar;
    table.gas.crankcase_pressure_bar = engine.crankcase_pressure_bar;
}

fn eye(table: &EyeTable) -> wit::Eye {
    wit::Eye {
        center_mm: table.center_mm.map(vector),
        diameter_mm: table.diameter_mm,
        radial_clearance_mm: table.radial_clearance_mm,
    }
}

fn set_eye(table: &mut EyeTable, eye: &wit::Eye) {
    table.center_mm = eye.center_mm.as_ref().map(coordinates);
    table.diameter_mm = eye.diameter_mm;
    table.radial_clearance_mm = eye.radial_clearance_mm;
}

pub(crate) fn part_notes(table: &PartTable) -> wit::PartNotes {
    wit::PartNotes {
        mesh_unit: table.mesh_unit.map(|unit| match unit {
            LengthUnit::Millimetre => wit::LengthUnit::Millimetre,
            LengthUnit::Centimetre => wit::LengthUnit::Centimetre,
            LengthUnit::Inch => wit::LengthUnit::Inch,
            LengthUnit::Metre => wit::LengthUnit::Metre,
        }),
        pin_axis: table.pin_axis.map(vector),
        small_end: eye(&table.small_end),
        big_end: eye(&table.big_end),
    }
}

pub(crate) fn set_part_notes(table: &mut PartTable, notes: &wit::PartNotes) {
    table.mesh_unit = notes.mesh_unit.map(|unit| match unit {
        wit::LengthUnit::Millimetre => LengthUnit::Millimetre,
        wit::LengthUnit::Centimetre => LengthUnit::Centimetre,
        wit::LengthUnit::Inch => LengthUnit::Inch,
        wit::LengthUnit::Metre => LengthUnit::Metre,
    });
    table.pin_axis = notes.pin_axis.as_ref().map(coordinates);
    set_eye(&mut table.small_end, &notes.small_end);
    set_eye(&mut table.big_end, &notes.big_end);
}

pub(crate) fn print(table: &PrintTable) -> wit::Print {
    wit::Print {
        build_direction: table.build_direction.map(|direction| match direction {
            BuildDirection::Named(NamedPose::Flat) => wit::BuildDirection::Flat,
            BuildDirection::Named(NamedPose::OnEdge) => wit::BuildDirection::OnEdge,
            BuildDirection::Named(NamedPose::Upright) => wit::BuildDirection::Upright,
            BuildDirection::Vector(along) => wit::BuildDirection::Along(vector(along)),
        }),
        bead_width_mm: table.bead_width_mm,
        layer_height_mm: table.layer_height_mm,
        walls: table.walls,
        skin_layers: table.skin_layers,
        infill_percent: table.infill_percent,
    }
}

pub(crate) fn set_print(table: &mut PrintTable, print: &wit::Print) {
    table.build_direction = print.build_direction.as_ref().map(|direction| match direction {
        wit::BuildDirection::Flat => BuildDirection::Named(NamedPose::Flat),
        wit::BuildDirection::OnEdge => BuildDirection::Named(NamedPose::OnEdge),
        wit::BuildDirection::Upright => BuildDirection::Named(NamedPose::Upright),
        wit::BuildDirection::Along(along) => BuildDirection::Vector(coordinates(along)),
    });
    table.bead_width_mm = print.bead_width_mm;
    table.layer_height_mm = print.layer_height_mm;
    table.walls = print.walls;
    table.skin_layers = print.skin_layers;
    table.infill_percent = print.infill_percent;
}

pub(crate) fn material(table: &MaterialTable) -> wit::Material {
    wit::Material {
        name: table.name.clone(),
        temperature_c: table.temperature_c,
        moisture: table.moisture.map(|moisture| match moisture {
            MoistureState::Dry => wit::Moisture::Dry,
            MoistureState::Conditioned => wit::Moisture::Conditioned,
        }),
    }
}

pub(crate) fn set_material(table: &mut MaterialTable, material: wit::Material) {
    if material.name.is_some() {
        table.card_file = None;
    }
    table.name = material.name;
    table.temperature_c = material.temperature_c;
    table.moisture = material.moisture.map(|moisture| match moisture {
        wit::Moisture::Dry => MoistureState::Dry,
        wit::Moisture::Conditioned => MoistureState::Conditioned,
    });
}

pub(crate) fn surroundings(table: &SurroundingsTable) -> wit::Surroundings {
    wit::Surroundings {
        crankcase_air_c: table.crankcase_air_c,
        piston_pin_c: table.piston_pin_c,
        crank_pin_c: table.crank_pin_c,
        start_c: table.start_c,
    }
}

pub(crate) fn set_surroundings(table: &mut SurroundingsTable, surroundings: &wit::Surroundings) {
    table.crankcase_air_c = surroundings.crankcase_air_c;
    table.piston_pin_c = surroundings.piston_pin_c;
    table.crank_pin_c = surroundings.crank_pin_c;
    table.start_c = surroundings.start_c;
}

pub(crate) fn duty(table: &DutyTable) -> wit::Duty {
    let steps = table.steps.iter().flatten();
    wit::Duty {
        wanted_life_h: table.wanted_life_h,
        run_s: table.run_s,
        steps: steps
            .map(|step| wit::DutyStep { rpm: step.rpm, throttle: step.throttle, seconds: step.seconds })
            .collect(),
    }
}

pub(crate) fn set_duty(table: &mut DutyTable, duty: &wit::Duty) {
    table.wanted_life_h = duty.wanted_life_h;
    table.run_s = duty.run_s;
    let steps = duty.steps.iter();
    let steps: Vec<DutyStep> =
        steps.map(|step| DutyStep { rpm: step.rpm, throttle: step.throttle, seconds: step.seconds }).collect();
    table.steps = (!steps.is_empty()).then_some(steps);
}

pub(crate) fn crown_layer(table: &LayerTable) -> wit::CrownLayer {
    wit::CrownLayer {
        name: table.name.clone(),
        thickness_mm: table.thickness_mm,
        conductivity_w_m_k: table.conductivity_w_m_k,
        density_kg_m3: table.density_kg_m3,
        specific_heat_j_kg_k: table.specific_heat_j_kg_k,
        joint_w_m2_k: table.joint_w_m2_k,
    }
}

pub(crate) fn layer_table(layer: wit::CrownLayer) -> LayerTable {
    LayerTable {
        name: layer.name,
        thickness_mm: layer.thickness_mm,
        conductivity_w_m_k: layer.conductivity_w_m_k,
        density_kg_m3: layer.density_kg_m3,
        specific_heat_j_kg_k: layer.specific_heat_j_kg_k,
        joint_w_m2_k: layer.joint_w_m2_k,
    }
}

pub(crate) fn assumption(known: &Assumption) -> wit::Assumption {
    wit::Assumption {
        name: known.name.clone(),
        value: match &known.value {
            Quantity::Number(number) => number.to_string(),
            Quantity::Word(word) => word.clone(),
        },
        unit: known.unit.clone(),
        source: spelled(&known.source),
        reference: known.reference.clone(),
    }
}

pub(crate) fn verdict(report: &report::Report) -> wit::Verdict {
    let verdict = &report.verdict;
    // Hosts that show what was not checked show unusual inputs with it.
    let unusual = report.warnings.iter().map(|warning| format!("whether an input is meant: {}", warning.message));
    wit::Verdict {
        holds: verdict.state.holds() == Some(true),
        well_founded: verdict.well_founded,
        governing_mode: spelled(&verdict.governing_mode),
        governing_words: verdict.governing_mode.words().into(),
        governing_place: verdict.governing_place.clone(),
        margin: verdict.margin,
        life_s: verdict.life_s,
        life_beyond_tests: verdict.life_beyond_tests,
        wanted_life_s: verdict.wanted_life_s,
        duty_rpm: verdict.duty_rpm,
        max_rpm: verdict.max_rpm,
        min_rpm: verdict.min_rpm,
        max_rpm_meaning: match verdict.max_rpm_meaning {
            SpeedVerdict::Limit => wit::SpeedMeaning::Limit,
            SpeedVerdict::Range => wit::SpeedMeaning::Range,
            SpeedVerdict::AtLeast => wit::SpeedMeaning::AtLeast,
            SpeedVerdict::None => wit::SpeedMeaning::None,
        },
        unchecked: unusual.chain(verdict.unchecked.iter().cloned()).collect(),
    }
}

pub(crate) fn words(report: &report::Report) -> wit::AnswerWords {
    let words = Words(report);
    let lines = words.lines().into_iter();
    wit::AnswerWords {
        word: words.word().into(),
        sentence: words.sentence(),
        lines: lines.map(|line| wit::AnswerLine { about: line.about.into(), text: line.text }).collect(),
        advice: words.advice(),
    }
}

pub(crate) fn hot_spot(mode: &report::ModeReport) -> wit::HotSpot {
    wit::HotSpot {
        mode: spelled(&mode.mode),
        words: mode.mode.words().into(),
        place: mode.place.clone(),
        margin: mode.margin,
        life_b10_s: mode.life_b10_s,
    }
}

pub(crate) fn station(station: &StationReport) -> wit::Station {
    wit::Station {
        position_mm: station.position_mm,
        area_mm2: station.area_mm2,
        solid_area_mm2: station.solid_area_mm2,
        thinnest_wall_mm: station.thinnest_wall_mm,
        axial_force_max_n: station.axial_force_max_n,
        axial_force_min_n: station.axial_force_min_n,
        stress_max_mpa: station.stress_max_mpa,
        stress_min_mpa: station.stress_min_mpa,
        utilisation: station.utilisation,
        temperature_c: station.temperature_c,
    }
}

pub(crate) fn direction_score(score: &DirectionReport) -> wit::DirectionScore {
    wit::DirectionScore {
        build_direction: vector(score.build_direction),
        margin: score.margin,
        life_s: score.life_s,
        governing_mode: spelled(&score.governing_mode),
        governing_place: score.governing_place.clone(),
        support_area_mm2: score.support_area_mm2,
        height_mm: score.height_mm,
        print_time_s: score.print_time_s,
        contact_area_mm2: score.contact_area_mm2,
        stair_step_mm: score.stair_step_mm,
        pareto: score.pareto,
    }
}

pub(crate) fn thin_region(region: &ThinRegionReport) -> wit::ThinRegion {
    wit::ThinRegion {
        place: region.place.clone(),
        center_mm: vector(region.center_mm),
        area_mm2: region.area_mm2,
        least_thickness_mm: region.least_thickness_mm,
        limit_mm: region.limit_mm,
        cause: spelled(&region.cause),
        reason: region.reason.clone(),
        facets: region.facets.clone(),
    }
}

pub(crate) fn speed_point(point: &SweepPoint) -> wit::SpeedPoint {
    wit::SpeedPoint {
        rpm: point.rpm,
        life_b10_s: point.life_b10_s,
        life_b50_s: point.life_b50_s,
        peak_temperature_c: point.peak_temperature_c,
        margin: point.margin,
        governing_mode: spelled(&point.governing_mode),
        governing_words: point.governing_mode.words().into(),
        governing_place: point.governing_place.clone(),
    }
}

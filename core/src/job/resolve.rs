use nalgebra::Vector3;

use super::assumption::{Assumption, Origin};
use super::cap::Cap;
use super::engine::engine;
use super::error::JobError;
use super::file::{BuildDirection, EyeTable, FatigueRule, Job, NamedPose};
use super::ring::Ring;
use super::runs::Runs;
use super::scenario::{EndFits, EndFixity, PartTemperature, PrintPose, Scenario, Surroundings};
use crate::engine::{Duty, Nearness};
use crate::job::plausible;
use crate::job::plausible::{Limit, part, print as print_limits, run};
use crate::material::{Card, MaterialError, MoistureState};
use crate::print::{Pace, PrintSettings, PrintWarmth};
use crate::units::ZERO_C;

/// Speed of a bead, mm/s, and time for a change of layer, s (common practice, no source).
const USUAL_BEAD_SPEED: f64 = 60.0;
const USUAL_LAYER_CHANGE: f64 = 3.0;

/// Key of the direction in which layers stack.
pub(crate) const BUILD_DIRECTION: &str = "build_direction";

/// Key of what a pin runs in.
pub(crate) const RUNS: &str = "runs";

/// Keys of entries that are words.
pub(crate) const MOISTURE: &str = "moisture";
pub(crate) const STROKES: &str = "strokes";
pub(crate) const PRESSURE_TABLE: &str = "pressure_table";
pub(crate) const MATERIAL: &str = "material.name";

/// Turns a job into a scenario, with the list of every number it rests on.
///
/// `card_text` is the text of the card file the job names, `pressure_text` that of its pressure table; `core` reads no
/// files itself.
///
/// # Errors
///
/// Where a number that is needed is missing, or a number cannot be.
pub fn resolve(
    job: &Job,
    card_text: Option<&str>,
    pressure_text: Option<&str>,
) -> Result<(Scenario, Vec<Assumption>), JobError> {
    let mut warnings = plausible::numbers(job)?;
    let mut taken = Taken::default();
    let engine = engine(&job.engine, pressure_text, &mut taken)?;
    let card = card(job, card_text, &mut taken)?;
    if job.material.card_file.is_some() {
        warnings.extend(plausible::card(&card));
    }
    let Eyes { rings, runs, caps, fits } = eyes(job, &mut taken)?;
    let (pose, print) = print(job, &mut taken)?;
    let warmth = print_warmth(job, &card, &mut taken);
    let given = taken.given(&run::PART_TEMPERATURE, job.material.temperature_c).map(|celsius| celsius + ZERO_C);
    let moisture = job.material.moisture.unwrap_or_default();
    let origin = if job.material.moisture.is_some() { Origin::Given } else { Origin::CommonPractice };
    let word = if moisture == MoistureState::Dry { "dry" } else { "conditioned" };
    taken
        .list
        .push(Assumption::word("moisture", word, origin).keyed(MOISTURE).citing("a room at 50 % humidity unless said"));
    let (surroundings, part_temperature) = around(job, given, &mut taken);
    // Without a given temperature the air is where the part is cooled to at best.
    let temperature = given.unwrap_or(surroundings.air);
    let (duty, wanted_life) = duty(job, &mut taken)?;
    let mean_stress = mean_stress(job.model.mean_stress, &mut taken);
    let stations = taken.number(&part::STATIONS, job.model.stations.map(|n| n as f64), 200.0) as usize;
    let ends = "ends turn on their pins in the plane of the engine and are held by them across it; design values of \
                columns, theory 0.5 for held ends";
    let end_fixity = EndFixity {
        in_plane: taken.number(&part::FIXITY_IN_PLANE, job.model.end_fixity_in_plane, 1.0),
        across: taken.number(&part::FIXITY_ACROSS, job.model.end_fixity_across, 0.65),
    };
    if let Some(last) = taken.list.last_mut() {
        last.reference = Some(ends.into());
    }
    let scenario = Scenario {
        warmth,
        bond: None,
        given_card: card.clone(),
        engine,
        fits,
        rings,
        runs,
        caps,
        pose,
        print,
        card,
        temperature,
        part_temperature,
        moisture,
        surroundings,
        duty,
        wanted_life,
        mean_stress,
        stations,
        end_fixity,
        warnings,
    };
    Ok((scenario, taken.list))
}

/// What sits in both eyes of a rod: rings, caps and the clearance of the pins.
fn eyes(job: &Job, taken: &mut Taken) -> Result<Eyes, JobError> {
    let (small, big) = (&job.part.small_end, &job.part.big_end);
    let mut ring = |what: &str, key: &str, table: &EyeTable| -> Result<Option<Ring>, JobError> {
        let Some(ring) = table.ring.as_ref().map(|ring| Ring::resolve(ring, key)).transpose()? else {
            return Ok(None);
        };
        taken.list.push(Assumption::word(&format!("ring in the {what}"), &ring.name, Origin::Given));
        Ok(Some(ring))
    };
    let rings = [ring("small end", "part.small_end.ring", small)?, ring("big end", "part.big_end.ring", big)?];
    let runs = [runs("small end", small, rings[0].as_ref(), taken)?, runs("big end", big, rings[1].as_ref(), taken)?];
    let mut cap = |what: &str, table: &EyeTable| -> Result<Option<Cap>, JobError> {
        let Some(cap) = table.cap.as_ref().map(Cap::resolve).transpose()? else { return Ok(None) };
        taken.list.push(Assumption::word(&format!("cap of the {what}"), &cap.name, Origin::Given));
        Ok(Some(cap))
    };
    let caps = [cap("small end", small)?, cap("big end", big)?];
    let mut clearance = |limit, given, ring: &Option<Ring>| {
        // A pressed ring has none.
        let usual = if ring.is_some() { 0.0 } else { 0.02 };
        taken.number(limit, given, usual) * 1e-3
    };
    let fits = EndFits {
        small_end: clearance(&part::PIN_CLEARANCE, small.radial_clearance_mm, &rings[0]),
        big_end: clearance(&part::CRANK_CLEARANCE, big.radial_clearance_mm, &rings[1]),
    };
    Ok(Eyes { rings, runs, caps, fits })
}

struct Eyes {
    rings: [Option<Ring>; 2],
    runs: [Runs; 2],
    caps: [Option<Cap>; 2],
    fits: EndFits,
}

/// What the pin of an end runs in.
fn runs(what: &str, table: &EyeTable, ring: Option<&Ring>, taken: &mut Taken) -> Result<Runs, JobError> {
    let (runs, origin) = match (table.runs, ring) {
        (Some(said), Some(_)) if said.in_plastic() => {
            return Err(JobError::Both { first: "ring", second: "runs, which says that the pin runs in the plastic" });
        }
        (_, Some(ring)) => return Ok(if ring.rolls { Runs::Bearing } else { Runs::Bush }),
        (Some(said), None) => (said, Origin::Given),
        (None, None) => (Runs::Oiled, Origin::CommonPractice),
    };
    taken.list.push(Assumption::word(&format!("the pin of the {what} runs"), runs.word(), origin).keyed(RUNS));
    Ok(runs)
}

/// What surrounds the part, and where its temperature comes from; `given` is that of the whole part, K.
fn around(job: &Job, given: Option<f64>, taken: &mut Taken) -> (Surroundings, PartTemperature) {
    let table = &job.surroundings;
    let mut kelvin = |limit, given, usual| taken.number(limit, given, usual) + ZERO_C;
    let surroundings = Surroundings {
        air: kelvin(&run::AIR, table.crankcase_air_c, 60.0),
        piston_pin: kelvin(&run::PISTON_PIN, table.piston_pin_c, 100.0),
        crank_pin: kelvin(&run::CRANK_PIN, table.crank_pin_c, 80.0),
    };
    let part_temperature = match (given, job.duty.run_s) {
        (Some(_), _) => PartTemperature::Given,
        (None, None) => PartTemperature::Settled,
        (None, Some(seconds)) => PartTemperature::AfterRun {
            seconds: taken.number(&run::RUN, Some(seconds), seconds),
            start: taken.number(&run::START, table.start_c, 23.0) + ZERO_C,
        },
    };
    (surroundings, part_temperature)
}

fn card(job: &Job, text: Option<&str>, taken: &mut Taken) -> Result<Card, JobError> {
    match (&job.material.name, &job.material.card_file) {
        (Some(_), Some(_)) => Err(JobError::Both { first: "material.name", second: "material.card_file" }),
        (Some(name), None) => {
            let card = Card::named(name)?;
            taken.list.push(Assumption::word("material", &card.name, Origin::Given).keyed(MATERIAL));
            Ok(card)
        }
        (None, Some(file)) => {
            let text = text.ok_or_else(|| MaterialError::Format { reason: format!("{file} was not read") })?;
            let card = Card::from_toml(text)?;
            taken.list.push(Assumption::word("material", &card.name, Origin::Given).keyed(MATERIAL).citing(file));
            Ok(card)
        }
        (None, None) => Err(JobError::Missing { what: "the material", key: "material.name".into() }),
    }
}

fn print(job: &Job, taken: &mut Taken) -> Result<(PrintPose, PrintSettings), JobError> {
    let table = &job.print;
    let (pose, word, origin) = match table.build_direction {
        None => {
            let usual = NamedPose::USUAL_OF_RODS;
            (PrintPose::Named(usual), usual.word().to_string(), Origin::CommonPractice)
        }
        Some(BuildDirection::Named(pose)) => (PrintPose::Named(pose), pose.word().to_string(), Origin::Given),
        Some(BuildDirection::Vector([x, y, z])) => {
            (PrintPose::Mesh(Vector3::new(x, y, z)), format!("{x}, {y}, {z}"), Origin::Given)
        }
    };
    taken.list.push(Assumption::word("build direction", &word, origin).keyed(BUILD_DIRECTION));
    let bead = taken.number(&print_limits::BEAD, table.bead_width_mm, 0.45);
    let layer = taken.number(&print_limits::LAYER, table.layer_height_mm, 0.2);
    let walls = taken.named("walls", &print_limits::WALLS, table.walls.map(f64::from), 4.0);
    let skins = taken.named("skin layers", &print_limits::SKINS, table.skin_layers.map(f64::from), 5.0);
    let infill = taken.number(&print_limits::INFILL, table.infill_percent, 100.0);
    let settings = PrintSettings {
        build: match pose {
            PrintPose::Named(named) => named.in_part_frame(),
            PrintPose::Mesh(direction) => direction,
        },
        bead_width: bead * 1e-3,
        layer_height: layer * 1e-3,
        walls: walls as u32,
        skin_layers: skins as u32,
        infill: infill / 100.0,
    };
    Ok((pose, settings.checked()?))
}

/// How warm the part is while it is printed; nothing where the card does not say how its layers weld.
fn print_warmth(job: &Job, card: &Card, taken: &mut Taken) -> Option<PrintWarmth> {
    let table = &job.print;
    let usual = card.weld.as_ref()?.usual;
    Some(PrintWarmth {
        bead_speed: taken.number(&print_limits::BEAD_SPEED, table.bead_speed_mm_s, USUAL_BEAD_SPEED) * 1e-3,
        layer_change: taken.number(&print_limits::LAYER_CHANGE, table.layer_change_s, USUAL_LAYER_CHANGE),
        least_layer: taken.number(&print_limits::LEAST_LAYER, table.least_layer_s, 8.0),
        nozzle: taken.number(&print_limits::NOZZLE, table.nozzle_c, usual.nozzle_c) + ZERO_C,
        bed: taken.number(&print_limits::BED, table.bed_c, usual.bed_c) + ZERO_C,
        chamber: taken.number(&print_limits::CHAMBER, table.chamber_c, usual.chamber_c) + ZERO_C,
        fan: taken.number(&print_limits::FAN, table.fan_percent, usual.fan_percent) / 100.0,
        together: taken.number(&print_limits::TOGETHER, table.parts_together.map(f64::from), 1.0),
    })
}

/// How the part lies and is printed; the build direction of the settings is set from the pose once the part's frame is
/// known.
///
/// # Errors
///
/// Where a number of the print cannot be.
pub fn resolve_print(job: &Job) -> Result<(PrintPose, PrintSettings), JobError> {
    plausible::numbers(job)?;
    print(job, &mut Taken::default())
}

/// How the printer works through a part, for the choice of a build direction, with the list of what it rests on.
///
/// # Errors
///
/// Where a number of the print cannot be.
pub fn resolve_pace(job: &Job) -> Result<(Pace, Vec<Assumption>), JobError> {
    let table = &job.print;
    let mut taken = Taken::default();
    plausible::numbers(job)?;
    let pace = Pace {
        bead_speed: taken.number(&print_limits::BEAD_SPEED, table.bead_speed_mm_s, USUAL_BEAD_SPEED) * 1e-3,
        layer_change: taken.number(&print_limits::LAYER_CHANGE, table.layer_change_s, USUAL_LAYER_CHANGE),
        overhang: taken.number(&print_limits::OVERHANG, table.overhang_deg, 45.0).to_radians(),
        support_density: taken.number(&print_limits::SUPPORT, table.support_percent, 20.0) / 100.0,
    };
    Ok((pace, taken.list))
}

fn duty(job: &Job, taken: &mut Taken) -> Result<(Duty, f64), JobError> {
    let missing = || JobError::Missing { what: "the speed", key: "duty.steps".into() };
    let steps = job.duty.steps.clone().ok_or_else(missing)?;
    let written = steps.len();
    let (duty, nearness) = Duty::new(steps)?.gathered();
    if let Some(Nearness { speed_share, throttle }) = nearness {
        let told = format!("{} of {written}", duty.steps().len());
        let within = format!("steps, those within {} % and throttle {throttle} as one", speed_share * 100.0);
        taken.list.push(Assumption::word(&within, &told, Origin::CommonPractice));
    }
    let top = duty.highest_rpm();
    taken.list.push(Assumption::number("highest speed of the duty", top, "rpm", Origin::Given));
    let wanted = taken.number(&run::WANTED_LIFE, job.duty.wanted_life_h, 10.0);
    Ok((duty, wanted * 3600.0))
}

fn mean_stress(rule: Option<FatigueRule>, taken: &mut Taken) -> FatigueRule {
    let origin = if rule.is_some() { Origin::Given } else { Origin::CommonPractice };
    let rule = rule.unwrap_or(FatigueRule::Walker);
    taken.list.push(Assumption::word("mean-stress rule", rule.word(), origin));
    rule
}

/// Numbers as they are taken from the job or from custom.
#[derive(Default)]
pub(super) struct Taken {
    pub(super) list: Vec<Assumption>,
}

impl Taken {
    /// A number of the job, or what is usual; the job's numbers were looked at before.
    pub(super) fn number(&mut self, limit: &Limit, given: Option<f64>, usual: f64) -> f64 {
        self.named(limit.what, limit, given, usual)
    }

    /// The same under another name.
    pub(super) fn named(&mut self, what: &str, limit: &Limit, given: Option<f64>, usual: f64) -> f64 {
        let value = given.unwrap_or(usual);
        let origin = if given.is_some() { Origin::Given } else { Origin::CommonPractice };
        self.list.push(Assumption::number(what, value, limit.unit, origin).keyed(limit.key));
        value
    }

    /// A number that nothing stands for where it is not given.
    pub(super) fn given(&mut self, limit: &Limit, given: Option<f64>) -> Option<f64> {
        given.map(|value| self.number(limit, given, value))
    }

    pub(super) fn needed(&mut self, limit: &Limit, given: Option<f64>, key: &'static str) -> Result<f64, JobError> {
        let missing = || JobError::Missing { what: limit.what, key: key.into() };
        given.map(|value| self.number(limit, given, value)).ok_or_else(missing)
    }
}

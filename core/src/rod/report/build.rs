use super::crank::of_rod;
use super::effects::effects;
use super::field::field;
use super::fits::{cap, clearance, fit};
use super::mesh_notes::{cap_moved, told_apart};
use super::notes::{notes, unchecked};
use super::part::part;
use super::pins::PinForces;
use super::position::on_rod;
use super::thin::thin_sections;
use crate::job::{Assumption, Origin};
use crate::kind::Answers;
use crate::kind::report::{Common, coarse, life_of, mending, of_card, temperature_from};
use crate::life::RodStretch;
use crate::report::{
    EyeReport, HeatReport, HottestReport, JournalReport, Report, RodForcesReport, RodReport, StationReport,
};
use crate::rod::assessment::Assessment;
use crate::rod::field::RodFieldFindings;
use crate::rod::journal::Journal;
use crate::rod::loading::Loading;
use crate::rod::model::{Region, RodModel};
use crate::rod::place::{End, RodPlace};
use crate::rod::prepared::PreparedRod;
use crate::rod::temperatures::Temperatures;
use crate::rod::warmth::Warmth;
use crate::stress::{EyeFamily, EyeModel, Fit, Thrust};
use crate::units::{MM, MPA, ZERO_C};

/// Everything a report is made from.
#[derive(Debug)]
pub(crate) struct Parts<'a> {
    /// What was worked out beside it.
    pub answers: &'a Answers,
    /// Mesh, part and job.
    pub prepared: &'a PreparedRod,
    /// Sections and mass.
    pub model: &'a RodModel,
    /// Forces.
    pub loading: &'a Loading,
    /// The duty assessed.
    pub assessment: &'a Assessment,
    /// Heat from the loads.
    pub warmth: &'a Warmth,
    /// Temperatures at which strength was taken.
    pub temperatures: &'a Temperatures,
    /// Highest absolute cylinder pressure, Pa.
    pub peak_pressure: f64,
    /// Highest temperature of the whole rod for the wanted life, K.
    pub highest_temperature: Option<f64>,
    /// How much longer the rod gets.
    pub stretch: &'a RodStretch,
    /// Greatest pull through a joint at the centre of the small and of the big end, N.
    pub joint_pulls: [f64; 2],
    /// The stress field, if it was solved.
    pub field: Option<&'a RodFieldFindings>,
}

/// Writes the report.
pub(crate) fn build(parts: &Parts<'_>) -> Report {
    let PreparedRod { scenario, mended, unit, size, rod: found, cylinder, .. } = parts.prepared;
    let strength = &parts.assessment.strength;
    let common = Common {
        answers: parts.answers.clone(),
        scenario,
        file: (*mended, *unit, *size),
        solid: (parts.model.volume, parts.model.mass.mass()),
        mesh_notes: mesh_notes(parts),
        part: part(found),
        frame: &found.frame,
        build: parts.model.print.build,
        strength,
        life: strength.life_at(0.1),
        lives: life_of(&strength.weakest_link(), parts.answers.uncertainty.deviation),
        center: &|place| on_rod(parts, place),
        heat: heat(parts),
        cylinder: (cylinder, parts.peak_pressure),
        stations: stations(parts),
        assumptions: assumptions(parts),
        notes: notes(parts),
        field: parts.field.is_some(),
        unchecked: unchecked(parts),
        effects: effects(parts),
    };
    Report {
        clearance: Some(clearance(parts.stretch, scenario.engine.piston_to_head)),
        rod: Some(rod(parts)),
        crank: of_rod(parts),
        field: parts.field.map(|findings| field(parts, findings)),
        ..common.report()
    }
}

/// What to know of the mesh.
fn mesh_notes(parts: &Parts<'_>) -> Vec<String> {
    let PreparedRod { mended, rod, .. } = parts.prepared;
    let mut notes = mending(mended, rod.overlapping, rod.voids, &rod.left_out);
    notes.extend([coarse(rod.mesh.step()), cap_moved(rod), told_apart(rod)].into_iter().flatten());
    notes
}

fn rod(parts: &Parts<'_>) -> RodReport {
    let ends = [End::Small, End::Big];
    let [small, big] = ends.map(|end| PinForces::of(parts, end));
    let shank = parts.model.stations.iter().zip(&parts.assessment.stations);
    let whip = shank
        .filter(|(station, _)| station.region == Region::Shank)
        .filter_map(|(_, stress)| stress.map(|s| s.bending_max))
        .fold(0.0, f64::max);
    let runaway = parts.warmth.speed_to_runaway;
    RodReport {
        parallelism_deg: parts.prepared.rod.parallelism.to_degrees(),
        forces: RodForcesReport {
            small_end_pull_n: small.pull,
            small_end_push_n: small.push,
            big_end_pull_n: big.pull,
            big_end_push_n: big.push,
            whip_moment_max_n_mm: whip * MM,
        },
        runaway_rpm: runaway.map(|factor| factor * parts.prepared.scenario.duty.highest_rpm()),
        highest_c: parts.highest_temperature.map(|kelvin| kelvin - ZERO_C),
        fits: ends.into_iter().filter_map(|end| fit(parts, end)).collect(),
        caps: ends.into_iter().filter_map(|end| cap(parts, end)).collect(),
        eyes: ends.into_iter().filter_map(|end| eye(parts, end)).collect(),
        thin_sections: thin_sections(&parts.prepared.rod, parts.model),
    }
}

fn heat(parts: &Parts<'_>) -> HeatReport {
    let scenario = &parts.prepared.scenario;
    let peak = parts.warmth.peak;
    let place = peak.map_or(RodPlace::Shank, |(_, position)| RodPlace::ShankAt { position });
    HeatReport {
        from: temperature_from(scenario.part_temperature),
        taken_c: parts.temperatures.peak() - ZERO_C,
        hottest: HottestReport {
            place: place.to_string(),
            temperature_c: peak.map(|(kelvin, _)| kelvin - ZERO_C),
            softening_c: scenario.card.softening() - ZERO_C,
            runs_away: peak.is_none(),
        },
    }
}

fn eye(parts: &Parts<'_>, end: End) -> Option<EyeReport> {
    let index = end as usize;
    let model = parts.model.eyes[index]?;
    let scenario = &parts.prepared.scenario;
    let role = if end == End::Small { "small-end" } else { "big-end" };
    let clearance = end.clearance(&scenario.fits);
    let pin = PinForces::of(parts, end);
    let peak_factor_pull = peak_factor(parts, end, &model, pin.pull, clearance);
    let points = parts.model.eye_points[index].iter().zip(&parts.assessment.eyes[index]);
    let worst = points.max_by(|a, b| a.1.1.total_cmp(&b.1.1));
    Some(EyeReport {
        role: role.into(),
        ligament_mm: model.ligament * MM,
        thickness_mm: model.thickness * MM,
        width_ratio: model.width_ratio(),
        radial_clearance_mm: clearance * MM,
        peak_factor_pull,
        hoop_stress_max_mpa: worst.map_or(0.0, |(_, extremes)| extremes.1 * MPA),
        hoop_stress_angle_deg: worst.map_or(0.0, |(point, _)| EyeFamily::embedded().angles()[point.angle].to_degrees()),
        pin_pressure_mpa: model.pin_pressure(pin.greatest) * MPA,
        journal: Journal::of(parts.model, parts.loading, scenario, 1.0, end).map(|journal| JournalReport {
            pressure_speed_mpa_m_s: journal.pressure_speed * MPA,
            limit_mpa_m_s: journal.values.limit * MPA,
            friction: journal.values.friction,
            heat_w: journal.heat,
            rise_k: journal.rise,
            worn_mm: journal.worn * MM,
            worn_out_mm: journal.worn_out * MM,
        }),
    })
}

/// Greatest hoop stress at the bore over the net-section stress of a pull, N, at a radial clearance, m.
pub(crate) fn peak_factor(parts: &Parts<'_>, end: End, eye: &EyeModel, pull: f64, radial_clearance: f64) -> f64 {
    let scenario = &parts.prepared.scenario;
    let modulus = scenario.card.at(parts.temperatures.eyes[end as usize], scenario.moisture).in_plane_modulus();
    let looseness = eye.looseness(pull, Fit { radial_clearance, modulus });
    let factors = EyeFamily::embedded().factors(Thrust::Pull, eye.width_ratio(), looseness);
    factors.bore.iter().copied().fold(0.0, f64::max)
}

fn stations(parts: &Parts<'_>) -> Vec<StationReport> {
    parts
        .model
        .load_path()
        .filter_map(|(index, station)| {
            let stress = parts.assessment.stations[index]?;
            let (least, most) = station.makeup.stiffness.principal();
            Some(StationReport {
                position_mm: station.section.position * MM,
                area_mm2: station.section.properties.area * 1e6,
                solid_area_mm2: station.makeup.solid_area * 1e6,
                second_moment_min_mm4: least * 1e12,
                second_moment_max_mm4: most * 1e12,
                thinnest_wall_mm: station.ligament.map(|l| l.thickness * MM),
                axial_force_max_n: stress.axial_max,
                axial_force_min_n: stress.axial_min,
                shear_force_max_n: stress.shear_max,
                bending_moment_max_n_mm: stress.bending_max * MM,
                stress_max_mpa: stress.stress_max * MPA,
                stress_min_mpa: stress.stress_min * MPA,
                utilisation: stress.utilisation,
                temperature_c: parts.temperatures.stations[index] - ZERO_C,
            })
        })
        .collect()
}

fn assumptions(parts: &Parts<'_>) -> Vec<Assumption> {
    let prepared = parts.prepared;
    let rod = &prepared.rod;
    let mut list = prepared.assumptions.clone();
    for (name, value) in [
        ("rod centre distance", rod.center_distance * MM),
        ("small-end bore", rod.small_end.bore.diameter() * MM),
        ("big-end bore", rod.big_end.bore.diameter() * MM),
    ] {
        list.push(Assumption::number(name, value, "mm", Origin::Mesh));
    }
    list.extend(of_card(&prepared.scenario.given_card, parts.temperatures.peak()));
    list
}

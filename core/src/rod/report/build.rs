use crate::rod::RodMargin;
use nalgebra::{Point3, Vector3};

use super::fits::{cap, clearance, fit};
use super::notes::{notes, unchecked};
use super::pins::PinForces;
use super::thin::thin_sections;
use crate::engine::Duty;
use crate::job::{Assumption, Origin, PartTemperature, Scenario, Warning};
use crate::life::{RodStretch, WeakestLink, drawn_life_at, drawn_lives};
use crate::material::{Card, Lay, LayerPlane, LayerStrength, visit_values};
use crate::mesh::Mended;
use crate::numeric::sort_few;
use crate::part::{Eye, Frame, LeftOut};
use crate::question::PreparedRod;
use crate::report::{
    BoreReport, CAUTIONS, EyeReport, FoundingReport, HeatReport, InfluenceReport, LeftOutReport, LifeReport,
    LoadReport, MeshReport, ModeReport, PartKind, PartReport, PrintReport, Report, SCHEMA_VERSION, SeatReport,
    SensitivityReport, SpeedVerdict, StationReport, TemperatureFrom, VerdictReport, WarningReport, cap_moved, coarse,
    crank, field, on_rod, told_apart,
};
use crate::rod::assessment::Assessment;
use crate::rod::field::RodFieldFindings;
use crate::rod::loading::Loading;
use crate::rod::model::{Region, RodModel};
use crate::rod::place::End;
use crate::rod::temperatures::Temperatures;
use crate::rod::warmth::Warmth;
use crate::stress::{EyeFamily, EyeModel, Fit, Thrust};
use crate::verdict::{Founding, ModeMargin, SpeedLimit};

/// Everything a report is made from.
#[derive(Debug)]
pub(crate) struct Parts<'a> {
    /// Title of the job.
    pub title: Option<String>,
    /// Mesh, part and job.
    pub prepared: &'a PreparedRod,
    /// Sections and mass.
    pub model: &'a RodModel,
    /// Forces.
    pub loading: &'a Loading,
    /// The duty assessed.
    pub assessment: &'a Assessment,
    /// How well founded that is.
    pub founding: &'a Founding,
    /// Highest speed.
    pub limit: SpeedLimit,
    /// Heat from the loads.
    pub warmth: &'a Warmth,
    /// Temperatures at which strength was taken.
    pub temperatures: &'a Temperatures,
    /// Highest absolute cylinder pressure, Pa.
    pub peak_pressure: f64,
    /// What changes of the input do.
    pub sensitivities: &'a [SensitivityReport],
    /// Highest temperature of the whole rod for the wanted life, K.
    pub highest_temperature: Option<f64>,
    /// How much longer the rod gets.
    pub stretch: &'a RodStretch,
    /// Greatest pull through a joint at the centre of the small and of the big end, N.
    pub joint_pulls: [f64; 2],
    /// The stress field, if it was solved.
    pub field: Option<&'a RodFieldFindings>,
}

const MM: f64 = 1e3;
const MPA: f64 = 1e-6;

/// Writes the report.
pub(crate) fn build(parts: &Parts<'_>) -> Report {
    let mut modes: Vec<RodMargin> = parts.assessment.strength.modes.clone();
    sort_few(&mut modes, |a, b| a.margin.total_cmp(&b.margin));
    Report {
        schema_version: SCHEMA_VERSION.into(),
        program_version: env!("CARGO_PKG_VERSION").into(),
        title: parts.title.clone(),
        verdict: verdict(parts),
        life: life(parts),
        warnings: warnings(&parts.prepared.scenario),
        modes: modes.iter().map(|margin| mode(margin, on_rod(parts, &margin.place))).collect(),
        founding: founding(parts.founding),
        heat: heat(parts),
        clearance: Some(clearance(parts.stretch, parts.prepared.scenario.engine.piston_to_head)),
        fits: [End::Small, End::Big].into_iter().filter_map(|end| fit(parts, end)).collect(),
        caps: [End::Small, End::Big].into_iter().filter_map(|end| cap(parts, end)).collect(),
        sensitivities: parts.sensitivities.to_vec(),
        mesh: mesh(parts),
        part: part(parts.prepared),
        piston: None,
        print: printed(&parts.model.print.build, &parts.prepared.rod.frame, &parts.prepared.scenario),
        loads: loads(parts),
        crank: crank::of_rod(parts),
        eyes: [End::Small, End::Big].into_iter().filter_map(|end| eye(parts, end)).collect(),
        stations: stations(parts),
        field: parts.field.map(|findings| field(parts, findings)),
        thin_sections: thin_sections(&parts.prepared.rod, parts.model),
        facet_utilisation: None,
        assumptions: assumptions(parts),
        notes: notes(parts),
        cautions: CAUTIONS.iter().map(|&text| text.into()).collect(),
    }
}

fn verdict(parts: &Parts<'_>) -> VerdictReport {
    let Scenario { duty, wanted_life, .. } = &parts.prepared.scenario;
    let governing = parts.assessment.governing();
    let life = parts.assessment.strength.life_at(0.1);
    let margin = parts.assessment.strength.margin();
    let top = duty.highest_rpm();
    let (min_rpm, max_rpm, max_rpm_meaning) = speeds(parts.limit, top);
    VerdictReport {
        holds: margin >= 1.0,
        well_founded: parts.founding.memory_share < 0.5,
        governing_mode: governing.mode,
        governing_place: governing.place.to_string(),
        governing_margin: governing.margin,
        margin,
        life_s: life,
        life_revolutions: life * turns_per_second(duty),
        life_beyond_tests: parts.assessment.strength.modes.iter().all(|m| !m.counts_time() || m.beyond_tests),
        wanted_life_s: *wanted_life,
        max_rpm,
        min_rpm,
        max_rpm_meaning,
        duty_rpm: top,
        unchecked: unchecked(parts),
    }
}

/// Inputs that are hardly meant.
pub(crate) fn warnings(scenario: &Scenario) -> Vec<WarningReport> {
    let of = |warning: &Warning| WarningReport { key: warning.key.clone(), message: warning.message.clone() };
    scenario.warnings.iter().map(of).collect()
}

/// Lowest and highest top speed, rpm, and how to read the latter.
pub(crate) fn speeds(limit: SpeedLimit, top: f64) -> (Option<f64>, Option<f64>, SpeedVerdict) {
    match limit {
        SpeedLimit::UpTo(factor) => (None, Some(factor * top), SpeedVerdict::Limit),
        SpeedLimit::Between(low, factor) => (Some(low * top), Some(factor * top), SpeedVerdict::Range),
        SpeedLimit::Beyond(factor) => (None, Some(factor * top), SpeedVerdict::AtLeast),
        SpeedLimit::NotEven(_) => (None, None, SpeedVerdict::None),
    }
}

/// Prints drawn for the life of one of them.
const DRAWS: usize = 10_000;

/// Any number does; this one always.
const SEED: u64 = 0x6c61_796c_6f61_6421;

/// Standard deviations either side that hold 90 % of a normal distribution.
const NINETY: f64 = 1.644_853_626_951_472_7;

fn life(parts: &Parts<'_>) -> LifeReport {
    life_of(&parts.assessment.strength.weakest_link(), parts.founding.deviation)
}

/// Lives of a part; `unknown` is the standard deviation of the natural logarithm of its margin.
pub(crate) fn life_of(part: &WeakestLink, unknown: f64) -> LifeReport {
    let drawn = drawn_lives(part, DRAWS, SEED, unknown);
    let of_one = |share: f64| drawn_life_at(&drawn, share).unwrap_or(0.0);
    LifeReport {
        b50_s: part.life_at(0.5, 1.0),
        b10_s: part.life_at(0.1, 1.0),
        b1_s: part.life_at(0.01, 1.0),
        b10_low_s: part.life_at(0.1, libm::exp(NINETY * unknown)),
        b10_high_s: part.life_at(0.1, libm::exp(-NINETY * unknown)),
        one_print_low_s: of_one(0.05),
        one_print_high_s: of_one(0.95),
        draws: DRAWS,
        seed: SEED,
    }
}

fn heat(parts: &Parts<'_>) -> HeatReport {
    let Scenario { part_temperature, duty, .. } = &parts.prepared.scenario;
    HeatReport {
        from: temperature_from(*part_temperature),
        taken_c: parts.temperatures.peak() - 273.15,
        rod_peak_c: parts.warmth.peak.map(|(kelvin, _)| kelvin - 273.15),
        rod_peak_position_mm: parts.warmth.peak.map(|(_, position)| position * MM),
        runaway_rpm: parts.warmth.speed_to_runaway.map(|factor| factor * duty.highest_rpm()),
        highest_c: parts.highest_temperature.map(|kelvin| kelvin - 273.15),
        crown_surface_c: None,
        softening_time_s: None,
    }
}

pub(crate) fn temperature_from(source: PartTemperature) -> TemperatureFrom {
    match source {
        PartTemperature::Given => TemperatureFrom::Given,
        PartTemperature::Settled => TemperatureFrom::Settled,
        PartTemperature::AfterRun { .. } => TemperatureFrom::AfterRun,
    }
}

pub(crate) fn turns_per_second(duty: &Duty) -> f64 {
    duty.revolutions() / duty.total_s()
}

pub(crate) fn mode<P: core::fmt::Display>(mode: &ModeMargin<P>, center_mm: Option<[f64; 3]>) -> ModeReport {
    ModeReport {
        mode: mode.mode,
        place: mode.place.to_string(),
        center_mm,
        margin: mode.margin,
        life_b10_s: mode.life_b10,
    }
}

pub(crate) fn founding(founding: &Founding) -> FoundingReport {
    FoundingReport {
        memory_share: founding.memory_share,
        margin_factor: libm::exp(founding.deviation),
        measure_first: founding.measure_first().map(|influence| influence.name.into()),
        influences: founding
            .influences
            .iter()
            .take(8)
            .map(|influence| InfluenceReport {
                name: influence.name.into(),
                source: influence.source.into(),
                margin_factor: libm::exp(influence.change),
            })
            .collect(),
    }
}

pub(crate) fn point_mm(point: &Point3<f64>) -> [f64; 3] {
    [point.x * MM, point.y * MM, point.z * MM]
}

fn mesh(parts: &Parts<'_>) -> MeshReport {
    let PreparedRod { mended, rod, size, unit, .. } = parts.prepared;
    let mut notes = mending(mended, rod.overlapping, rod.voids, &rod.left_out);
    notes.extend([coarse(rod.mesh.step()), cap_moved(rod), told_apart(rod)].into_iter().flatten());
    MeshReport {
        facet_count: mended.facets_in_file,
        volume_mm3: parts.model.volume * 1e9,
        mass_g: parts.model.mass.mass() * 1e3,
        closed: true,
        unit: *unit,
        size_mm: [size.x * MM, size.y * MM, size.z * MM],
        notes,
    }
}

/// What was mended in a mesh or is unusual.
pub(crate) fn mending(mended: &Mended, overlapping: bool, voids: usize, left_out: &[LeftOut]) -> Vec<String> {
    let counts = [
        (
            mended.degenerate_dropped,
            "facet with two equal corners was",
            "facets with two equal corners were",
            "left out",
        ),
        (
            mended.facets_turned,
            "facet was the wrong way round and was",
            "facets were the wrong way round and were",
            "turned",
        ),
        (mended.holes_capped, "small hole was", "small holes were", "capped; look at the mesh there"),
    ];
    let told = counts.into_iter().filter(|(count, ..)| *count > 0).map(|(count, one, more, done)| {
        let what = if count == 1 { one } else { more };
        format!("{count} {what} {done}")
    });
    let mut notes: Vec<String> = told.collect();
    if mended.corners_rounded {
        notes.push("corners that nearly met were joined".into());
    }
    if overlapping {
        notes.push("the part is several shells that overlap or touch; they are taken as one solid".into());
    }
    if voids > 0 {
        let (count, are) =
            if voids == 1 { ("1 closed void".into(), "is") } else { (format!("{voids} closed voids"), "are") };
        notes.push(format!("{count} inside {are} taken as empty"));
    }
    if !left_out.is_empty() {
        let named: Vec<String> = left_out
            .iter()
            .map(|body| format!("{:.0} mm³ at {}{}", body.volume * 1e9, body.place, body.role))
            .collect();
        let other = if named.len() == 1 {
            "1 other body of the file was"
        } else {
            &format!("{} other bodies of the file were", named.len())
        };
        notes.push(format!("{other} left out: {}", named.join("; ")));
    }
    notes
}

/// Bodies of the file that are not part of it.
pub(crate) fn left_out(bodies: &[LeftOut]) -> Vec<LeftOutReport> {
    let of = |body: &LeftOut| LeftOutReport { center_mm: body.place.mm, volume_mm3: body.volume * 1e9 };
    bodies.iter().map(of).collect()
}

fn part(prepared: &PreparedRod) -> PartReport {
    let rod = &prepared.rod;
    PartReport {
        kind: PartKind::ConnectingRod,
        bores: vec![bore("small-end", &rod.small_end), bore("big-end", &rod.big_end)],
        center_distance_mm: Some(rod.center_distance * MM),
        parallelism_deg: Some(rod.parallelism.to_degrees()),
        left_out: left_out(&rod.left_out),
    }
}

fn bore(role: &str, eye: &Eye) -> BoreReport {
    let main = eye.bore.main();
    BoreReport {
        role: role.into(),
        diameter_mm: eye.bore.diameter() * MM,
        center_mm: point_mm(&eye.bore.center),
        axis: eye.bore.axis.into(),
        depth_mm: main.depth() * MM,
        arc_deg: main.arc.to_degrees(),
        sagitta_mm: main.sagitta * MM,
        seats: eye
            .bore
            .seats
            .iter()
            .map(|seat| SeatReport { diameter_mm: 2.0 * seat.radius * MM, depth_mm: seat.depth() * MM })
            .collect(),
    }
}

/// How a part with its own frame is printed; `build` is in that frame.
pub(crate) fn printed(build: &Vector3<f64>, frame: &Frame, scenario: &Scenario) -> PrintReport {
    let angle = |axis: Vector3<f64>| libm::acos(build.dot(&axis).abs().min(1.0)).to_degrees();
    let strength = LayerStrength::of(&scenario.material(), Lay::Wall);
    let along = Vector3::x();
    let used = strength.use_of(&(along * along.transpose()), &LayerPlane::new(*build));
    PrintReport {
        build_direction: frame.direction_to_file(build).into(),
        angle_to_rod_deg: angle(along),
        angle_to_bores_deg: angle(Vector3::z()),
        shank_knockdown: 1.0 / (used.utilisation * strength.in_plane()),
    }
}

fn loads(parts: &Parts<'_>) -> LoadReport {
    let PreparedRod { scenario, crank, cylinder, .. } = parts.prepared;
    let top = scenario.duty.steps().iter().map(crate::engine::DutyStep::angular_speed_rad_s).fold(0.0, f64::max);
    let [small, big] = [End::Small, End::Big].map(|end| PinForces::of(parts, end));
    let shank = parts.model.stations.iter().zip(&parts.assessment.stations);
    let whip = shank
        .filter(|(station, _)| station.region == Region::Shank)
        .filter_map(|(_, stress)| stress.map(|s| s.bending_max))
        .fold(0.0, f64::max);
    LoadReport {
        peak_pressure_bar: parts.peak_pressure / 1e5,
        displacement_cm3: cylinder.displacement_m3() * 1e6,
        piston_acceleration_max_m_s2: crank.at(crank.top_angle_rad(), top).piston_acceleration_m_s2.abs(),
        mean_piston_speed_m_s: cylinder.mean_piston_speed_m_s(top),
        small_end_pull_n: small.pull,
        small_end_push_n: small.push,
        big_end_pull_n: Some(big.pull),
        big_end_push_n: Some(big.push),
        whip_moment_max_n_mm: Some(whip * MM),
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
                temperature_c: parts.temperatures.stations[index] - 273.15,
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
    list.extend(of_card(&prepared.scenario.card, parts.temperatures.peak()));
    list
}

/// Every number of a card, and what its hottest place leaves of it.
pub(crate) fn of_card(card: &Card, hottest: f64) -> Vec<Assumption> {
    let mut list = Vec::new();
    let mut copy = card.clone();
    visit_values(&mut copy, |name, unit, value| {
        let mut entry = Assumption::number(name, value.value, unit, value.source.into());
        entry.reference.clone_from(&value.reference);
        if entry.reference.is_none() {
            entry.reference.clone_from(&value.note);
        }
        list.push(entry);
    });
    let retention = &card.temperature.retention;
    let (strength, stiffness) = card.share_at(hottest);
    for (name, value) in [("strength kept where the part is hottest", strength), ("stiffness kept there", stiffness)] {
        let mut entry = Assumption::number(name, value, "1", retention.source.into());
        entry.reference.clone_from(&retention.reference);
        list.push(entry);
    }
    list
}

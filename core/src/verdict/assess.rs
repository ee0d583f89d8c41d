use nalgebra::{Matrix3, Vector3};

use super::margin::{FatigueLine, MOST_CYCLES, damage_of, damage_per_cycle, ten_percent_factor};
use super::mode::Mode;
use super::model::{EyePoint, Region, RodModel};
use super::place::{End, RodPlace};
use crate::engine::Duty;
use crate::job::{FatigueRule, Scenario};
use crate::life::{Cycle, MeanStress, RainflowScratch, WalkerExponent};
use crate::load::{LoadBasis, SectionForce};
use crate::material::{Lay, LayerStrength, MaterialState, Use};
use crate::stress::{Column, EyeFamily, Fit, Thrust, critical_load};
use crate::threads::map_in_order;

/// Forces at every throttle of a duty.
#[derive(Debug, Clone)]
pub struct Loading {
    /// The duty.
    pub duty: Duty,
    /// One basis for each step of the duty, by index into `bases`.
    pub basis_of_step: Vec<usize>,
    /// Bases of the distinct throttles.
    pub bases: Vec<LoadBasis>,
    /// Turns of the crank in one cycle.
    pub turns_per_cycle: f64,
}

/// The worst of one mode.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ModeMargin {
    /// The mode.
    pub mode: Mode,
    /// Where it is worst.
    pub place: RodPlace,
    /// Factor by which all stress could grow before one part in ten fails by this mode within the wanted life.
    pub margin: f64,
    /// Running time until half the parts fail by it, s; `None` for modes that do not count time.
    pub median_life: Option<f64>,
    /// Standard deviation of log10 of that life, or of the strength for modes that do not count time.
    pub deviation: f64,
    /// Whether the life stops at the most cycles that are counted.
    pub beyond_tests: bool,
}

impl ModeMargin {
    /// A mode that fails at once or never.
    pub(super) fn at_once(mode: Mode, place: RodPlace, margin: f64, deviation: f64) -> Self {
        Self { mode, place, margin, median_life: None, deviation, beyond_tests: false }
    }

    /// Whether the mode is a matter of running time.
    pub fn counts_time(&self) -> bool {
        self.median_life.is_some()
    }
}

/// Forces and stresses at one station over the whole duty.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct StationStress {
    /// Greatest axial force, N.
    pub axial_max: f64,
    /// Least axial force, N.
    pub axial_min: f64,
    /// Greatest shear force either way, N.
    pub shear_max: f64,
    /// Greatest bending moment either way, N m.
    pub bending_max: f64,
    /// Greatest stress, Pa.
    pub stress_max: f64,
    /// Least stress, Pa.
    pub stress_min: f64,
    /// Greatest stress over mean strength in its direction.
    pub utilisation: f64,
}

/// What speed, gas, material and heat make of a rod.
#[derive(Debug, Clone)]
pub struct Assessment {
    /// Every mode with its worst place, in the order of [`Mode`].
    pub modes: Vec<ModeMargin>,
    /// Station results, as in [`RodModel::stations`]; only filled for the stations assessed.
    pub stations: Vec<Option<StationStress>>,
    /// Hoop stress extremes at the points round each eye, Pa.
    pub eyes: [Vec<(f64, f64)>; 2],
}

impl Assessment {
    /// The mode with the least margin.
    pub fn governing(&self) -> &ModeMargin {
        // Buckling is always among them.
        let mut least = &self.modes[0];
        for mode in &self.modes {
            if mode.margin < least.margin {
                least = mode;
            }
        }
        least
    }
}

/// Strengths for both lays.
pub(super) struct Strengths {
    wall: LayerStrength,
    lines: LayerStrength,
}

impl Strengths {
    fn new(material: &MaterialState) -> Self {
        Self { wall: LayerStrength::of(material, Lay::Wall), lines: LayerStrength::of(material, Lay::Lines) }
    }

    pub(super) fn of(&self, lay: Lay) -> &LayerStrength {
        match lay {
            Lay::Wall => &self.wall,
            Lay::Lines => &self.lines,
        }
    }
}

/// A piece of a rod that is assessed on its own.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum Piece {
    /// A station by index.
    Station(usize),
    /// An eye.
    Eye(End),
}

/// Everything an assessment needs besides the piece.
pub(super) struct Setting<'a> {
    pub(super) model: &'a RodModel,
    pub(super) loading: &'a Loading,
    pub(super) scenario: &'a Scenario,
    pub(super) material: MaterialState,
    pub(super) speed_factor: f64,
    strengths: Strengths,
    rule: MeanStress,
    family: &'a EyeFamily,
}

impl<'a> Setting<'a> {
    pub(super) fn new(
        model: &'a RodModel,
        loading: &'a Loading,
        scenario: &'a Scenario,
        material: MaterialState,
        speed_factor: f64,
    ) -> Self {
        let walker = WalkerExponent::new(material.walker_exponent.clamp(0.01, 1.0));
        let rule = match scenario.mean_stress {
            FatigueRule::Walker => {
                walker.map_or(MeanStress::SmithWatsonTopper, |exponent| MeanStress::Walker { exponent })
            }
            FatigueRule::Goodman => MeanStress::Goodman,
            FatigueRule::Gerber => MeanStress::Gerber,
            FatigueRule::SmithWatsonTopper => MeanStress::SmithWatsonTopper,
        };
        Self {
            model,
            loading,
            scenario,
            material,
            speed_factor,
            strengths: Strengths::new(&material),
            rule,
            family: EyeFamily::embedded(),
        }
    }

    /// Angular speed of the crank in a step, rad/s.
    fn speed(&self, step: usize) -> f64 {
        self.loading.duty.steps()[step].angular_speed_rad_s() * self.speed_factor
    }

    fn basis(&self, step: usize) -> &LoadBasis {
        &self.loading.bases[self.loading.basis_of_step[step]]
    }

    fn steps(&self) -> core::ops::Range<usize> {
        0..self.loading.duty.steps().len()
    }
}

/// Assesses every station and both eyes at the duty with all its speeds times `speed_factor`.
pub fn assess(
    model: &RodModel,
    loading: &Loading,
    scenario: &Scenario,
    material: MaterialState,
    speed_factor: f64,
) -> Assessment {
    let setting = Setting::new(model, loading, scenario, material, speed_factor);
    joined(&setting, &all_pieces(model)).0
}

/// Every station of the load path and both eyes.
pub(super) fn all_pieces(model: &RodModel) -> Vec<Piece> {
    let stations = model.load_path().map(|(index, _)| Piece::Station(index));
    stations.chain([Piece::Eye(End::Small), Piece::Eye(End::Big)]).collect()
}

/// Assesses some pieces; returns with each mode the piece where it is worst.
pub(super) fn joined(setting: &Setting<'_>, pieces: &[Piece]) -> (Assessment, Vec<Piece>) {
    let results = map_in_order(pieces.len(), |i| match pieces[i] {
        Piece::Station(index) => station(setting, index),
        Piece::Eye(end) => eye(setting, end),
    });
    let mut worst: Vec<(ModeMargin, Piece)> = Vec::new();
    let mut stations = vec![None; setting.model.stations.len()];
    let mut eyes = [Vec::new(), Vec::new()];
    for (result, &piece) in results.into_iter().zip(pieces) {
        match piece {
            Piece::Station(index) => stations[index] = result.station,
            Piece::Eye(end) => eyes[end as usize] = result.extremes,
        }
        for mode in result.modes {
            match worst.iter_mut().find(|(known, _)| known.mode == mode.mode) {
                Some(known) if mode.margin < known.0.margin => *known = (mode, piece),
                Some(_) => {}
                None => worst.push((mode, piece)),
            }
        }
    }
    let any = pieces.first().copied().unwrap_or(Piece::Eye(End::Small));
    worst.push((buckling(setting), any));
    if setting.material.softening_margin <= 0.0 {
        worst.push((ModeMargin::at_once(Mode::Softening, RodPlace::Whole, 0.0, 0.0), any));
    }
    worst.sort_by_key(|(mode, _)| mode.mode);
    let (modes, places) = worst.into_iter().unzip();
    (Assessment { modes, stations, eyes }, places)
}

#[derive(Default)]
struct PieceResult {
    modes: Vec<ModeMargin>,
    station: Option<StationStress>,
    extremes: Vec<(f64, f64)>,
}

impl PieceResult {
    fn add(&mut self, mode: ModeMargin) {
        match self.modes.iter_mut().find(|known| known.mode == mode.mode) {
            Some(known) if mode.margin < known.margin => *known = mode,
            Some(_) => {}
            None => self.modes.push(mode),
        }
    }
}

/// Strength of a point against stress along one line, pulled and pushed.
struct LineStrength {
    pulled: Use,
    pushed: Use,
    in_plane: f64,
}

impl LineStrength {
    /// For a unit stress of 1 Pa along `direction`.
    fn new(setting: &Setting<'_>, direction: &Vector3<f64>, lay: Lay) -> Self {
        let strength = setting.strengths.of(lay);
        let stress: Matrix3<f64> = direction * direction.transpose();
        let build = &setting.model.print.build;
        Self {
            pulled: strength.use_of(&stress, build),
            pushed: strength.use_of(&-stress, build),
            in_plane: strength.in_plane(),
        }
    }

    fn utilisation(&self, stress: f64) -> f64 {
        if stress >= 0.0 { stress * self.pulled.utilisation } else { -stress * self.pushed.utilisation }
    }
}

fn station(setting: &Setting<'_>, index: usize) -> PieceResult {
    let station = &setting.model.stations[index];
    let forces: Vec<Vec<SectionForce>> = setting
        .steps()
        .map(|step| {
            let (basis, speed) = (setting.basis(step), setting.speed(step));
            (0..basis.angles()).map(|angle| basis.section(index, angle, speed)).collect()
        })
        .collect();
    let all = || forces.iter().flatten();
    let greatest = |value: fn(&SectionForce) -> f64| all().map(value).fold(f64::NEG_INFINITY, f64::max);
    let mut summary = StationStress {
        axial_max: greatest(|f| f.axial),
        axial_min: -greatest(|f| -f.axial),
        shear_max: greatest(|f| f.shear.abs()),
        bending_max: greatest(|f| f.bending.abs()),
        stress_max: 0.0,
        stress_min: 0.0,
        utilisation: 0.0,
    };
    let mut result = PieceResult::default();
    let area = setting.model.stations[index].makeup.stiffness.area;
    let along = Vector3::x();
    let strength = LineStrength::new(setting, &along, Lay::Wall);
    if station.region == Region::Shank {
        let place = RodPlace::ShankAt { position: station.section.position };
        for fibre in &station.fibres {
            let history: Vec<Vec<f64>> = forces.iter().map(|s| s.iter().map(|f| fibre.stress(f)).collect()).collect();
            let extremes = line_modes(setting, &strength, &history, place, &mut result);
            summary.stress_max = summary.stress_max.max(extremes.1);
            summary.stress_min = summary.stress_min.min(extremes.0);
        }
        shear_modes(setting, index, &forces, place, &mut result);
    } else if area > 0.0 {
        // In an eye the two sides share the force; the ring's bending is the eye's business.
        summary.stress_max = (summary.axial_max / area).max(0.0);
        summary.stress_min = (summary.axial_min / area).min(0.0);
    }
    summary.utilisation = strength.utilisation(summary.stress_max).max(strength.utilisation(summary.stress_min));
    result.station = Some(summary);
    result
}

/// Static and fatigue margins of a point with stress along one line; returns its least and greatest stress.
fn line_modes(
    setting: &Setting<'_>,
    strength: &LineStrength,
    history: &[Vec<f64>],
    place: RodPlace,
    result: &mut PieceResult,
) -> (f64, f64) {
    let (low, high) = history.iter().flatten().fold((0.0_f64, 0.0_f64), |(low, high), &s| (low.min(s), high.max(s)));
    let tension = high * strength.pulled.utilisation;
    let compression = -low * strength.pushed.utilisation;
    let across = strength.pulled.layer_share > 0.5;
    let torn = if across { Mode::OverloadAcrossLayers } else { Mode::OverloadInLayerPlane };
    let ten = ten_percent_factor(setting.material.strength_scatter);
    let deviation = setting.material.strength_scatter;
    let at_once = |mode, used: f64| ModeMargin::at_once(mode, place, ten / used.max(1e-9), deviation);
    result.add(at_once(torn, tension));
    result.add(at_once(Mode::Crushing, compression));
    // Scaled so that the strength along the beads is the reference; pushes keep the scale of pulls, which is severe.
    let scale = strength.pulled.utilisation * strength.in_plane;
    let scaled: Vec<Vec<f64>> = history.iter().map(|step| step.iter().map(|s| s * scale).collect()).collect();
    fatigue_mode(setting, strength.in_plane, strength.pulled, &scaled, place, result);
    (low, high)
}

/// Shear and axial stress together in the middle of the section's depth.
fn shear_modes(
    setting: &Setting<'_>,
    index: usize,
    forces: &[Vec<SectionForce>],
    place: RodPlace,
    result: &mut PieceResult,
) {
    let station = &setting.model.stations[index];
    let strength = setting.strengths.of(Lay::Lines);
    let build = &setting.model.print.build;
    let (axial_area, whole_area) = (station.makeup.stiffness.area, station.section.properties.area);
    if axial_area <= 0.0 || whole_area <= 0.0 {
        return;
    }
    let mut worst = (Use::default(), 0.0);
    let scaled: Vec<Vec<f64>> = forces
        .iter()
        .map(|step| {
            step.iter()
                .map(|force| {
                    let normal = force.axial / axial_area;
                    let shear = station.shear_factor * force.shear / whole_area;
                    let stress = Matrix3::new(normal, shear, 0.0, shear, 0.0, 0.0, 0.0, 0.0, 0.0);
                    let used = strength.use_of(&stress, build);
                    if used.utilisation > worst.0.utilisation {
                        worst = (used, normal);
                    }
                    // The sign of the larger stress decides whether the point is pulled or pushed.
                    let sign = if shear.abs() > normal.abs() { shear.signum() } else { normal.signum() };
                    sign * used.utilisation * strength.in_plane()
                })
                .collect()
        })
        .collect();
    let (worst, normal) = worst;
    let mode = if worst.layer_share > 0.5 {
        Mode::OverloadAcrossLayers
    } else if normal < 0.0 {
        Mode::Crushing
    } else {
        Mode::OverloadInLayerPlane
    };
    let ten = ten_percent_factor(setting.material.strength_scatter);
    let margin = ten / worst.utilisation.max(1e-9);
    result.add(ModeMargin::at_once(mode, place, margin, setting.material.strength_scatter));
    fatigue_mode(setting, strength.in_plane(), worst, &scaled, place, result);
}

fn fatigue_mode(
    setting: &Setting<'_>,
    in_plane: f64,
    used: Use,
    scaled: &[Vec<f64>],
    place: RodPlace,
    result: &mut PieceResult,
) {
    let mode = if used.layer_share > 0.5 { Mode::FatigueAcrossLayers } else { Mode::FatigueInLayerPlane };
    let Some(line) = FatigueLine::of(&setting.material, in_plane, used) else {
        result.add(ModeMargin::at_once(mode, place, 0.0, 0.0));
        return;
    };
    let mut scratch = RainflowScratch::default();
    let mut per_repeat = 0.0;
    let (mut low, mut high) = (0.0_f64, 0.0_f64);
    for (step, history) in setting.loading.duty.steps().iter().zip(scaled) {
        let cycles = step.revolutions() * setting.speed_factor / setting.loading.turns_per_cycle;
        per_repeat += cycles * damage_per_cycle(history, &line, setting.rule, &mut scratch);
        low = history.iter().copied().fold(low, f64::min);
        high = history.iter().copied().fold(high, f64::max);
    }
    // Starting and stopping adds one cycle from rest to the extremes each time the duty is repeated.
    let start = Cycle { range: high - low, mean: f64::midpoint(high, low), count: 1.0 };
    per_repeat += damage_of(&start, &line, setting.rule);
    let duty = &setting.loading.duty;
    let cycles_per_second =
        duty.revolutions() * setting.speed_factor / setting.loading.turns_per_cycle / duty.total_s();
    let most = MOST_CYCLES / cycles_per_second;
    let life = (duty.total_s() / per_repeat).min(most);
    let ten_percent = life * ten_percent_factor(line.deviation);
    let margin = libm::pow(ten_percent / setting.scenario.wanted_life, 1.0 / line.line.exponent());
    let (median_life, deviation, beyond_tests) = (Some(life), line.deviation, life >= most);
    result.add(ModeMargin { mode, place, margin, median_life, deviation, beyond_tests });
}

fn eye(setting: &Setting<'_>, end: End) -> PieceResult {
    let mut result = PieceResult::default();
    let which = end as usize;
    let Some(eye) = &setting.model.eyes[which] else { return result };
    let clearance = if end == End::Small { setting.scenario.fits.small_end } else { setting.scenario.fits.big_end };
    let fit = Fit { radial_clearance: clearance, modulus: setting.material.in_plane_modulus() };
    let net = eye.net_area();
    let outward = if end == End::Small { -1.0 } else { 1.0 };
    let points: &[EyePoint] = &setting.model.eye_points[which];
    let mut histories: Vec<Vec<Vec<f64>>> = vec![Vec::with_capacity(setting.steps().len()); points.len()];
    let mut greatest = 0.0_f64;
    for step in setting.steps() {
        let (basis, speed) = (setting.basis(step), setting.speed(step));
        for history in &mut histories {
            history.push(Vec::with_capacity(basis.angles()));
        }
        for angle in 0..basis.angles() {
            let pin = if end == End::Small { basis.small_end(angle, speed) } else { basis.big_end(angle, speed) };
            let force = libm::hypot(pin.along, pin.across);
            greatest = greatest.max(force);
            // A pin that pushes the rod's end outward pulls the rod.
            let thrust = if pin.along * outward > 0.0 { Thrust::Pull } else { Thrust::Push };
            let absent = thrust == Thrust::Pull && eye.half;
            let factors = eye.factors(setting.family, thrust, force, fit);
            let nominal = if absent { 0.0 } else { force / net };
            for (point, history) in points.iter().zip(&mut histories) {
                let factor = if point.outside { factors.outer[point.angle] } else { factors.bore[point.angle] };
                if let Some(history) = history.last_mut() {
                    history.push(factor * nominal);
                }
            }
        }
    }
    for (point, history) in points.iter().zip(&histories) {
        let strength = LineStrength::new(setting, &point.hoop, point.lay);
        let extremes = line_modes(setting, &strength, history, point.place, &mut result);
        result.extremes.push(extremes);
    }
    let ten = ten_percent_factor(setting.material.strength_scatter);
    let pressure = eye.pin_pressure(greatest);
    let margin = ten * setting.material.bearing_pressure / pressure.max(1.0);
    let deviation = setting.material.strength_scatter;
    result.add(ModeMargin::at_once(Mode::BearingPressure, RodPlace::Bore { end }, margin, deviation));
    result
}

/// Buckling in the plane of the engine, where the pins let the ends turn, and across it, where they hold them.
fn buckling(setting: &Setting<'_>) -> ModeMargin {
    let (mut in_plane, mut across, mut area) = (f64::INFINITY, f64::INFINITY, f64::INFINITY);
    let mut push = 0.0_f64;
    for (index, station) in setting.model.stations.iter().enumerate() {
        if station.region != Region::Shank {
            continue;
        }
        let stiffness = &station.makeup.stiffness;
        // A section whose principal axes lean against the plane of the engine counts with its least moment both ways.
        let lean = stiffness.product_moment.abs() / stiffness.second_moment_y.min(stiffness.second_moment_z);
        let least = stiffness.principal().0;
        let leaning = lean > 0.02;
        in_plane = in_plane.min(if leaning { least } else { stiffness.second_moment_z });
        across = across.min(if leaning { least } else { stiffness.second_moment_y });
        area = area.min(stiffness.area);
        for step in setting.steps() {
            push = push.max(setting.basis(step).greatest_push(index, setting.speed(step)));
        }
    }
    let modulus = setting.material.modulus_along(setting.model.print.build.x);
    let load = |moment: f64, end_fixity: f64| {
        critical_load(&Column {
            length: setting.model.length,
            end_fixity,
            bending_stiffness: modulus * moment,
            crush_load: setting.material.compression_strength * area,
        })
    };
    let fixity = &setting.scenario.end_fixity;
    let least = load(in_plane, fixity.in_plane).min(load(across, fixity.across));
    let ten = ten_percent_factor(setting.material.strength_scatter);
    let margin = ten * least / push.max(1e-9);
    ModeMargin::at_once(Mode::Buckling, RodPlace::Shank, margin, setting.material.strength_scatter)
}

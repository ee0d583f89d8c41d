use super::place::RodStrength;
use nalgebra::Vector3;

use super::assess::all_pieces;
use super::buckling::ColumnLoad;
use super::eye_stress::EyeStress;
use super::head::HeadGap;
use super::model::EyePoint;
use super::piece::Piece;
use super::place::{End, RodPlace};
use super::ring::{apart_from_points, split};
use super::setting::{Here, LineStrength, Setting};
use super::shank::{at_once, middle_bounds, middle_margins};
use super::station_force::{MiddleReach, middle_path};
use super::stressing::Stressing;
use super::temperatures::Temperatures;
use super::wear::{Wear, WearBound};
use super::worst::Worst;
use crate::bond::QuickBond;
use crate::job::Scenario;
use crate::life::{Cycle, EquivalentAmplitude};
use crate::material::Lay;
use crate::mesh::Mesh;
use crate::numeric::{map_in_order, sort_few};
use crate::print::PrintSettings;
use crate::verdict::{Counted, Mode, ModeMargin, Reach, SpotStress, lay_under};

/// The places of a rod that can govern in some build direction, with their stresses worked out.
///
/// Stress does not change with the build direction, only what it does to the layers: a direction costs some microseconds.
/// Places whose stress lies within that of another place with the same line and lay at every step are left out. The
/// stiffness of infill and walls is that of the direction the model was made for.
pub struct HotSpots<'a> {
    base: Setting<'a>,
    lines: Vec<LineSpot>,
    middles: Vec<MiddleSpot>,
    column: ColumnLoad,
    head: Option<HeadGap>,
    /// Modes that do not depend on the direction.
    fixed: Worst<()>,
    /// How each direction bonds, the mesh, and the least factor in the rod's own direction.
    quick_bond: Option<(QuickBond, &'a Mesh, f64)>,
}

/// A place with stress along one line.
struct LineSpot {
    here: Here,
    line: Vector3<f64>,
    /// Unit normal of the surface; `None` where the lay is that of a wall in any direction.
    normal: Option<Vector3<f64>>,
    reach: Reach,
    /// Least and greatest stress of the duty, rest included.
    whole: (f64, f64),
    /// For rules that scale with stress.
    scaled: Option<Scaled>,
    counted: Counted,
}

/// Cycles by the logarithm of the amplitude that does as much harm at zero mean, Pa.
struct Scaled {
    /// The greatest.
    greatest: f64,
    /// Logarithm of the life over that wanted if the greatest were the amplitude for a million cycles, at the flattest
    /// exponent of the material: steeper ones leave less to the smaller cycles.
    ln_life: f64,
    /// Each with its count, for each step.
    cycles: Vec<Vec<(f64, f64)>>,
    /// That of start and stop.
    start: f64,
}

/// The middle of a depth, with normal and shear stress that turn against each other.
struct MiddleSpot {
    here: Here,
    /// Normal and shear stress where the path of both turns, for each step, Pa.
    path: Vec<Vec<(f64, f64)>>,
    /// How far both reach, for each step.
    reach: Vec<MiddleReach>,
}

impl<'a> HotSpots<'a> {
    /// Gathers the places of a rod.
    pub fn new(stressing: &'a Stressing<'a>, scenario: &'a Scenario, temperatures: &'a Temperatures) -> Self {
        let base = Setting::new(stressing, scenario, &scenario.card, temperatures);
        let mut lines = shank_lines(&base);
        for end in [End::Small, End::Big] {
            lines.extend(eye_lines(&base, end));
        }
        let middles = middles(&base);
        let column = ColumnLoad::of(&base);
        let (head, fixed) = (HeadGap::of(&base), fixed(&base));
        Self { base, lines, middles, column, head, fixed, quick_bond: None }
    }

    /// Has each direction bond its layers as it would, by a quick look at the layers of the rod's mesh.
    #[must_use]
    pub fn bonding(self, mesh: &'a Mesh) -> Self {
        let (scenario, print) = (self.base.scenario, &self.base.model.print);
        let warmth = scenario.warmth.as_ref();
        let quick = warmth.and_then(|warmth| QuickBond::of(mesh, print, warmth, &scenario.given_card));
        let quick_bond = quick.map(|quick| {
            let least = quick.least(mesh, &print.build);
            (quick, mesh, least)
        });
        Self { quick_bond, ..self }
    }

    /// Strength in many directions, in their order.
    pub fn along_all(&self, builds: &[Vector3<f64>]) -> Vec<RodStrength> {
        map_in_order(builds.len(), |k| self.along(&builds[k]))
    }

    /// Strength with layers stacked along the unit vector `build`, in the frame of the rod.
    pub fn along(&self, build: &Vector3<f64>) -> RodStrength {
        let own = *build == self.base.model.print.build;
        let bond = self.quick_bond.as_ref().map_or(1.0, |(quick, mesh, least)| quick.least(mesh, build) / least);
        let setting = self.base.facing(*build, if own { 1.0 } else { bond });
        let print = PrintSettings { build: *build, ..setting.model.print };
        let mut worst = self.fixed.clone();
        worst.add(self.column.margin(&setting), ());
        let mut looks: Vec<(WearBound, Wear<'_>, f64)> = Vec::with_capacity(self.lines.len());
        for spot in &self.lines {
            let lay = spot.normal.map_or(Lay::Wall, |normal| lay_under(&normal, &print));
            let strength =
                LineStrength::new(&setting, &spot.line, lay, spot.here.kept, if own { spot.here.bond } else { 1.0 });
            for mode in at_once(&setting, &strength, spot.whole, spot.here.place) {
                worst.add(mode, ());
            }
            let wear = Wear::new(&setting, strength.in_plane, strength.pulled, spot.here);
            let bound = match &spot.scaled {
                Some(scaled) => {
                    wear.at_least_of_scaled(spot.whole.1, scaled.greatest, scaled.ln_life, strength.scale())
                }
                None => wear.at_least(&spot.reach, strength.scale()),
            };
            looks.push((bound, wear, strength.scale()));
        }
        let mut order: Vec<(f64, usize)> = looks.iter().map(|look| look.0.least()).zip(0..).collect();
        sort_few(&mut order, |a, b| a.0.total_cmp(&b.0).then(a.1.cmp(&b.1)));
        for (_, number) in order {
            let (bound, wear, scale) = &looks[number];
            if !worst.open_to(bound) {
                continue;
            }
            let spot = &self.lines[number];
            let known = worst.known(bound);
            let worn = match &spot.scaled {
                Some(scaled) => {
                    let levels = &spot.counted.levels;
                    wear.scaled_below(known, &scaled.cycles, scaled.start, levels, spot.whole.1, *scale)
                }
                None => wear.exact_below(known, &spot.reach, &spot.counted, (*scale, 1.0)),
            };
            if let Some(worn) = worn {
                worst.add_worn(worn, ());
            }
        }
        pressed_in(&setting, &print, &mut worst);
        self.middles_of(&setting, &mut worst);
        if let Some(head) = &self.head {
            worst.add(head.margin(&setting), ());
        }
        setting.strength_of(worst).0
    }

    /// Looks at the middles of depths that could be the worst.
    fn middles_of(&self, setting: &Setting<'_>, worst: &mut Worst<()>) {
        for middle in &self.middles {
            // Looked at only where it could be the worst of all single loads or of all that running does.
            let bounds = middle_bounds(setting, &middle.reach, middle.here);
            let at_once = worst.least_at_once();
            let loaded = bounds.loaded.iter().any(|bound| at_once.is_none_or(|known| bound.margin < known));
            let worn = |bound: &WearBound| worst.worst_of(bound.region).is_none_or(|known| bound.least() < known);
            if loaded || bounds.worn.iter().any(worn) {
                let (mode, worn) = middle_margins(setting, &middle.path, middle.here, worst);
                worst.add(mode, ());
                if let Some(worn) = worn {
                    worst.add_worn(worn, ());
                }
            }
        }
    }
}

/// The split of an eye by its ring right after that was pressed in.
fn pressed_in(setting: &Setting<'_>, print: &PrintSettings, worst: &mut Worst<()>) {
    for end in [End::Small, End::Big] {
        if setting.assembled[end as usize][0] <= 0.0 {
            continue;
        }
        for point in &setting.model.eye_points[end as usize] {
            let normal = Vector3::new(point.hoop.y, -point.hoop.x, 0.0);
            let cold = LineStrength::new(setting, &point.hoop, lay_under(&normal, print), setting.cold, 1.0);
            if let Some(mode) = split(setting, end, &cold, point) {
                worst.add(mode, ());
            }
        }
    }
}

/// Fully reversed amplitude that does as much harm, Pa. Without a limit no cycle counts as broken; whether one is, the
/// highest stress says.
fn harm(cycle: &Cycle, base: &Setting<'_>) -> f64 {
    match base.rule.equivalent(cycle.amplitude(), cycle.mean, f64::INFINITY) {
        EquivalentAmplitude::Reversed(amplitude) => amplitude,
        EquivalentAmplitude::Broken => f64::INFINITY,
    }
}

/// The cycles of a step that are not small against its largest: with the exponents of fatigue a tenth of the amplitude
/// does a hundred-thousandth of the harm.
fn that_count(cycles: &[Cycle], base: &Setting<'_>) -> Vec<Cycle> {
    const SMALL: f64 = 0.1;
    let harms: Vec<f64> = cycles.iter().map(|cycle| harm(cycle, base)).collect();
    let greatest = harms.iter().copied().fold(0.0, f64::max);
    cycles.iter().zip(&harms).filter(|(_, harm)| **harm >= SMALL * greatest).map(|(cycle, _)| *cycle).collect()
}

/// See [`Scaled::ln_life`]; amplitudes as logarithms, with the counts of each step.
fn ln_life_at(greatest: f64, steps: &[Vec<(f64, f64)>], start: f64, base: &Setting<'_>) -> f64 {
    let exponent = base.material.fatigue_exponent.min(base.material.layer_fatigue_exponent);
    let share = |amplitude: f64| libm::exp(exponent * (amplitude - greatest));
    let in_one = steps.iter().map(|step| step.iter().map(|&(amplitude, count)| count * share(amplitude)).sum::<f64>());
    let in_all: f64 = base.stressing.cycles().zip(in_one).map(|(cycles, in_one)| cycles * in_one).sum();
    let life = 1e6 * base.stressing.loading.duty.total_s() / (in_all + share(start));
    // Rounding must not lift the bound above what it bounds.
    libm::log(life / base.scenario.wanted_life) - 1e-12
}

impl LineSpot {
    fn new(
        base: &Setting<'_>,
        here: Here,
        (line, normal): (Vector3<f64>, Option<Vector3<f64>>),
        stress: &SpotStress,
        counted: &Counted,
    ) -> Self {
        let whole = stress.whole();
        let cycles: Vec<Vec<Cycle>> = counted.cycles.iter().map(|step| that_count(step, base)).collect();
        let start = stress.reach.start_and_stop();
        let scaled = base.rule.scales_with_stress().then(|| {
            let ln = |cycle: &Cycle| libm::log(harm(cycle, base).max(f64::MIN_POSITIVE));
            let cycles: Vec<Vec<(f64, f64)>> =
                cycles.iter().map(|step| step.iter().map(|c| (ln(c), c.count)).collect()).collect();
            let start = ln(&start);
            let greatest = cycles.iter().flatten().map(|cycle| cycle.0).fold(start, f64::max);
            let ln_life = ln_life_at(greatest, &cycles, start, base);
            Scaled { greatest, ln_life, cycles, start }
        });
        let counted = Counted { cycles, levels: counted.levels.clone() };
        Self { here, line, normal, reach: stress.reach.clone(), whole, scaled, counted }
    }
}

/// Of many places with one line and lay, those that no other covers.
fn uncovered<T>(all: Vec<T>, stress: impl Fn(&T) -> (&SpotStress, f64)) -> Vec<T> {
    let mut kept: Vec<T> = Vec::new();
    for candidate in all {
        let (own, own_kept) = stress(&candidate);
        let covered = kept.iter().any(|other| {
            let (other, other_kept) = stress(other);
            own.within(own_kept, other, other_kept)
        });
        if covered {
            continue;
        }
        kept.retain(|other| {
            let (other, other_kept) = stress(other);
            !other.within(other_kept, own, own_kept)
        });
        kept.push(candidate);
    }
    kept
}

fn shank_lines(base: &Setting<'_>) -> Vec<LineSpot> {
    let stressing = base.stressing;
    let mut all = Vec::new();
    for (index, _) in base.model.load_path() {
        let kept = base.kept(Piece::Station(index));
        all.extend(
            stressing.station(index).fibres.iter().enumerate().map(|(number, fibre)| (index, number, kept, fibre)),
        );
    }
    uncovered(all, |&(_, _, kept, fibre)| (fibre, kept))
        .into_iter()
        .map(|(index, number, _, spot)| {
            let station = &base.model.stations[index];
            let fibre = &station.fibres[number];
            let history = |step: usize| fibre.stresses(&stressing.forces[step].section(index)).collect();
            let counted = spot.counted(stressing.shares(), history);
            let place = RodPlace::ShankAt { position: station.section.position };
            LineSpot::new(base, base.here(Piece::Station(index), place), (Vector3::x(), None), spot, counted)
        })
        .collect()
}

fn eye_lines(base: &Setting<'_>, end: End) -> Vec<LineSpot> {
    let Some(stress) = base.stressing.eye(end) else { return Vec::new() };
    let kept = base.kept(Piece::Eye(end));
    let points = &base.model.eye_points[end as usize];
    let spot = |point: &EyePoint| &stress.spots[EyeStress::spot(point.angle, point.outside)];
    points
        .iter()
        .filter(|point| {
            // Bore and outer surface at one angle share line and lay.
            !points.iter().any(|other| {
                other.hoop == point.hoop
                    && other.outside != point.outside
                    && spot(point).within(kept, spot(other), kept)
                    && (other.outside || !spot(other).within(kept, spot(point), kept))
            })
        })
        .map(|point| {
            let number = EyeStress::spot(point.angle, point.outside);
            let shares = base.stressing.shares();
            let counted = spot(point).counted(shares, |step| stress.history(number, step));
            let normal = Vector3::new(point.hoop.y, -point.hoop.x, 0.0);
            LineSpot::new(base, base.here_on(end, point), (point.hoop, Some(normal)), spot(point), counted)
        })
        .collect()
}

fn fixed(base: &Setting<'_>) -> Worst<()> {
    let mut fixed = Worst::default();
    for end in [End::Small, End::Big] {
        for margin in apart_from_points(base, end) {
            fixed.add(margin, ());
        }
    }
    if all_pieces(base.model).into_iter().any(|piece| base.softened(piece)) {
        fixed.add(ModeMargin::at_once(Mode::Softening, RodPlace::Whole, 0.0), ());
    }
    fixed
}

fn middles(base: &Setting<'_>) -> Vec<MiddleSpot> {
    let stressing = base.stressing;
    let mut found: Vec<(f64, f64, MiddleSpot)> = Vec::new();
    for (index, station) in base.model.load_path() {
        if stressing.station(index).middle.is_empty() {
            continue;
        }
        let place = RodPlace::ShankAt { position: station.section.position };
        let here = base.here(Piece::Station(index), place);
        let kept = here.kept;
        let path: Vec<Vec<(f64, f64)>> =
            stressing.forces.iter().map(|step| turns(&middle_path(station, &step.section(index)))).collect();
        let greatest = |part: fn(&(f64, f64)) -> f64| path.iter().flatten().map(part).fold(0.0, f64::max) / kept;
        let (normal, shear) = (greatest(|p| p.0.abs()), greatest(|p| p.1.abs()));
        if found.iter().any(|(n, s, _)| *n >= normal && *s >= shear) {
            continue;
        }
        found.retain(|(n, s, _)| !(normal >= *n && shear >= *s));
        let reach = stressing.station(index).middle.clone();
        found.push((normal, shear, MiddleSpot { here, path, reach }));
    }
    found.into_iter().map(|(_, _, spot)| spot).collect()
}

/// The points of a closed path at which it turns back along any of eight directions: between them it is as good as
/// straight, and no norm of its points is missed by more than 2 %, the secant of 11 degrees.
fn turns(path: &[(f64, f64)]) -> Vec<(f64, f64)> {
    let count = path.len();
    let along = |k: usize, direction: (f64, f64)| path[k % count].0 * direction.0 + path[k % count].1 * direction.1;
    let directions: Vec<(f64, f64)> = (0..8)
        .map(|k| f64::from(k) * core::f64::consts::PI / 8.0)
        .map(|angle| (libm::cos(angle), libm::sin(angle)))
        .collect();
    (0..count)
        .filter(|&k| {
            directions.iter().any(|&direction| {
                let (before, here, after) =
                    (along(k + count - 1, direction), along(k, direction), along(k + 1, direction));
                (here - before) * (after - here) <= 0.0
            })
        })
        .map(|k| path[k])
        .collect()
}

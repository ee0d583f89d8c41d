use nalgebra::{Point3, Vector6};

use super::cases::PistonField;
use crate::field::tensor;
use crate::life::MeanStress;
use crate::material::{Card, Lay, LayerPlane, LayerStrength, MaterialState, Use};
use crate::numeric::sort_few;
use crate::piston::assess::PistonCase;
use crate::piston::place::{PistonPlace, PistonRegion};
use crate::piston::wear::running;
use crate::verdict::field::{Angles, Judged, Judging, Path, SolvedCases, States, lays};
use crate::verdict::{ModeMargin, Running, mean_stress_rule, ten_percent_factor};

/// Holds the stress at points of the surface against the material, over the whole duty.
pub(crate) struct Judge<'a> {
    pub(crate) case: &'a PistonCase<'a>,
    pub(crate) field: &'a PistonField,
    pub(crate) states: &'a States,
    card: &'a Card,
    rule: MeanStress,
    plane: LayerPlane,
    /// Lay of the beads at every point.
    lays: Vec<Lay>,
    /// Every crank angle of each step.
    all: Vec<Vec<usize>>,
    /// Few of them.
    few: Vec<Vec<usize>>,
}

/// A boss reaches this far, in widths of its ring beyond the bore.
const BOSS_REACH: f64 = 1.5;

/// The crown's edge counts to it by so much of its thickness beyond its free radius.
const CROWN_EDGE: f64 = 0.5;

/// The crown's underside counts to it within this share of its thickness.
const UNDERSIDE: f64 = 0.25;

impl<'a> Judge<'a> {
    pub(crate) fn new(case: &'a PistonCase<'a>, field: &'a PistonField, states: &'a States) -> Self {
        let card = &case.scenario.card;
        Self {
            case,
            field,
            states,
            card,
            rule: mean_stress_rule(case.scenario, card.fatigue.walker_exponent.value),
            plane: LayerPlane::new(case.model.print.build),
            lays: lays(&field.solved.points, &case.model.print),
            all: states.all(),
            few: states.few(),
        }
    }

    /// Temperature there, K; of what has softened that of the moment before.
    fn kelvin(&self, place: &PistonPlace) -> f64 {
        let case = self.case;
        let kelvin = match *place {
            PistonPlace::CrownAt { depth, .. } => case.warm.crown_at(depth),
            PistonPlace::Boss { .. } => case.boss_temperature(),
            PistonPlace::BeltAt { height, .. } | PistonPlace::WallAt { height, .. } => case.wall_temperature(height),
            _ => case.scenario.temperature,
        };
        case.before_softening(kelvin)
    }

    /// Strength of a point, whose layers bond as those at its height.
    fn strength(&self, point: usize, material: &MaterialState) -> LayerStrength {
        let bond = self.case.scenario.bond_at(&self.field.solved.points.points[point].0);
        LayerStrength::of(material, self.lays[point]).bonded(bond)
    }

    fn material(&self, kelvin: f64) -> MaterialState {
        self.card.at(kelvin, self.case.scenario.moisture)
    }
}

impl Judging for Judge<'_> {
    type Place = PistonPlace;
    type Region = PistonRegion;

    fn solved(&self) -> &SolvedCases {
        &self.field.solved
    }

    fn states(&self) -> &States {
        self.states
    }

    fn place(&self, at: &Point3<f64>) -> PistonPlace {
        let model = self.case.model;
        let radius = libm::hypot(at.y, at.z);
        let top = model.crown.underside + model.crown.mean;
        let under = model.crown.underside - UNDERSIDE * model.crown.mean;
        if at.x >= under && radius <= model.plate_radius + CROWN_EDGE * model.crown.mean {
            return PistonPlace::CrownAt { radius, depth: (top - at.x).max(0.0) };
        }
        let bore = &self.field.bore.bore;
        let (x, y) = (at.x - bore.center.x, at.y - bore.center.y);
        let distance = libm::hypot(x, y);
        let ligament = model.boss.map_or(0.0, |eye| eye.ligament);
        if distance <= bore.radius + BOSS_REACH * ligament {
            let outside = distance > bore.radius + 0.5 * ligament;
            return PistonPlace::Boss { angle: libm::atan2(y.abs(), -x), outside };
        }
        let azimuth = libm::atan2(at.y.abs(), at.z.abs());
        let belt = model.belt.is_some_and(|lowest| at.x >= lowest);
        if belt { PistonPlace::BeltAt { height: at.x, azimuth } } else { PistonPlace::WallAt { height: at.x, azimuth } }
    }

    fn region(place: &PistonPlace) -> PistonRegion {
        place.region()
    }

    fn alike(a: &PistonPlace, b: &PistonPlace, spread: f64) -> bool {
        /// Angle within which points round the bore or the axis are one place, rad.
        const TURN: f64 = 25.0 / 180.0 * core::f64::consts::PI;
        match (a, b) {
            (PistonPlace::CrownAt { radius, depth }, PistonPlace::CrownAt { radius: r, depth: d }) => {
                (radius - r).abs() < spread && (depth - d).abs() < 0.5 * spread
            }
            (PistonPlace::Boss { angle, outside }, PistonPlace::Boss { angle: t, outside: o }) => {
                outside == o && (angle - t).abs() < TURN
            }
            // A ring belt is alike all round.
            (PistonPlace::BeltAt { height, .. }, PistonPlace::BeltAt { height: h, .. }) => (height - h).abs() < spread,
            (PistonPlace::WallAt { height, azimuth }, PistonPlace::WallAt { height: h, azimuth: t }) => {
                (height - h).abs() < spread && (azimuth - t).abs() < TURN
            }
            _ => false,
        }
    }

    /// In a hot skin thinner than cells.
    fn blurred(&self, at: &Point3<f64>) -> bool {
        self.field.blurred(at.x)
    }

    fn used(&self, point: usize, stress: &Vector6<f64>) -> Use {
        let place = self.place(&self.field.solved.points.points[point].0);
        let material = self.material(self.kelvin(&place));
        self.strength(point, &material).use_of(&tensor(stress), &self.plane)
    }

    fn at(&self, point: usize, angles: Angles, factor: f64, finer: Option<Use>) -> Option<Judged<PistonPlace>> {
        let solved = &self.field.solved;
        if !solved.known(point) {
            return None;
        }
        let (at, normal) = &solved.points.points[point];
        if self.blurred(at) {
            return None;
        }
        let place = self.place(at);
        let kelvin = self.kelvin(&place);
        let material = self.material(kelvin);
        let strength = self.strength(point, &material);
        let used = |stress: &Vector6<f64>| strength.use_of(&tensor(stress), &self.plane);
        let chosen = if angles == Angles::All { &self.all } else { &self.few };
        let path = Path::new(solved.at(point), self.states, chosen, factor, used, finer);
        let (most, ultimate) = (path.most, strength.in_plane());
        let duty = &self.case.loading.duty;
        let counted = path.counted(duty.steps().iter().map(|step| step.seconds / duty.total_s()));
        let at_point = Running {
            place,
            kelvin,
            reach: &path.reach(),
            counted: &counted,
            scale: ultimate,
            mean_share: most.pull.abs(),
            layer_share: most.layer_share,
            ultimate,
        };
        let (worn, _) = running(self.case, self.card, &material, self.rule, &at_point);
        let mut modes: Vec<_> = worn.into_iter().flatten().collect();
        // What the pin crushes is a mode of its own, by its pressure.
        if !(self.field.bore.bore.touches(at, normal) && most.pull < 0.0) {
            let margin = ten_percent_factor(material.strength_scatter) / most.utilisation.max(1e-9);
            modes.push(ModeMargin::at_once(path.at_once(), place, margin));
        }
        sort_few(&mut modes, |a, b| a.margin.total_cmp(&b.margin));
        let Path { worst, stress, .. } = path;
        Some(Judged { point, place, modes, worst, stress, layer_share: most.layer_share })
    }
}

use std::borrow::Cow;

use nalgebra::{Point3, Vector6};

use super::cases::AnyField;
use super::states::Run;
use crate::any::place::AnyPlace;
use crate::any::prepared::PreparedAny;
use crate::any::warmth::{Warmth, distance};
use crate::field::tensor;
use crate::job::Scenario;
use crate::life::{Link, MeanStress};
use crate::material::{Card, Lay, LayerPlane, LayerStrength, Use};
use crate::numeric::{map_in_order, sort_few};
use crate::verdict::field::{Angles, Judged, Judging, Path, SolvedCases, States, lays};
use crate::verdict::{ModeMargin, Running, Wanted, lay_under, mean_stress_rule, ten_percent_factor};

/// Holds the stress at points of the surface against the material, over the whole duty.
pub(crate) struct Judge<'a> {
    pub(crate) prepared: &'a PreparedAny,
    pub(crate) field: &'a AnyField,
    pub(crate) run: &'a Run,
    scenario: &'a Scenario,
    card: &'a Card,
    rule: MeanStress,
    plane: LayerPlane,
    points: &'a Points,
    /// Lay of the beads at every point.
    lays: Cow<'a, [Lay]>,
    /// Added to all temperatures, K.
    warmer: f64,
    /// Every moment of each step.
    all: Vec<Vec<usize>>,
    /// Few of them.
    few: Vec<Vec<usize>>,
}

/// What is known of every point of the surface, whatever loads it.
#[derive(Debug, Clone)]
pub(crate) struct Points {
    places: Vec<AnyPlace>,
    /// K.
    kelvin: Vec<f64>,
    /// Whether it lies on a surface that is held, where the force on it is not known.
    held: Vec<bool>,
    /// Lay of the beads as the job prints it.
    lays: Vec<Lay>,
}

impl Points {
    pub(crate) fn new(prepared: &PreparedAny, field: &AnyField, warmth: &Warmth) -> Self {
        let points = &field.solved.points.points;
        let known = map_in_order(points.len(), |n| {
            let (point, normal) = &points[n];
            let away: Vec<f64> = (0..prepared.found.len()).map(|place| distance(prepared, place, point)).collect();
            let kelvin = warmth.at(|place| away[place]);
            (nearest(prepared, point, &away), kelvin, on_hold(prepared, point, normal))
        });
        let lays = lays(&field.solved.points, &prepared.print);
        let mut all = Self { places: Vec::new(), kelvin: Vec::new(), held: Vec::new(), lays };
        for (place, kelvin, held) in known {
            all.places.push(place);
            all.kelvin.push(kelvin);
            all.held.push(held);
        }
        all
    }

    /// Whether a point lies on a surface that is held.
    pub(crate) fn held(&self, point: usize) -> bool {
        self.held[point]
    }
}

/// The place of a point by its distances from all of them.
fn nearest(prepared: &PreparedAny, point: &Point3<f64>, away: &[f64]) -> AnyPlace {
    let least = (0..away.len()).min_by(|&a, &b| away[a].total_cmp(&away[b]));
    least.map_or(AnyPlace::Whole, |region| AnyPlace::At {
        region,
        name: prepared.found[region].name,
        distance: away[region],
        point: *point,
    })
}

/// Whether a point lies on a surface that is held by more than a pin.
fn on_hold(prepared: &PreparedAny, point: &Point3<f64>, normal: &nalgebra::Vector3<f64>) -> bool {
    prepared.given.holds.iter().any(|hold| {
        let pinned = prepared.pins.iter().any(|pin| pin.holds && pin.place == hold.at);
        !pinned && prepared.found[hold.at].patch.holds(point, normal)
    })
}

/// What a point is judged with.
#[derive(Clone, Copy)]
pub(crate) struct With<'a> {
    pub(crate) scenario: &'a Scenario,
    pub(crate) card: &'a Card,
    pub(crate) print: &'a crate::print::PrintSettings,
    /// Added to all temperatures, K.
    pub(crate) warmer: f64,
    /// Whether walls beside level faces may be left out, for many directions.
    pub(crate) roughly: bool,
}

impl<'a> Judge<'a> {
    pub(crate) fn new(
        (prepared, field): (&'a PreparedAny, &'a AnyField),
        points: &'a Points,
        run: &'a Run,
        with: &With<'a>,
    ) -> Self {
        let With { scenario, card, print, warmer, roughly } = *with;
        let surface = &field.solved.points;
        let lays = if roughly {
            surface.points.iter().map(|(_, normal)| lay_under(normal, print)).collect()
        } else if *print == prepared.print {
            Cow::Borrowed(points.lays.as_slice())
        } else {
            Cow::Owned(lays(surface, print))
        };
        Self {
            prepared,
            field,
            run,
            scenario,
            card,
            rule: mean_stress_rule(scenario, card.fatigue.walker_exponent.value),
            plane: LayerPlane::new(print.build),
            points,
            lays,
            warmer,
            all: run.states.all(),
            few: run.states.few(),
        }
    }

    /// Temperature at a point, K; of what has softened that of the moment before, as it has failed by that already.
    fn kelvin(&self, point: usize) -> f64 {
        (self.points.kelvin[point] + self.warmer).min(self.card.softening() - 0.01)
    }

    fn strength(&self, point: usize) -> LayerStrength {
        let material = self.card.at(self.kelvin(point), self.scenario.moisture);
        let bond = self.scenario.bond_at(&self.field.solved.points.points[point].0);
        LayerStrength::of(&material, self.lays[point]).bonded(bond)
    }

    /// What the duty does to a point, and the link that it is to the part.
    pub(crate) fn judged(
        &self,
        point: usize,
        angles: Angles,
        factor: f64,
        finer: Option<Use>,
    ) -> Option<(Judged<AnyPlace>, Link)> {
        let solved = &self.field.solved;
        if !solved.known(point) || self.points.held[point] {
            return None;
        }
        let place = self.points.places[point];
        let kelvin = self.kelvin(point);
        let material = self.card.at(kelvin, self.scenario.moisture);
        let strength = self.strength(point);
        let used = |stress: &Vector6<f64>| strength.use_of(&tensor(stress), &self.plane);
        let chosen = if angles == Angles::All { &self.all } else { &self.few };
        let path = Path::new(solved.at(point), &self.run.states, chosen, factor, used, finer);
        let (most, ultimate) = (path.most, strength.in_plane());
        let duty = &self.scenario.duty;
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
        let wanted = Wanted { duty, cycles: &self.run.cycles, life: self.scenario.wanted_life, rule: self.rule };
        let (worn, link) = at_point.judged(self.card, &material, &wanted);
        let mut modes: Vec<_> = worn.into_iter().flatten().collect();
        // What a pin crushes is a mode of its own, by its pressure.
        if !(self.under_pin(point) && most.pull < 0.0) {
            let margin = ten_percent_factor(material.strength_scatter) / most.utilisation.max(1e-9);
            modes.push(ModeMargin::at_once(path.at_once(), place, margin));
        }
        sort_few(&mut modes, |a, b| a.margin.total_cmp(&b.margin));
        let Path { worst, stress, .. } = path;
        Some((Judged { point, place, modes, worst, stress, layer_share: most.layer_share }, link))
    }

    /// Whether a point lies on a surface that is held.
    pub(crate) fn held(&self, point: usize) -> bool {
        self.points.held(point)
    }

    fn under_pin(&self, point: usize) -> bool {
        let (at, normal) = &self.field.solved.points.points[point];
        self.field.bores.iter().any(|bore| bore.touches(at, normal))
    }
}

impl Judging for Judge<'_> {
    type Place = AnyPlace;
    type Region = Option<usize>;

    fn solved(&self) -> &SolvedCases {
        &self.field.solved
    }

    fn states(&self) -> &States {
        &self.run.states
    }

    fn place(&self, at: &Point3<f64>) -> AnyPlace {
        let away: Vec<f64> = (0..self.prepared.found.len()).map(|place| distance(self.prepared, place, at)).collect();
        nearest(self.prepared, at, &away)
    }

    fn region(place: &AnyPlace) -> Option<usize> {
        place.region()
    }

    fn alike(a: &AnyPlace, b: &AnyPlace, spread: f64) -> bool {
        a.region() == b.region() && a.point().zip(b.point()).is_some_and(|(a, b)| (a - b).norm() < spread)
    }

    /// On what is held the force is not known.
    fn blurred(&self, at: &Point3<f64>) -> bool {
        self.prepared.given.holds.iter().any(|hold| {
            let pinned = self.prepared.pins.iter().any(|pin| pin.holds && pin.place == hold.at);
            !pinned && self.prepared.found[hold.at].patch.distance(at) < 1e-6
        })
    }

    fn used(&self, point: usize, stress: &Vector6<f64>) -> Use {
        self.strength(point).use_of(&tensor(stress), &self.plane)
    }

    fn at(&self, point: usize, angles: Angles, factor: f64, finer: Option<Use>) -> Option<Judged<AnyPlace>> {
        self.judged(point, angles, factor, finer).map(|(judged, _)| judged)
    }
}

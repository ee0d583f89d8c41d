//! A crown through one run: heat into its thickness, until it is lost.

use super::model::PistonModel;
use crate::heat::{CrownStep, Film, HeatError, Joint, SoftenedDepth, StepPace, Wall, WallLayer};
use crate::job::{PistonScenario, Scenario};
use crate::material::Card;

/// Cells through the plastic of a crown; sixty follow it within a few thousandths.
const CELLS: usize = 60;

/// Cells through a layer on it: metal is nearly even.
const LAYER_CELLS: usize = 6;

/// Steps of one run, in order: which step of the duty and for how long, s.
pub(crate) type RunRow = Vec<(usize, f64)>;

/// The crown at one time.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CrownMoment {
    /// Since the start, s.
    pub seconds: f64,
    /// Face to the gas, K.
    pub surface: f64,
    /// Face of the plastic, K.
    pub plastic_face: f64,
    /// Underside, K.
    pub underside: f64,
    /// Depth of the plastic that is soft, m.
    pub soft_depth: f64,
    /// Depth that counts, K.
    pub(crate) counting: f64,
}

impl CrownMoment {
    fn cold(start: f64) -> Self {
        Self { seconds: 0.0, surface: start, plastic_face: start, underside: start, soft_depth: 0.0, counting: start }
    }

    /// Between this moment and a later one.
    fn toward(&self, later: &Self, share: f64) -> Self {
        let between = |pick: fn(&Self) -> f64| pick(self) + share * (pick(later) - pick(self));
        Self {
            seconds: between(|m| m.seconds),
            surface: between(|m| m.surface),
            plastic_face: between(|m| m.plastic_face),
            underside: between(|m| m.underside),
            soft_depth: between(|m| m.soft_depth),
            counting: between(|m| m.counting),
        }
    }

    /// Share of the way to a later moment at which the depth that counts softens or a time is reached.
    fn share_until(&self, later: &Self, softening: f64, until: f64) -> Option<f64> {
        let cross = |from: f64, to: f64, limit: f64| {
            (to >= limit).then(|| if to > from { ((limit - from) / (to - from)).clamp(0.0, 1.0) } else { 0.0 })
        };
        let soft = cross(self.counting, later.counting, softening);
        [soft, cross(self.seconds, later.seconds, until)].into_iter().flatten().reduce(f64::min)
    }
}

/// What is followed through a run.
pub(crate) struct Course {
    pub(crate) start: f64,
    pub(crate) softening: f64,
    /// Until the end, whether something is lost or not.
    moments: Vec<CrownMoment>,
    pub(crate) soft: Option<f64>,
    pub(crate) judged: Vec<f64>,
    pub(crate) judged_at: f64,
    pub(crate) reached: f64,
    pub(crate) imbalance: f64,
}

impl Course {
    /// Whether this run loses the crown sooner than another, or where both keep it comes nearer to that.
    pub(crate) fn sooner(&self, other: &Self) -> bool {
        let soft = |course: &Self| course.soft.unwrap_or(f64::INFINITY);
        soft(self) < soft(other) || (soft(self) == soft(other) && self.reached > other.reached)
    }

    /// The plastic's own face at a time, K, linear between what was followed.
    pub(crate) fn face(&self, seconds: f64) -> f64 {
        self.at(seconds).plastic_face
    }

    /// The crown at a time, linear between what was followed.
    fn at(&self, seconds: f64) -> CrownMoment {
        let cold = CrownMoment::cold(self.start);
        let after = self.moments.partition_point(|moment| moment.seconds < seconds);
        let Some(next) = self.moments.get(after) else { return self.moments.last().copied().unwrap_or(cold) };
        let before = after.checked_sub(1).map_or(&cold, |before| &self.moments[before]);
        if next.seconds <= before.seconds {
            return *next;
        }
        before.toward(next, (seconds - before.seconds) / (next.seconds - before.seconds))
    }

    /// Judges the crown a share of the way between two states, if its face is hottest then.
    fn judge(&mut self, before: &(CrownMoment, Vec<f64>), (now, plastic): (&CrownMoment, &[f64]), share: f64) {
        let at = |old: f64, new: f64| old + share * (new - old);
        if self.judged_at > 0.0 && at(before.1[0], plastic[0]) <= self.judged[0] {
            return;
        }
        for (kept, (old, new)) in self.judged.iter_mut().zip(before.1.iter().zip(plastic)) {
            *kept = at(*old, *new);
        }
        self.judged_at = at(before.0.seconds, now.seconds);
    }

    /// Everything until a time, which is the last moment where the run goes on after it.
    pub(crate) fn until(&self, seconds: f64) -> Vec<CrownMoment> {
        let mut moments: Vec<CrownMoment> = self.moments.iter().copied().filter(|m| m.seconds < seconds).collect();
        if moments.len() < self.moments.len() {
            moments.push(self.at(seconds));
        }
        moments
    }
}

/// Steps that start fine after every change, as the duty's own length asks.
fn pace(seconds: f64) -> StepPace {
    StepPace { first: (seconds * 1e-4).min(2e-3), growth: 1.12, longest: (seconds / 60.0).max(1e-3) }
}

pub(crate) struct CrownWall {
    wall: Wall,
    /// Its layer.
    pub(crate) plastic: usize,
    back: Film,
    constant: f64,
}

impl CrownWall {
    pub(crate) fn new(
        model: &PistonModel,
        scenario: &Scenario,
        piston: &PistonScenario,
        card: &Card,
    ) -> Result<Self, HeatError> {
        let material = card.at(scenario.temperature, scenario.moisture);
        let mut layers: Vec<WallLayer> = piston
            .layers
            .iter()
            .map(|layer| WallLayer {
                thickness: layer.thickness,
                conductivity: layer.conductivity,
                volumetric_heat: layer.density * layer.specific_heat,
                cells: LAYER_CELLS,
            })
            .collect();
        let joints: Vec<Joint> =
            piston.layers.iter().map(|layer| layer.joint.map_or(Joint::Perfect, Joint::Conductance)).collect();
        let cover = layers.iter().map(|layer| layer.thickness / layer.conductivity).sum::<f64>()
            + piston.layers.iter().filter_map(|layer| layer.joint).map(|joint| 1.0 / joint).sum::<f64>();
        let plastic = WallLayer {
            thickness: model.crown_thickness,
            conductivity: material.conductivity_along(model.print.build.x),
            volumetric_heat: material.volumetric_heat(),
            cells: CELLS,
        };
        layers.push(plastic);
        let capacity: f64 = layers.iter().map(|layer| layer.thickness * layer.volumetric_heat).sum();
        let resistance = cover + plastic.thickness / plastic.conductivity;
        let back = Film { coefficient: piston.underside_film, temperature: scenario.surroundings.air };
        Ok(Self {
            wall: Wall::new(&layers, &joints)?,
            plastic: piston.layers.len(),
            back,
            constant: capacity * resistance,
        })
    }

    /// Heat capacity times resistance, s.
    pub(crate) fn time_constant(&self) -> f64 {
        self.constant
    }

    pub(crate) fn depths(&self) -> Vec<f64> {
        let Some(range) = self.wall.layer(self.plastic) else { return Vec::new() };
        let depths = &self.wall.depths()[range];
        depths.iter().map(|depth| depth - depths[0]).collect()
    }

    /// Follows a run from a start to its end; the crown is judged where its face is hottest before it is lost, or before
    /// `until`, s.
    pub(crate) fn follow(
        &self,
        films: &[Film],
        row: &RunRow,
        (start, softening): (f64, f64),
        counting: f64,
        until: f64,
    ) -> Result<Course, HeatError> {
        let Some(range) = self.wall.layer(self.plastic) else { return Err(HeatError::NoWayOut) };
        let depths = self.depths();
        let below = depths.partition_point(|&depth| depth < counting).clamp(1, depths.len() - 1);
        let share = (counting - depths[below - 1]) / (depths[below] - depths[below - 1]);
        let mut watch = SoftenedDepth::new(self.plastic, softening, &[counting])?;
        let mut run = self.wall.start(start)?;
        let mut course = Course {
            start,
            softening,
            moments: Vec::new(),
            soft: None,
            judged: vec![start; depths.len()],
            judged_at: 0.0,
            reached: start,
            imbalance: 0.0,
        };
        let mut before = (CrownMoment::cold(start), vec![start; depths.len()]);
        let mut lost = false;
        for &(step, seconds) in row {
            let step = CrownStep { seconds, gas: films[step], back: self.back };
            self.wall.run(&mut run, &step, pace(seconds), &mut watch, |now, soft_depth| {
                let plastic = &now.temperatures[range.clone()];
                let moment = CrownMoment {
                    seconds: now.seconds,
                    surface: now.temperatures[0],
                    plastic_face: plastic[0],
                    underside: plastic[plastic.len() - 1],
                    soft_depth,
                    counting: plastic[below - 1] + share * (plastic[below] - plastic[below - 1]),
                };
                course.moments.push(moment);
                course.reached = course.reached.max(moment.counting);
                if !lost {
                    let gone = before.0.share_until(&moment, softening, until);
                    lost = gone.is_some();
                    course.judge(&before, (&moment, plastic), gone.unwrap_or(1.0));
                    before.0 = moment;
                    before.1.copy_from_slice(plastic);
                }
            })?;
        }
        course.soft = watch.marks()[0].1;
        course.imbalance = run.balance.imbalance();
        Ok(course)
    }
}

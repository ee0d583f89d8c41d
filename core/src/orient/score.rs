use nalgebra::Vector3;

use super::bore::stair_step;
use super::facing::Facing;
use super::shape::{Posed, Shape};
use super::sphere::{ring, spacing};
use super::time::print_time;
use crate::numeric::map_in_order;
use crate::print::{Pace, PrintSettings};
use crate::verdict::NamedStrength;

/// What one build direction makes of a part.
#[derive(Debug, Clone, PartialEq)]
pub struct DirectionScore {
    /// Unit vector in which layers are stacked, in the frame of the part.
    pub build: Vector3<f64>,
    /// Margins by mode.
    pub strength: NamedStrength,
    /// Factor by which all stress could grow before one part in ten fails within the wanted life.
    pub margin: f64,
    /// Support, height and footing.
    pub posed: Posed,
    /// Time to print, s.
    pub print_time: f64,
    /// Angle between each bore and the build direction, rad.
    pub bore_angles: Vec<f64>,
    /// Greatest step in the wall of a bore, m.
    pub stair_step: f64,
}

/// Scores build directions of one part.
pub struct Scorer<'a> {
    /// Strength.
    pub spots: &'a dyn Facing,
    /// The surface.
    pub shape: &'a Shape,
    /// Print settings; their own build direction does not count.
    pub print: PrintSettings,
    /// Speed of printing and need of supports.
    pub pace: Pace,
    /// Plastic of the part, m³.
    pub plastic: f64,
    /// Axes of the bores, unit vectors.
    pub bores: Vec<Vector3<f64>>,
}

impl Scorer<'_> {
    /// Scores one direction.
    pub fn score(&self, build: &Vector3<f64>) -> DirectionScore {
        let posed = self.shape.posed(build, self.pace.overhang, self.print.layer_height);
        let step = |axis: &Vector3<f64>| stair_step(axis, build, self.print.layer_height);
        let strength = self.spots.along(build);
        DirectionScore {
            build: *build,
            margin: strength.margin(),
            strength,
            posed,
            print_time: print_time(self.plastic, &posed, &self.print, &self.pace),
            bore_angles: self.bores.iter().map(|axis| libm::acos(axis.dot(build).abs().min(1.0))).collect(),
            stair_step: self.bores.iter().map(step).fold(0.0, f64::max),
        }
    }

    /// Scores many directions, in their order.
    pub fn all(&self, builds: &[Vector3<f64>]) -> Vec<DirectionScore> {
        map_in_order(builds.len(), |k| self.score(&builds[k]))
    }
}

/// Directions near the one of the greatest margin, closer and closer, down to about a degree.
pub fn best_around(scorer: &Scorer<'_>, best: &DirectionScore, count: usize) -> Vec<DirectionScore> {
    const FINEST: f64 = 0.02;
    const ROUND: usize = 8;
    let mut found = Vec::new();
    let mut center = best.clone();
    let mut angle = spacing(count) / 2.0;
    while angle > FINEST {
        let around = scorer.all(&ring(&center.build, angle, ROUND));
        let better = around
            .iter()
            .max_by(|a, b| a.margin.total_cmp(&b.margin))
            .filter(|near| near.margin > center.margin)
            .cloned();
        found.extend(around);
        match better {
            Some(near) => center = near,
            None => angle /= 2.0,
        }
        if found.len() > 50 * ROUND {
            break;
        }
    }
    found
}

use crate::mesh::{Body, MassProperties, Place};

/// Bodies below this share of the largest are not looked at.
const LEAST_SHARE: f64 = 1e-3;

/// A body of the file that is not part of the part looked for.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LeftOut {
    /// Its centroid in the file.
    pub place: Place,
    /// Volume, m³.
    pub volume: f64,
}

/// Volumes of the bodies of a file; one body alone needs no comparing.
pub(super) struct Volumes {
    each: Vec<MassProperties>,
    largest: f64,
}

impl Volumes {
    pub(super) fn of(bodies: &[Body]) -> Self {
        let alone = bodies.len() == 1;
        let each: Vec<_> = bodies.iter().filter(|_| !alone).map(|body| body.mesh.mass_properties()).collect();
        let largest = each.iter().map(|mass| mass.volume).fold(0.0, f64::max);
        Self { each, largest }
    }

    /// Whether a body is large enough to be a part.
    pub(super) fn worth_a_look(&self, index: usize) -> bool {
        self.each.get(index).is_none_or(|mass| mass.volume >= LEAST_SHARE * self.largest)
    }

    /// Every body but one.
    pub(super) fn without(&self, index: usize) -> Vec<LeftOut> {
        let others = self.each.iter().enumerate().filter(|(other, _)| *other != index);
        others.map(|(_, mass)| LeftOut { place: Place::from(&mass.centroid), volume: mass.volume }).collect()
    }
}

use super::piece::Piece;
use super::place::{RodMargin, RodStrength};
use crate::numeric::sort_few_by_key;

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
    /// Every mode with its worst place; buckling is always among them.
    pub strength: RodStrength,
    /// Station results, as in [`super::model::RodModel::stations`]; only filled for the stations assessed.
    pub stations: Vec<Option<StationStress>>,
    /// Hoop stress extremes at the points round each eye, Pa.
    pub eyes: [Vec<(f64, f64)>; 2],
    /// For each mode the piece where it is worst.
    pub(crate) pieces: Vec<Piece>,
}

impl Assessment {
    /// Adds a mode that is assessed for the rod as a whole.
    pub fn add(&mut self, mode: RodMargin) {
        self.strength.modes.push(mode);
        sort_few_by_key(&mut self.strength.modes, |known| known.mode);
    }

    /// Pieces where some mode or place is worst, each once.
    pub(crate) fn governing_pieces(&self) -> Vec<Piece> {
        let mut pieces = self.pieces.clone();
        pieces.sort_unstable();
        pieces.dedup();
        pieces
    }

    /// What fails first, see [`PartStrength::governing`].
    pub fn governing(&self) -> &RodMargin {
        self.strength.governing()
    }
}

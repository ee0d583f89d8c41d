use super::mode::Mode;
use super::part_strength::PartStrength;
use super::piece::Piece;
use super::place::RodPlace;
use crate::few::sort_few_by_key;

/// The worst of one mode.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ModeMargin<P = RodPlace> {
    /// The mode.
    pub mode: Mode,
    /// Where it is worst.
    pub place: P,
    /// Factor by which all stress could grow before one part in ten fails by this mode within the wanted life.
    pub margin: f64,
    /// Running time until half the parts fail by it, s; `None` for modes that do not count time.
    pub median_life: Option<f64>,
    /// The same for nine parts in ten.
    pub life_b10: Option<f64>,
    /// Whether the life stops at the most cycles that are counted.
    pub beyond_tests: bool,
}

impl<P> ModeMargin<P> {
    /// A mode that fails at once or never.
    pub(super) fn at_once(mode: Mode, place: P, margin: f64) -> Self {
        Self { mode, place, margin, median_life: None, life_b10: None, beyond_tests: false }
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
    /// Every mode with its worst place; buckling is always among them.
    pub strength: PartStrength,
    /// Station results, as in [`super::RodModel::stations`]; only filled for the stations assessed.
    pub stations: Vec<Option<StationStress>>,
    /// Hoop stress extremes at the points round each eye, Pa.
    pub eyes: [Vec<(f64, f64)>; 2],
    /// For each mode the piece where it is worst.
    pub(super) pieces: Vec<Piece>,
}

impl Assessment {
    /// Adds a mode that is assessed for the rod as a whole.
    pub fn add(&mut self, mode: ModeMargin) {
        self.strength.modes.push(mode);
        sort_few_by_key(&mut self.strength.modes, |known| known.mode);
    }

    /// Pieces where some mode or place is worst, each once.
    pub(super) fn governing_pieces(&self) -> Vec<Piece> {
        let mut pieces = self.pieces.clone();
        pieces.sort_unstable();
        pieces.dedup();
        pieces
    }

    /// What fails first, see [`PartStrength::governing`].
    pub fn governing(&self) -> &ModeMargin {
        self.strength.governing()
    }
}

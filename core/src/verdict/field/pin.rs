use std::sync::Arc;

use nalgebra::DMatrix;

use super::bore::{BandPush, SidePush};
use super::contact::Compliance;
use super::solved::{Acting, UnitCase};
use crate::field::{BANDS, PinnedBore};
use crate::field::{FieldError, FieldModel, Footprint, Solution};

/// A bore with the cases of its pin.
#[derive(Debug, Clone)]
pub(crate) struct SolvedBore {
    pub(crate) bore: Arc<PinnedBore>,
    /// Number of the first case of a band.
    pub(crate) first: usize,
    /// Bands with a wall under them.
    pub(crate) bands: Vec<usize>,
    pub(crate) compliance: Compliance,
    /// Number of the case of the side push.
    pub(crate) side: usize,
}

impl SolvedBore {
    /// What a pin presses with a force (N) along the outward direction, negative against it, at a radial clearance (m): one
    /// pressure for each band, Pa; `None` where nothing of the bore can take the force.
    pub(crate) fn press(&self, force: f64, clearance: f64) -> Option<Vec<f64>> {
        self.compliance.press(force, clearance)
    }

    /// The same as the cosine of the angle, a pull on the far side.
    pub(crate) fn press_by_cosine(&self, force: f64) -> Vec<f64> {
        let Compliance { outward, areas, .. } = &self.compliance;
        let reach: f64 = outward.iter().zip(areas).map(|(f, area)| f * f / area).sum();
        outward.iter().zip(areas).map(|(f, area)| force * f / area / reach).collect()
    }

    /// Pressure of each band with its angle from the outward direction, degrees and Pa, in a state.
    pub(crate) fn pressures(&self, state: &[f32]) -> Vec<(f64, f64)> {
        let bands = self.bands.iter().enumerate();
        bands.map(|(k, &band)| (BANDS[band], f64::from(state[self.first + k]))).collect()
    }
}

/// The cases of a pin in its bore while they are solved: pressures of 1 Pa on every band, and a push of 1 N across.
#[derive(Debug)]
pub(crate) struct PinCases {
    bore: Arc<PinnedBore>,
    first: usize,
    bands: Vec<usize>,
    side: usize,
    /// Work of each band on what another makes, see [`Compliance`] for all three.
    work: DMatrix<f64>,
    areas: Vec<f64>,
    outward: Vec<f64>,
}

/// What a bore's wall is to the pin, from one pass over it.
#[derive(Debug, Default)]
struct PinWall {
    areas: [f64; BANDS.len()],
    outward: [f64; BANDS.len()],
    /// Integral of the square of the radial direction's y, m².
    across: f64,
}

impl PinWall {
    fn new(model: &FieldModel, bore: &PinnedBore) -> Self {
        let mut wall = Self::default();
        for (point, area) in model.surface(&bore.facets).points() {
            let (size, shares) = (area.norm(), bore.shares(point));
            // Where the pin does not touch, a band has no pressure.
            let force = if bore.touches(point, &(area / size)) { -area.dot(&bore.outward) } else { 0.0 };
            for (band, share) in shares.into_iter().enumerate() {
                wall.areas[band] += share * size;
                wall.outward[band] += share * force;
            }
            let radial = bore.radial(point).y;
            wall.across += radial * radial * size;
        }
        wall
    }
}

impl PinCases {
    /// Adds the cases of a bore to a list.
    pub(crate) fn new(model: &FieldModel, bore: PinnedBore, cases: &mut Vec<UnitCase>) -> Result<Self, FieldError> {
        let bore = Arc::new(bore);
        let first = cases.len();
        let wall = PinWall::new(model, &bore);
        let bands: Vec<usize> = (0..BANDS.len()).filter(|&band| wall.areas[band] > 0.0).collect();
        for &band in &bands {
            let acting = Acting::Surface(Arc::new(BandPush(bore.clone(), band)));
            cases.push(UnitCase { name: format!("{}, pin at {:.0}°", bore.words, BANDS[band]), acting });
        }
        if wall.across <= 0.0 {
            return Err(FieldError::NoSurface { what: "pin" });
        }
        let acting = Acting::Surface(Arc::new(SidePush(bore.clone(), 1.0 / wall.across)));
        let side = cases.len();
        cases.push(UnitCase { name: format!("{}, side push", bore.words), acting });
        let work = DMatrix::zeros(bands.len(), bands.len());
        let [areas, outward] = [&wall.areas, &wall.outward].map(|of| bands.iter().map(|&band| of[band]).collect());
        Ok(Self { bore, first, bands, side, work, areas, outward })
    }

    /// Takes what a solution of one of its cases says of how the bore gives.
    pub(crate) fn see(&mut self, number: usize, solution: &Solution, footprints: &[Footprint]) {
        let Some(column) = number.checked_sub(self.first).filter(|&k| k < self.bands.len()) else { return };
        for row in 0..self.bands.len() {
            self.work[(row, column)] = footprints[self.first + row].work(solution);
        }
    }

    /// The bore with all of its cases solved.
    pub(crate) fn solved(self) -> SolvedBore {
        let Self { bore, first, bands, side, work, areas, outward } = self;
        SolvedBore { bore, first, bands, compliance: Compliance { work, areas, outward }, side }
    }
}

use std::sync::Arc;

use crate::engine::Duty;
use crate::heat::{Harmonic, Harmonics, HeatError};
use crate::load::{Drive, LoadBasis, TERMS};
use crate::numeric::map_in_order;

/// Harmonics of a stress history that count: they hold all but a ten-thousandth of its loss.
pub(crate) const HARMONICS: usize = 36;

/// Forces at every throttle of a duty.
#[derive(Debug, Clone)]
pub struct Loading {
    /// The duty.
    pub duty: Duty,
    /// One basis for each step of the duty, by index into `bases`.
    pub basis_of_step: Vec<usize>,
    /// Bases of the distinct throttles.
    pub bases: Arc<[LoadBasis]>,
    /// Turns of the crank in one cycle.
    pub turns_per_cycle: f64,
    /// One for each basis.
    pub(crate) swings: Arc<[Swing]>,
}

impl Loading {
    /// Forces whose harmonics are worked out too; that needs a few more crank angles than twice their number.
    pub fn new(
        duty: Duty,
        basis_of_step: Vec<usize>,
        bases: Vec<LoadBasis>,
        turns_per_cycle: f64,
    ) -> Result<Self, HeatError> {
        let swings = Swing::all(&bases)?;
        Ok(Self { duty, basis_of_step, bases: bases.into(), turns_per_cycle, swings })
    }

    /// The same throttles in the same order at other speeds.
    #[must_use]
    pub(crate) fn at(&self, duty: Duty) -> Self {
        Self { duty, ..self.clone() }
    }
}

/// Harmonics of every term that section forces are made of.
pub(crate) type TermHarmonics = [Vec<Harmonic>; TERMS];

/// How the terms of a basis swing over a cycle.
#[derive(Debug)]
pub(crate) struct Swing {
    pub(crate) gas: TermHarmonics,
    /// At 1 rad/s.
    pub(crate) inertia: Arc<TermHarmonics>,
}

impl Swing {
    /// Of bases with the same crank angles; those that share what inertia does share its harmonics.
    fn all(bases: &[LoadBasis]) -> Result<Arc<[Self]>, HeatError> {
        let Some(first) = bases.first() else { return Ok(Arc::default()) };
        let table = Harmonics::new(first.angles(), HARMONICS)?;
        let of = |drive: &Drive| -> TermHarmonics {
            core::array::from_fn(|term| match &drive.rows[term] {
                still if still.iter().all(|value| *value == 0.0) => vec![Harmonic::default(); HARMONICS],
                row => table.of(row).unwrap_or_default(),
            })
        };
        let inertia = Arc::new(of(first.inertia()));
        let found = map_in_order(bases.len(), |number| {
            let basis = &bases[number];
            let shared = core::ptr::eq(basis.inertia(), first.inertia());
            let inertia = if shared { inertia.clone() } else { Arc::new(of(basis.inertia())) };
            Self { gas: of(basis.gas()), inertia }
        });
        Ok(found.into())
    }
}

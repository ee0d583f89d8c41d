use crate::engine::Duty;
use crate::load::LoadBasis;

/// Forces at every throttle of a duty.
#[derive(Debug, Clone)]
pub struct Loading {
    /// The duty.
    pub duty: Duty,
    /// One basis for each step of the duty, by index into `bases`.
    pub basis_of_step: Vec<usize>,
    /// Bases of the distinct throttles.
    pub bases: Vec<LoadBasis>,
    /// Turns of the crank in one cycle.
    pub turns_per_cycle: f64,
}

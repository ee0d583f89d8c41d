use std::ops::{Add, AddAssign, Mul, Sub, SubAssign};

/// What the operator computes with: single precision to precondition, double for the solution.
pub(super) trait Number:
    Copy
    + Default
    + PartialEq
    + Send
    + Sync
    + From<f32>
    + Add<Output = Self>
    + Sub<Output = Self>
    + Mul<Output = Self>
    + AddAssign
    + SubAssign
{
}

impl Number for f32 {}
impl Number for f64 {}

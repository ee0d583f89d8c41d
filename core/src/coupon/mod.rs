//! From broken test pieces to a material card.
//!
//! A **coupon** is a test piece of the user's own. **Run-outs** are tests that were stopped before anything broke: they
//! are right-censored, known to last at least so long. Fits give values with their **confidence**: the range that holds
//! the true value in nine of ten such test series.

mod against;
mod card;
mod error;
mod predicted;
mod row;
mod student;
mod test;

/// Straight lines through tests some of which did not fail.
#[cfg(feature = "rooms")]
pub mod regression;
#[cfg(not(feature = "rooms"))]
mod regression;

pub use card::{Fitted, fit_card};
pub use error::CouponError;
pub use row::CouponRow;
pub(crate) use student::chi_squared_probability;
#[cfg(feature = "rooms")]
pub use student::{chi_squared_quantile, student_quantile};
#[cfg(not(feature = "rooms"))]
pub(crate) use student::{chi_squared_quantile, student_quantile};
#[cfg(feature = "rooms")]
pub use test::{CouponTest, Measured, TestDirection};
#[cfg(not(feature = "rooms"))]
pub(crate) use test::{CouponTest, Measured, TestDirection};

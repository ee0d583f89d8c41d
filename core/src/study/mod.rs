//! Many cases of one question: a **plan** says which **inputs** vary and how they are **sampled**, every **case** is one
//! assessment, **effects** say which input matters.

mod effects;
mod error;
mod input;
mod plan;
mod sample;

#[cfg(feature = "rooms")]
pub use effects::first_and_total;
#[cfg(not(feature = "rooms"))]
pub(crate) use effects::first_and_total;
pub use effects::{Responses, effects};
pub use error::StudyError;
pub use input::{InputKind, InputName, InputRange, InputValue};
pub use plan::{Sampling, StudyPlan};

//! Many cases of one question: a **plan** says which **inputs** vary and how they are **sampled**, every **case** is one
//! assessment, **effects** say which input matters.

mod effects;
mod error;
mod input;
mod plan;
mod sample;

pub use effects::{Responses, effects, first_and_total};
pub use error::StudyError;
pub use input::{InputKind, InputName, InputRange, InputValue};
pub use plan::{Sampling, StudyPlan};

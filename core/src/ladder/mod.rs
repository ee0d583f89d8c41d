//! Running a part up: a ladder of short runs that starts where nearly every part lives and climbs where most is learned for each
//! part broken.
//!
//! A **level** is a share of the duty's speed and throttle; a **step** is some minutes at one level. What is **believed** is a
//! weight for each pair of factors on strength and on life. A part that runs up the ladder wears as it goes: damage of all its steps
//! adds up (Miner), and its own strength is one draw for all of them. Each step that is survived or not narrows what is believed.

mod band;
mod believed;
mod climb;
mod practice;
mod wear;

pub use band::Band;
pub use believed::Believed;
pub use climb::{Climb, FIRST, LadderStep, Rules};
pub use practice::{AfterParts, Practice, Truth, normal, seeded};
pub use wear::{Level, Taken, Wear};

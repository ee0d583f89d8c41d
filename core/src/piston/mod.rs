//! The same questions for a piston: will it hold, for how long, what gives way first.
//!
//! A [`PistonModel`] is what mesh and print fix, a [`PistonLoading`] what drives it, a [`WarmPiston`] how hot it gets in
//! one run, and [`assess_piston`] holds the stresses against the material at those temperatures.

mod assess;
mod assessed;
mod belt_run;
mod change;
mod changes;
mod crown_plate;
mod crown_run;
pub mod field;
mod kind;
mod limits;
mod loaded;
mod loading;
mod model;
mod place;
mod prepared;
pub(crate) mod report;
mod speed;
mod spots;
mod sweep;
mod trial;
mod uncertainty;
mod walls;
mod warm;
mod warmed;
mod wear;

pub use assess::{CrownEdge, PistonAssessment, PistonCase, assess_piston};
pub use crown_run::CrownMoment;
pub use limits::{Fits, growth_of};
pub use loaded::stress_field;
pub use loading::{GasFilms, PistonLoading, ThrottleLoad};
pub use model::{Land, PistonModel, PistonStation};
pub use place::{PistonPlace, PistonRegion};
pub use prepared::PreparedPiston;
pub use speed::piston_speed;
pub use uncertainty::piston_uncertainty;
pub use walls::PistonWall;
pub use warm::WarmPiston;

//! A connecting rod: from what was recognised to strength, life, speed and report.
//!
//! A [`RodModel`] is what the mesh and the print settings fix: stations, mass, eyes. A [`Stressing`] adds forces and stresses
//! at one speed, a [`WarmRod`] the temperatures; [`assess`] holds them against the material.

mod assess;
mod assessment;
mod buckling;
mod changes;
mod clamped;
mod eye_stress;
mod facet_use;
pub mod field;
mod head;
mod hot_spots;
mod hottest;
mod loading;
mod model;
mod piece;
mod place;
mod pressed;
pub(crate) mod report;
mod ring;
mod rolling;
mod setting;
mod shank;
mod speed;
mod station_force;
mod stressing;
mod stretch;
mod temperatures;
mod uncertainty;
mod walls;
mod warm;
mod warmth;
mod wear;
mod worst;

pub use assess::{assess, assess_again, assess_at};
pub use assessment::{Assessment, StationStress};
pub(crate) use changes::{AtDuty, Outcome, leaned, ranked, sensitivities};
pub use clamped::{Clamped, joint_pull};
pub use facet_use::facet_use;
pub use hot_spots::HotSpots;
pub use hottest::highest_temperature;
pub use loading::Loading;
pub use model::{EyePoint, Region, RodCuts, RodModel, Station};
pub use place::{End, RodMargin, RodPlace, RodStrength};
pub use pressed::{EyeState, Pressed};
pub use rolling::{RollingLife, rolling_life};
pub use speed::highest_speed;
pub use stressing::Stressing;
pub use stretch::stretch;
pub use temperatures::Temperatures;
pub use uncertainty::founding;
pub use walls::{RodPlaces, RodWall};
pub use warm::{WarmRod, Warmed};
pub use warmth::{Warmth, self_heating, settles_beyond, warmth};

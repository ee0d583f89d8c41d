//! A connecting rod: from what was recognised to strength, life, speed and report.
//!
//! A [`RodModel`] is what the mesh and the print settings fix: stations, mass, eyes. A [`Stressing`] adds forces and stresses
//! at one speed, a [`WarmRod`] the temperatures; [`assess`] holds them against the material.

mod assess;
mod assessed;
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
mod journal;
mod kind;
mod loaded;
mod loading;
mod model;
mod piece;
mod place;
mod prepared;
mod pressed;
mod printed;
pub(crate) mod report;
mod ring;
mod rolling;
mod setting;
mod shank;
mod speed;
mod station_force;
mod stressing;
mod stretch;
mod sweep;
mod temperatures;
mod trial;
mod uncertainty;
mod walls;
mod warm;
mod warmed;
mod warmth;
mod wear;
mod worst;

pub use assess::{assess, assess_again, assess_at};
pub use assessment::{Assessment, StationStress};
pub use clamped::{Clamped, joint_pull};
pub use facet_use::facet_use;
pub use hot_spots::HotSpots;
pub use hottest::highest_temperature;
pub use journal::Journal;
pub use loaded::stress_field;
pub use loading::Loading;
pub use model::{EyePoint, Region, RodCuts, RodModel, Station};
pub use place::{End, RodMargin, RodPlace, RodStrength};
pub use prepared::PreparedRod;
pub use pressed::{EyeState, Pressed};
pub use rolling::{RollingLife, rolling_life};
pub use speed::highest_speed;
pub use stressing::Stressing;
pub use stretch::stretch;
pub use temperatures::Temperatures;
pub use uncertainty::uncertainty;
pub use walls::{RodPlaces, RodWall};
pub use warm::{WarmRod, Warmed};
pub use warmth::{Warmth, self_heating, settles_beyond, warmth};

//! Will it hold, for how long, and what fails first.
//!
//! A [`RodModel`] is what the mesh and the print settings fix: stations, mass, eyes. An [`Assessment`] is what speed,
//! gas, material and heat make of it: a **margin** for every mode, the factor by which all stress could grow before one
//! part in ten fails within the wanted life. What fails first is the mode whose own margin is least; the margin of all
//! modes together, by which a part holds or not, may be a little lower.

mod assess;
mod buckling;
mod clamped;
mod eye_stress;
mod facet_use;
mod field;
mod founding;
mod harm;
mod head;
mod hot_spots;
mod hottest;
mod loading;
mod mode;
pub(crate) mod model;
mod part_strength;
mod piece;
pub mod piston;
mod place;
mod pressed;
mod quantile;
mod ring;
mod rolling;
mod setting;
mod shank;
mod speed;
mod spot_stress;
mod station_force;
mod stressing;
mod stretch;
mod summary;
mod temperatures;
mod warm_rod;
mod warmth;
mod wear;
mod worst;

pub use assess::{assess, assess_again, assess_at};
pub use clamped::{Clamped, joint_pull};
pub use facet_use::facet_use;
pub use field::{
    FieldCase, FieldFindings, FieldRequest, FieldSpot, Moment, OnRod, PinnedEye, Raise, RodField, RodFieldFindings,
    RodFieldSpot, USUAL_CELLS,
};
pub(crate) use field::{named, raised};
pub use founding::{Founding, Influence, founding};
pub use hot_spots::HotSpots;
pub use hottest::highest_temperature;
pub use loading::Loading;
pub use mode::Mode;
pub use model::{EyePoint, Region, RodCuts, RodModel, Station};
pub use part_strength::PartStrength;
pub use place::{End, RodPlace};
pub use pressed::{EyeState, Pressed};
pub use rolling::{RollingLife, rolling_life};
pub use speed::{SpeedLimit, highest_speed};
pub use stressing::Stressing;
pub use stretch::stretch;
pub use summary::{Assessment, ModeMargin, StationStress};
pub use temperatures::Temperatures;
pub use warm_rod::{WarmRod, Warmed};
pub use warmth::{Warmth, self_heating, settles_beyond, warmth};

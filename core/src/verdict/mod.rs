//! Will it hold, for how long, and what gives way first.
//!
//! A [`RodModel`] is what the mesh and the print settings fix: stations, mass, eyes. An [`Assessment`] is what speed,
//! gas, material and heat make of it: a **margin** for every mode, the factor by which all stress could grow before one
//! part in ten fails within the wanted life. The least margin governs.

mod assess;
mod buckling;
mod eye_stress;
mod facet_use;
mod founding;
mod hot_spots;
mod loading;
mod mode;
mod model;
mod part_strength;
mod piece;
mod place;
mod quantile;
mod ring;
mod setting;
mod shank;
mod speed;
mod spot_stress;
mod station_force;
mod stressing;
mod summary;
mod temperatures;
mod warm_rod;
mod warmth;
mod wear;
mod worst;

pub use assess::assess;
pub use facet_use::facet_use;
pub use founding::{Founding, Influence, founding};
pub use hot_spots::HotSpots;
pub use loading::Loading;
pub use mode::Mode;
pub use model::{EyePoint, Region, RodCuts, RodModel, Station};
pub use part_strength::PartStrength;
pub use place::{End, RodPlace};
pub use speed::{SpeedLimit, highest_speed};
pub use stressing::Stressing;
pub use summary::{Assessment, ModeMargin, StationStress};
pub use temperatures::Temperatures;
pub use warm_rod::{WarmRod, Warmed};
pub use warmth::{Warmth, warmth};

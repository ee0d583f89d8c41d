//! Will it hold, for how long, and what gives way first.
//!
//! A [`RodModel`] is what the mesh and the print settings fix: stations, mass, eyes. An [`Assessment`] is what speed,
//! gas, material and heat make of it: a **margin** for every mode, the factor by which all stress could grow before one
//! part in ten fails within the wanted life. The least margin governs.

mod assess;
mod founding;
mod margin;
mod mode;
mod model;
mod place;
mod speed;

pub use assess::{Assessment, Loading, ModeMargin, StationStress, assess};
pub use founding::{Founding, Influence, founding};
pub use margin::life_at;
pub use mode::Mode;
pub use model::{EyePoint, Region, RodModel, Station};
pub use place::{End, RodPlace};
pub use speed::{SpeedLimit, highest_speed};

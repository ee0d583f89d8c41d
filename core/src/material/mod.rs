//! What is known of printed plastics, by direction, temperature and moisture.
//!
//! A **card** holds the values of one family with the **source** of each. **Bead** is along the extruded strand,
//! **across** is square to it in the layer plane, **layer** is along the build direction.

mod card;
mod correlation;
mod creep_state;
mod criterion;
mod error;
mod inputs;
/// The embedded cards.
#[cfg(feature = "rooms")]
pub mod library;
#[cfg(not(feature = "rooms"))]
mod library;
mod notch;
mod plausible;
mod reading;
mod source;
mod state;
mod value;
mod weld;

pub use card::{
    Card, CardStiffness, Creep, Fatigue, FatigueTest, LossCurve, LossPoint, Moisture, Retention, RetentionPoint,
    Strength, Temperature, Thermal,
};
pub use correlation::Correlation;
#[cfg(feature = "rooms")]
pub use creep_state::{CreepState, REFERENCE_TEMPERATURE};
#[cfg(not(feature = "rooms"))]
pub(crate) use creep_state::{CreepState, REFERENCE_TEMPERATURE};
#[cfg(feature = "rooms")]
pub use criterion::{Lay, LayerPlane, LayerStrength, Tractions, Use};
#[cfg(not(feature = "rooms"))]
pub(crate) use criterion::{Lay, LayerPlane, LayerStrength, Tractions, Use};
pub use error::MaterialError;
pub use inputs::Bears;
#[cfg(feature = "rooms")]
pub use inputs::Input;
#[cfg(not(feature = "rooms"))]
pub(crate) use inputs::Input;
#[cfg(feature = "rooms")]
pub use inputs::visit_values;
#[cfg(not(feature = "rooms"))]
pub(crate) use inputs::visit_values;
pub(crate) use inputs::{HEAT_POWERS, RUPTURE_ENERGY};
pub use notch::CRITICAL_DISTANCE;
#[cfg(feature = "rooms")]
pub use plausible::UnusualValue;
#[cfg(not(feature = "rooms"))]
pub(crate) use plausible::UnusualValue;
#[cfg(feature = "rooms")]
pub use plausible::unusual_values;
#[cfg(not(feature = "rooms"))]
pub(crate) use plausible::unusual_values;
pub use source::Source;
#[cfg(feature = "rooms")]
pub use state::MaterialState;
#[cfg(not(feature = "rooms"))]
pub(crate) use state::MaterialState;
pub use state::MoistureState;
pub use value::{Behind, Value};
pub use weld::{UsualPrint, Weld};

//! What is known of printed plastics, by direction, temperature and moisture.
//!
//! A **card** holds the values of one family with the **source** of each. **Bead** is along the extruded strand,
//! **across** is square to it in the layer plane, **layer** is along the build direction.

mod card;
mod creep_state;
mod criterion;
mod error;
mod inputs;
/// The embedded cards.
pub mod library;
mod plausible;
mod reading;
mod source;
mod state;
mod value;

pub use card::{
    Card, Creep, Fatigue, FatigueTest, LossCurve, LossPoint, Moisture, Retention, RetentionPoint, Stiffness, Strength,
    Temperature, Thermal,
};
pub use creep_state::{CreepState, REFERENCE_TEMPERATURE};
pub use criterion::{Lay, LayerPlane, LayerStrength, Tractions, Use};
pub use error::MaterialError;
pub use inputs::{Bears, Input, visit_values};
pub use plausible::{UnusualValue, unusual_values};
pub use source::Source;
pub use state::{MaterialState, MoistureState};
pub use value::Value;

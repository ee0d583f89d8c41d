//! From forces to stresses at the places where a rod can fail.
//!
//! A **hot spot** is a point with a stress direction of its own: an **extreme fibre** of a shank section, the middle
//! of its depth where the shear is greatest, or a point round an eye's bore or its outer surface. Stresses are in the
//! solid bands of the print.

mod annular_plate;
mod bearing_size;
mod clamp;
mod column;
mod error;
mod eye;
mod eye_family;
mod fibre;
mod fit_limits;
mod graded_plate;
mod growth;
mod held_edge;
mod plate;
mod press_fit;

pub use annular_plate::{AnnularPlate, LandResult};
pub use bearing_size::{BearingSize, bearing_designations};
pub use clamp::Clamp;
pub use column::{Column, critical_load};
pub use error::StressError;
pub use eye::{EyeModel, Fit};
pub use eye_family::{EYE_ANGLES, EyeFactors, EyeFamily, TableLoad, Thrust, WidthFactors};
pub use fibre::{Fibre, extreme_fibres, web_shear_factor};
pub use fit_limits::{Limits, ToleranceClass, interference};
pub use graded_plate::GradedPlate;
pub use growth::Growth;
pub use held_edge::HeldEdge;
pub use plate::{PlateResult, RoundPlate};
pub use press_fit::{FitStress, PressFit, RingMaterial, grip_lasts, relaxed_pressure};

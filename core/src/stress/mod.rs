//! From forces to stresses at the places where a rod can fail.
//!
//! A **hot spot** is a point with a stress direction of its own: an **extreme fibre** of a shank section, the middle
//! of its depth where the shear is greatest, or a point round an eye's bore or its outer surface. Stresses are in the
//! solid bands of the print.

mod column;
mod eye;
mod eye_family;
mod fibre;

pub use column::{Column, critical_load};
pub use eye::{EyeModel, Fit};
pub use eye_family::{EYE_ANGLES, EyeFactors, EyeFamily, Thrust, WidthFactors};
pub use fibre::{Fibre, extreme_fibres, web_shear_factor};

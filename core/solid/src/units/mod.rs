//! Units of the edges over those inside, in one place.

mod length;

pub use length::LengthUnit;

/// Temperature of melting ice, K: kelvin over degrees Celsius.
pub const ZERO_C: f64 = 273.15;

/// Temperature of a test room, K: 23 °C (ISO 291), at which plastics are tested and diameters measured.
pub const ROOM_K: f64 = 296.15;

/// Millimetres in a metre.
pub const MM: f64 = 1e3;

/// Megapascal in a pascal.
pub const MPA: f64 = 1e-6;

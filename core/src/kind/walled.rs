use nalgebra::{Point3, Vector3};

use crate::report::AreaStepReport;
use crate::wall::Shells;

/// The place of a wall in words, from its middle, the direction across it and its thickness, m.
pub(super) type PlaceOfWall<'a> = Box<dyn Fn(&Point3<f64>, &Vector3<f64>, f64) -> String + 'a>;

/// A part as far as its walls matter.
pub struct Walled<'a> {
    /// How its shells belong together.
    pub shells: Shells,
    /// Whether every body of the file is part of it.
    pub whole_file: bool,
    /// Where its section jumps.
    pub area_steps: Vec<AreaStepReport>,
    /// What the place of a wall is called.
    pub place: PlaceOfWall<'a>,
    /// What to know of these walls, in sentences; the argument says whether stress was looked at.
    pub notes: fn(bool) -> Vec<String>,
}

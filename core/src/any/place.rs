use core::fmt;

use nalgebra::Point3;

use crate::job::PlaceName;
use crate::units::MM;

/// Where on a part of any kind: by the place of the job that is nearest.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) enum AnyPlace {
    /// The whole part.
    Whole,
    /// A point of the surface.
    At {
        /// Number of the nearest place of the job.
        region: usize,
        /// Its name.
        name: PlaceName,
        /// Distance from it, m.
        distance: f64,
        /// The point, m.
        point: Point3<f64>,
    },
}

/// Points nearer to a place than this, m, are on it.
const ON: f64 = 0.25e-3;

impl AnyPlace {
    /// Number of the place of the job that it belongs to; the whole part has none.
    pub(crate) fn region(&self) -> Option<usize> {
        match self {
            Self::Whole => None,
            Self::At { region, .. } => Some(*region),
        }
    }

    /// The point, if it is one.
    pub(crate) fn point(&self) -> Option<Point3<f64>> {
        match self {
            Self::Whole => None,
            Self::At { point, .. } => Some(*point),
        }
    }
}

impl fmt::Display for AnyPlace {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Whole => write!(out, "whole part"),
            Self::At { name, distance, .. } if *distance < ON => write!(out, "on {name}"),
            Self::At { name, distance, .. } => write!(out, "{:.1} mm from {name}", distance * MM),
        }
    }
}

use std::io;

use thiserror::Error;
use zip::result::ZipError;

/// Why nothing was painted.
#[derive(Debug, Error)]
pub enum PaintError {
    /// Nothing to paint.
    #[error("the mesh to paint is empty: it has no facets")]
    Empty,
    /// One value per facet is needed.
    #[error("{values} values were given for {facets} facets")]
    ValueCount {
        /// Values given.
        values: usize,
        /// Facets given.
        facets: usize,
    },
    /// A facet names a point that is not there.
    #[error("facet {facet} names point {point}, but there are only {points} points")]
    NoSuchPoint {
        /// Facet number, from 0.
        facet: usize,
        /// The point it names, from 0.
        point: u32,
        /// Points given.
        points: usize,
    },
    /// Two corners of a facet are the same point.
    #[error("facet {facet} uses one point twice, so it is no triangle")]
    RepeatedPoint {
        /// Facet number, from 0.
        facet: usize,
    },
    /// A coordinate is not a number or too large for single precision.
    #[error("point {point} has a coordinate that is not a usable number")]
    BadCoordinate {
        /// Point number, from 0.
        point: usize,
    },
    /// A value is not a number or too large for single precision.
    #[error("the value of facet {facet} is not a usable number")]
    BadValue {
        /// Facet number, from 0.
        facet: usize,
    },
    /// The colour scale has no usable length.
    #[error("a colour scale cannot run from {low} to {high}")]
    BadRange {
        /// Low end of the scale.
        low: f64,
        /// High end of the scale.
        high: f64,
    },
    /// The limit cannot be marked on the scale.
    #[error("the limit {limit} is not on the colour scale from {low} to {high}")]
    LimitOffScale {
        /// The limit.
        limit: f64,
        /// Low end of the scale.
        low: f64,
        /// High end of the scale.
        high: f64,
    },
    /// The name of the quantity or its unit cannot stand in a file.
    #[error("the {what} of the painted quantity is {fault}")]
    BadName {
        /// Title or unit.
        what: &'static str,
        /// What is wrong with it.
        fault: &'static str,
    },
    /// The text of a file was not accepted.
    #[error("the coloured file cannot be made: {0}")]
    Text(#[from] io::Error),
    /// The package of the 3MF file was not accepted.
    #[error("the 3MF package cannot be made: {0}")]
    Package(#[from] ZipError),
}

impl PaintError {
    /// What the user can do about it.
    pub fn help(&self) -> &'static str {
        match self {
            Self::Empty | Self::NoSuchPoint { .. } | Self::RepeatedPoint { .. } | Self::BadCoordinate { .. } => {
                "check or export the mesh again"
            }
            Self::ValueCount { .. } => "give one value per facet, and none for a facet that was not measured",
            Self::BadValue { .. } => "values must be finite; leave the value out where nothing was measured",
            Self::BadRange { .. } => "give a low end that is less than the high end, both finite and not too close",
            Self::LimitOffScale { .. } => "make the scale wide enough to hold the limit, or leave the limit out",
            Self::BadName { .. } => "give a short title and unit in plain characters",
            Self::Text(_) | Self::Package(_) => "a coarser mesh makes smaller files",
        }
    }
}

use strum::{IntoStaticStr, VariantNames};
use thiserror::Error;

use super::place::Place;
use crate::input::{FileKind, Help};

/// Why a file was not accepted as the solid of one part.
#[derive(Debug, Clone, PartialEq, Error, IntoStaticStr, VariantNames)]
#[strum(serialize_all = "kebab-case", prefix = "mesh-")]
#[non_exhaustive]
pub enum MeshError {
    /// The file holds no bytes or no facets.
    #[error("the mesh is empty: it has no facets")]
    Empty,
    /// A binary file ends before the facets it announces.
    #[error("the STL announces {announced} facets but has bytes for {present}: the file is cut short or damaged")]
    Truncated {
        /// Facets the header announces.
        announced: u64,
        /// Whole facets that follow.
        present: u64,
    },
    /// Neither binary nor ASCII STL.
    #[error("the file is not an STL: it is neither binary STL of a matching length nor ASCII STL")]
    NotStl,
    /// A file of another kind.
    #[error("the file is not an STL: it is {}", kind.words())]
    OtherKind {
        /// What it is.
        kind: FileKind,
    },
    /// An ASCII file departs from the format.
    #[error("line {line} of the ASCII STL: {reason}")]
    Syntax {
        /// Line number, from 1.
        line: usize,
        /// What was found there.
        reason: String,
    },
    /// A coordinate is not a number, is infinite, or is absurdly large.
    #[error("facet {facet} has a corner whose coordinate is not a usable number")]
    BadCoordinate {
        /// Facet number in file order, from 0.
        facet: usize,
    },
    /// A triangle in memory names a point that is not there.
    #[error("triangle {facet} has a corner numbered {point}, and there is no such point")]
    NoSuchPoint {
        /// Triangle number, from 0.
        facet: usize,
        /// Number of the point.
        point: u32,
    },
    /// More facets than the program indexes.
    #[error("{count} facets are more than this program takes ({limit})")]
    TooMany {
        /// Facets in the file.
        count: u64,
        /// The limit.
        limit: u64,
    },
    /// More separate surfaces than the program sorts into bodies.
    #[error("the mesh is {count} separate surfaces, more than this program takes ({limit})")]
    TooManyShells {
        /// Surfaces in the file.
        count: usize,
        /// The limit.
        limit: usize,
    },
    /// Shells that lie in one another in very many places.
    #[error("the mesh is several bodies that lie in one another in too many places to sort out")]
    Entangled,
    /// The surface has holes too large to cap.
    #[error("the surface is open: {edges} edges have no second facet, the first near {place}")]
    Open {
        /// Number of boundary edges.
        edges: usize,
        /// One end of the first of them.
        place: Place,
    },
    /// An edge is shared by facets in a way no solid has.
    #[error(
        "the surface is not a solid's: {edges} edges are shared by more than two facets or run twice the same way, the first near {place}"
    )]
    NonManifold {
        /// Number of such edges.
        edges: usize,
        /// One end of the first of them.
        place: Place,
    },
    /// The facets look inward.
    #[error("the mesh is inside out: its facets face inward (signed volume {volume_mm3:.1} mm³)")]
    InsideOut {
        /// Signed volume.
        volume_mm3: f64,
    },
    /// The wall of a void meets the surface round it.
    #[error("a closed void breaks through the surface of the part, near {place}")]
    VoidPierces {
        /// A point of the void's wall there.
        place: Place,
    },
    /// The solid encloses nothing.
    #[error("the mesh encloses no volume")]
    NoVolume,
}

impl MeshError {
    /// What the user can do about it.
    pub fn help(&self) -> Help {
        match self {
            Self::Empty => {
                "export the part again from the drawing program; the file should be several kilobytes".into()
            }
            Self::Truncated { .. } => "copy or export the file again".into(),
            Self::NotStl => "export the part as STL, binary or ASCII; other mesh formats are not read".into(),
            Self::OtherKind { kind } => kind.instead_of_mesh(),
            Self::Syntax { .. } => "export the part again, best as binary STL".into(),
            Self::BadCoordinate { .. } => "repair or export the mesh again; coordinates must be finite".into(),
            Self::NoSuchPoint { .. } => "points are numbered from 0, the last by one less than their count".into(),
            Self::TooMany { .. } => "export with a coarser tessellation; a chord error of 0.01 mm is plenty".into(),
            Self::Open { .. } => {
                "close the surface in the drawing program and export again; only holes of a few facets are capped"
                    .into()
            }
            Self::TooManyShells { .. } => "export one part, without loose pieces, and as one solid".into(),
            Self::NonManifold { .. } | Self::Entangled => {
                "unite the bodies in the drawing program into one solid and export again".into()
            }
            Self::VoidPierces { .. } => {
                "subtract the void from the part in the drawing program and export again as one solid".into()
            }
            Self::InsideOut { .. } => "flip the facet normals in a mesh editor and export again".into(),
            Self::NoVolume => "the file should hold the solid of one part; flat sheets cannot be checked".into(),
        }
    }
}

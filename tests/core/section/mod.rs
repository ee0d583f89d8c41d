//! Cuts of a part: areas, moments, thinnest walls, and the volumes between cuts.

mod closed_forms;
mod corners_on_planes;
mod curved;
mod ligament;
mod ligament_invariance;
mod outlines;
mod overlapping;
mod placement;
mod position;
mod principal;
pub(crate) mod reference_sections;
mod slab_motion;
mod slabs;
mod stretched;

use layload_core::mesh::Mesh;
use layload_core::section::{Section, sections};

pub(crate) use super::mesh::Tested;

/// One cut at `x`, shells taken as they are.
fn cut(mesh: &Mesh, x: f64) -> Result<Section, &'static str> {
    sections(mesh, &[x], false).pop().ok_or("no section")
}

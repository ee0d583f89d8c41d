use std::sync::Arc;

use nalgebra::Vector3;

use super::Kind;
use crate::mesh::Mended;
use crate::units::LengthUnit;

/// A part in its frame, and what was done to its mesh: read once, it answers many questions.
#[derive(Debug, Clone)]
pub struct LoadedPart {
    /// What was mended in the mesh.
    pub mended: Mended,
    /// Unit of the mesh.
    pub unit: LengthUnit,
    /// Extent of the whole file, m.
    pub size: Vector3<f64>,
    /// The part.
    pub part: Arc<dyn Kind>,
}

impl LoadedPart {
    /// The part as one kind, if that is what it is: `loaded.recognised::<Rod>()`.
    pub fn recognised<T: Kind + 'static>(&self) -> Option<Arc<T>> {
        self.part.clone().as_any().downcast().ok()
    }
}

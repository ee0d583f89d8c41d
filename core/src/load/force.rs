/// Force on the rod at a pin, in the rod's frame, N.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct PinForce {
    /// Along the rod, toward the big end.
    pub along: f64,
    /// Across the rod.
    pub across: f64,
}

impl PinForce {
    pub(super) fn plus(&self, other: &Self, weight: f64) -> Self {
        Self { along: self.along + weight * other.along, across: self.across + weight * other.across }
    }
}

/// What the material beyond a plane does to the material before it, about the section's centroid.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct SectionForce {
    /// Axial force N, tension positive, N.
    pub axial: f64,
    /// Shear force V across the rod in the plane of the engine, N.
    pub shear: f64,
    /// Bending moment about the pin-parallel axis, N m; the stress it makes is `-moment y / I`.
    pub bending: f64,
    /// Bending moment about the `y` axis, out of the plane of the engine, N m; the stress it makes is `moment z / I`.
    pub side_bending: f64,
}

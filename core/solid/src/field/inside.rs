use nalgebra::Vector3;

/// A part that is solid near its surface and lighter inside.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LighterInside {
    /// Unit vector along which the solid material under a surface is [`Self::end_depth`] deep.
    pub axis: Vector3<f64>,
    /// Depth of solid material under a surface along the axis, m.
    pub side_depth: f64,
    /// Depth of solid material under a surface square to the axis, m.
    pub end_depth: f64,
    /// Density of the inside over that of the solid, 0 to 1.
    pub density: f64,
    /// Stiffness of the inside over that of the solid, 0 to 1.
    pub stiffness: f64,
}

impl LighterInside {
    /// Depth of solid material under a surface with the given unit normal, measured along that normal, m.
    ///
    /// Under a surface that leans, both depths shrink with the cosine of the lean, and the deeper one counts.
    pub fn solid_depth(&self, normal: &Vector3<f64>) -> f64 {
        let up = normal.dot(&self.axis).abs().min(1.0);
        let side = self.side_depth * (1.0 - up * up).sqrt();
        let end = self.end_depth * up;
        side.max(end)
    }
}

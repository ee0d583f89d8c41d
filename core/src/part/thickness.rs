use super::rod::Rod;

/// Thickness of a rod along its pins, part by part, as factors on that of its mesh.
///
/// The profile of the rod stays; every cut grows or shrinks along the pins, bores and their seats with it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ThicknessFactors {
    /// Of the small end, up to the edge of its bore.
    pub small_end: f64,
    /// Of the shank.
    pub shank: f64,
    /// Of the big end, from the edge of its bore on.
    pub big_end: f64,
}

impl Default for ThicknessFactors {
    fn default() -> Self {
        Self::even(1.0)
    }
}

impl ThicknessFactors {
    /// One factor for the whole rod.
    pub fn even(factor: f64) -> Self {
        Self { small_end: factor, shank: factor, big_end: factor }
    }

    /// The factor at a distance from the small-end centre, m.
    pub fn at(&self, position: f64, rod: &Rod) -> f64 {
        if position <= rod.small_end.radius() {
            self.small_end
        } else if position < rod.center_distance - rod.big_end.radius() {
            self.shank
        } else {
            self.big_end
        }
    }
}

use std::sync::Arc;

use nalgebra::Point3;

/// Kelvin above a reference over a part: by place along x, and round the x axis by another table where there is a rim.
#[derive(Debug, Clone)]
pub(crate) struct Warmth {
    along: Arc<[(f64, f64)]>,
    rim: Option<Rim>,
}

#[derive(Debug, Clone)]
struct Rim {
    along: Arc<[(f64, f64)]>,
    /// From the first to the second radius, m, the one turns into the other.
    radii: [f64; 2],
}

impl Warmth {
    /// From places along x in rising order, m, and the kelvin there.
    pub(crate) fn along(table: Vec<(f64, f64)>) -> Self {
        Self { along: table.into(), rim: None }
    }

    /// The same with another table of what lies beyond a radius from the x axis, m; between the two radii both count.
    pub(crate) fn with_rim(self, table: Vec<(f64, f64)>, radii: [f64; 2]) -> Self {
        Self { rim: Some(Rim { along: table.into(), radii }), ..self }
    }

    /// At a point.
    pub(crate) fn at(&self, point: &Point3<f64>) -> f64 {
        let inside = between(&self.along, point.x);
        let Some(Rim { along, radii: [from, to] }) = &self.rim else { return inside };
        let radius = libm::hypot(point.y, point.z);
        let share = if to > from { ((radius - from) / (to - from)).clamp(0.0, 1.0) } else { f64::from(radius > *to) };
        inside + share * (between(along, point.x) - inside)
    }
}

/// Of a rising table the value at a place, linear between.
fn between(table: &[(f64, f64)], at: f64) -> f64 {
    if table.len() < 2 {
        return 0.0;
    }
    let above = table.partition_point(|&(x, _)| x <= at).clamp(1, table.len() - 1);
    let ((from, low), (to, high)) = (table[above - 1], table[above]);
    low + ((at - from) / (to - from)).clamp(0.0, 1.0) * (high - low)
}

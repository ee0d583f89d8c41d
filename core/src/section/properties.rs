use nalgebra::Vector2;

/// A closed polygon in the `(y, z)` plane, material on its left; the last point joins the first.
pub type Loop = Vec<Vector2<f64>>;

/// Area integrals of a plane region.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct AreaProperties {
    /// Area, m².
    pub area: f64,
    /// Centroid, m.
    pub centroid: Vector2<f64>,
    /// Integral of `(z - z_c)²`, m⁴: bending about the `y` axis.
    pub second_moment_y: f64,
    /// Integral of `(y - y_c)²`, m⁴: bending about the `z` axis.
    pub second_moment_z: f64,
    /// Integral of `(y - y_c) (z - z_c)`, m⁴.
    pub product_moment: f64,
}

impl AreaProperties {
    /// Integrates over the region bounded by `loops` with Green's theorem; holes run clockwise and subtract.
    pub fn of(loops: &[Loop]) -> Self {
        let Some(&origin) = loops.iter().flatten().next() else { return Self::default() };
        let (mut area, mut first) = (0.0, Vector2::zeros());
        let (mut yy, mut zz, mut yz) = (0.0, 0.0, 0.0);
        for ring in loops {
            for (k, point) in ring.iter().enumerate() {
                // Relative to a point of the region, so that far-away parts lose no digits.
                let a = point - origin;
                let b = ring[(k + 1) % ring.len()] - origin;
                let cross = a.perp(&b);
                area += cross;
                first += (a + b) * cross;
                yy += (a.x * a.x + a.x * b.x + b.x * b.x) * cross;
                zz += (a.y * a.y + a.y * b.y + b.y * b.y) * cross;
                yz += (2.0 * a.x * a.y + a.x * b.y + b.x * a.y + 2.0 * b.x * b.y) * cross;
            }
        }
        area /= 2.0;
        if area == 0.0 {
            return Self::default();
        }
        let offset = first / (6.0 * area);
        Self {
            area,
            centroid: origin + offset,
            second_moment_y: zz / 12.0 - area * offset.y * offset.y,
            second_moment_z: yy / 12.0 - area * offset.x * offset.x,
            product_moment: yz / 24.0 - area * offset.x * offset.y,
        }
    }

    /// Two regions together, with the second weighted by `weight` (negative to take it away).
    #[must_use]
    pub fn with(&self, other: &Self, weight: f64) -> Self {
        let added = other.area * weight;
        let area = self.area + added;
        if area == 0.0 {
            return Self::default();
        }
        let centroid = (self.centroid * self.area + other.centroid * added) / area;
        let (here, there) = (self.centroid - centroid, other.centroid - centroid);
        Self {
            area,
            centroid,
            second_moment_y: self.second_moment_y
                + self.area * here.y * here.y
                + weight * other.second_moment_y
                + added * there.y * there.y,
            second_moment_z: self.second_moment_z
                + self.area * here.x * here.x
                + weight * other.second_moment_z
                + added * there.x * there.x,
            product_moment: self.product_moment
                + self.area * here.x * here.y
                + weight * other.product_moment
                + added * there.x * there.y,
        }
    }

    /// Least and greatest principal second moment, m⁴.
    pub fn principal(&self) -> (f64, f64) {
        let mean = f64::midpoint(self.second_moment_y, self.second_moment_z);
        let half = (self.second_moment_y - self.second_moment_z) / 2.0;
        let reach = libm::hypot(half, self.product_moment);
        (mean - reach, mean + reach)
    }
}

use nalgebra::Point3;

/// Integrals over a volume that the motion of a rod in its plane needs, about the origin of its frame.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct VolumeMoments {
    /// Volume, m³.
    pub volume: f64,
    /// Integrals of x, y and z, m⁴.
    pub first: [f64; 3],
    /// Integral of x² + y², m⁵: rotation about the pin axis.
    pub polar: f64,
    /// Integral of x z, m⁵.
    pub xz: f64,
    /// Integral of y z, m⁵.
    pub yz: f64,
}

impl VolumeMoments {
    /// Sum of two volumes, the second weighted.
    #[must_use]
    pub fn plus(&self, other: &Self, weight: f64) -> Self {
        Self {
            volume: self.volume + weight * other.volume,
            first: [0, 1, 2].map(|k| self.first[k] + weight * other.first[k]),
            polar: self.polar + weight * other.polar,
            xz: self.xz + weight * other.xz,
            yz: self.yz + weight * other.yz,
        }
    }

    /// The same volume stretched along `z`.
    #[must_use]
    pub fn stretched(&self, factor: f64) -> Self {
        let [x, y, z] = self.first;
        Self {
            volume: self.volume * factor,
            first: [x * factor, y * factor, z * factor * factor],
            polar: self.polar * factor,
            xz: self.xz * factor * factor,
            yz: self.yz * factor * factor,
        }
    }

    /// Contribution of one surface triangle by the divergence theorem with fields along `y`.
    ///
    /// Such fields do not cross planes of constant `x`, so the pieces of a surface between two planes give the integrals
    /// of the slab between them without its cut faces. Strang and Fix's four-point rule is exact for the cubics here.
    pub(super) fn add_triangle(&mut self, [a, b, c]: [Point3<f64>; 3]) {
        let (ab, ac) = (b - a, c - a);
        // y component of the area vector.
        let area_y = (ab.z * ac.x - ab.x * ac.z) / 2.0;
        if area_y == 0.0 {
            return;
        }
        let sum = a.coords + b.coords + c.coords;
        let nodes = [
            (sum / 3.0, -27.0 / 48.0),
            (sum * 0.2 + a.coords * 0.4, 25.0 / 48.0),
            (sum * 0.2 + b.coords * 0.4, 25.0 / 48.0),
            (sum * 0.2 + c.coords * 0.4, 25.0 / 48.0),
        ];
        for (p, weight) in nodes {
            let (x, y, z) = (p.x, p.y, p.z);
            let share = weight * area_y * y;
            self.volume += share;
            self.first[0] += share * x;
            self.first[1] += share * y / 2.0;
            self.first[2] += share * z;
            self.polar += share * (x * x + y * y / 3.0);
            self.xz += share * x * z;
            self.yz += share * y * z / 2.0;
        }
    }
}

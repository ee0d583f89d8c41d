use nalgebra::{Point3, Vector3};

use super::surface::Surface;

/// Two sides face each other when they close in on each other by less than this angle: between them the material runs
/// back from where they would meet at least twice as far as it is thick, 2 atan(1/4), 28.07 degrees. Regular parts have no
/// such angle, so that rounding does not decide.
///
/// Cosine of what is left to a straight line: of the angle between the two radii of a sphere that touches both.
pub(super) const FACING: f64 = -15.0 / 17.0;

/// Distances to the sides of an edge may differ by this share from those between two planes: they may be curved.
const CURVED: f64 = 0.2;

/// A sphere in the material that touches two sides.
#[derive(Debug, Clone, Copy)]
pub(super) struct Touching {
    pub(super) center: Point3<f64>,
    pub(super) radius: f64,
    /// Unit vectors from the center to the touched places.
    pub(super) to: [Vector3<f64>; 2],
}

impl Touching {
    /// Whether the sphere is small only because it sits in an edge, where the two sides it touches meet: they do not face
    /// each other, and half as far from where they would meet, or twice as far, a sphere between them is half or twice as
    /// large. A thin wall stays thin instead, and round a hole or over a groove the sides bend away.
    ///
    /// The angle between the radii and how the radius changes along the sheet of centers are the measures by which branches
    /// of the medial axis that run into convex edges are told from those between walls (object angle: Amenta, Choi & Kolluri
    /// 2001, "The power crust"; angle and ratio condition: Dey & Zhao 2004, "Approximating the medial axis from the Voronoi
    /// diagram with a convergence guarantee"; both from memory. Separation angle: Foskey, Lin & Manocha 2003, "Efficient
    /// computation of a simplified medial axis").
    pub(super) fn in_edge(&self, surface: &Surface<'_>) -> bool {
        let between = self.to[0].dot(&self.to[1]);
        if between <= FACING {
            return false;
        }
        // From the center to where the two tangent planes meet.
        let to_edge = (self.to[0] + self.to[1]) * (self.radius / (1.0 + between));
        [0.5, 2.0].iter().any(|share| {
            let (center, radius) = (self.center + to_edge * (1.0 - share), self.radius * share);
            self.to.iter().all(|way| {
                let exit = surface.exit(&center, way, None, radius * (1.0 + CURVED));
                exit.is_some_and(|(_, distance)| distance >= radius * (1.0 - CURVED))
            })
        })
    }
}

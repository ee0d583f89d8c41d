use i_overlay::core::fill_rule::FillRule;
use i_overlay::core::solver::{Precision, Solver};
use i_overlay::float::overlay::OverlayOptions;
use i_overlay::float::simplify::SimplifyShape;
use nalgebra::Vector2;

use super::properties::Loop;

/// Union of loops that overlap, by winding number.
///
/// On a grid much finer than the rounding of the points: on a coarse one, edges that nearly coincide (faces in one
/// plane, turned) are split into ever more pieces. So are the sides of a flat outline, whichever way it is turned; it is
/// therefore drawn out to be as wide as long, united and pressed flat again. One too flat for that stays as it is.
pub(super) fn united(loops: &[Loop]) -> Vec<Loop> {
    match Spread::of(loops) {
        Spread::Even => union(loops, |p| [p.x, p.y], |[y, z]| Vector2::new(y, z)),
        Spread::Flat(drawn) => union(loops, |p| drawn.out(p), |q| drawn.back(q)),
        Spread::Line => loops.to_vec(),
    }
}

fn union(
    loops: &[Loop],
    out: impl Fn(&Vector2<f64>) -> [f64; 2],
    back: impl Fn([f64; 2]) -> Vector2<f64>,
) -> Vec<Loop> {
    let paths: Vec<Vec<[f64; 2]>> = loops.iter().map(|ring| ring.iter().map(&out).collect()).collect();
    paths
        .simplify_shape_custom_as::<i64>(FillRule::Positive, OverlayOptions::default(), ending())
        .into_iter()
        .flatten()
        .map(|ring| ring.into_iter().map(&back).collect())
        .collect()
}

/// How the corners of an outline are spread.
enum Spread {
    /// About as wide as long: left alone, so that sides along one line stay on it.
    Even,
    Flat(Drawn),
    /// No wider than what its length is rounded by.
    Line,
}

/// Length over width, both squared, from which an outline is drawn out.
const FLAT: f64 = 64.0;
/// From which its width is lost in the rounding of the product that tells it.
const LINE: f64 = 1e14;

impl Spread {
    fn of(loops: &[Loop]) -> Self {
        let corners = || loops.iter().flatten();
        let count = corners().count() as f64;
        let middle = corners().fold(Vector2::zeros(), |sum, p| sum + p) / count;
        let (mut yy, mut yz, mut zz) = (0.0, 0.0, 0.0);
        for p in corners() {
            let from = p - middle;
            yy += from.x * from.x / count;
            yz += from.x * from.y / count;
            zz += from.y * from.y / count;
        }
        // Greater and smaller eigenvalue of the corners' second moments; the smaller by their product, as a difference of
        // sums would lose that of a flat outline.
        let greater = 0.5 * (yy + zz) + libm::hypot(0.5 * (yy - zz), yz);
        let product = yy * zz - yz * yz;
        let smaller = product / greater;
        if smaller * FLAT > greater {
            Self::Even
        } else if smaller * LINE > greater {
            let y = yy.sqrt();
            Self::Flat(Drawn { middle, y, shear: yz / y, z: (product / yy).sqrt() })
        } else {
            // Also where there is no corner, and nothing is a number.
            Self::Line
        }
    }
}

/// The linear map, by Cholesky's factor of the corners' second moments, that spreads them evenly.
struct Drawn {
    middle: Vector2<f64>,
    y: f64,
    shear: f64,
    z: f64,
}

impl Drawn {
    fn out(&self, p: &Vector2<f64>) -> [f64; 2] {
        let from = p - self.middle;
        let y = from.x / self.y;
        [y, (from.y - self.shear * y) / self.z]
    }

    fn back(&self, [y, z]: [f64; 2]) -> Vector2<f64> {
        self.middle + Vector2::new(self.y * y, self.shear * y + self.z * z)
    }
}

/// How crossings of outlines are looked for on the grid: those near an end of an edge are that end. Near is, at first, 2³²
/// steps of the grid, some billionths of the outline's size and a tenth of what single precision rounds a file's corners to;
/// it grows sixteenfold each time that rounding made new crossings. From a single step, and as slowly as the library does it
/// by itself, a few hundred edges that nearly coincide take hours.
pub(crate) fn ending() -> Solver {
    Solver { precision: Precision { start: 64, progression: 8 }, ..Solver::AUTO }
}

use nalgebra::Vector3;

use super::clip::Polygon;

/// Integrals over part of a cell of `x^a y^b z^c`, exponents 0 to 2, in coordinates from -1 to 1 across the cell.
///
/// Number `a + 3 b + 9 c`. Only those that the stiffness of a trilinear element needs are kept, see [`WANTED`].
pub(super) type Moments = [f64; 27];

/// Exponents that occur in products of two derivatives of trilinear functions, with their numbers.
pub(super) const WANTED: [(usize, [usize; 3]); 23] = wanted();

const fn wanted() -> [(usize, [usize; 3]); 23] {
    let mut list = [(0, [0; 3]); 23];
    let (mut count, mut number) = (0, 0);
    while number < 27 {
        let at = [number % 3, number / 3 % 3, number / 9];
        let squares = (at[0] == 2) as usize + (at[1] == 2) as usize + (at[2] == 2) as usize;
        let zeros = (at[0] == 0) as usize + (at[1] == 0) as usize + (at[2] == 0) as usize;
        if squares < 2 || (squares == 2 && zeros == 1) {
            list[count] = (number, at);
            count += 1;
        }
        number += 1;
    }
    list
}

/// Moments of a whole cell.
pub(super) const WHOLE: Moments = whole();

const fn whole() -> Moments {
    // The integral of 1, t and t² from -1 to 1.
    let one = [2.0, 0.0, 2.0 / 3.0];
    let mut moments = [0.0; 27];
    let mut number = 0;
    while number < 27 {
        moments[number] = one[number % 3] * one[number / 3 % 3] * one[number / 9];
        number += 1;
    }
    moments
}

/// Points and weights of a rule on a triangle that is exact to degree 5 (Radon 1948), weights summing to 1.
pub(super) const TRIANGLE: [([f64; 3], f64); 7] = {
    const ROOT: f64 = 3.872_983_346_207_417;
    const A: f64 = (6.0 - ROOT) / 21.0;
    const B: f64 = (6.0 + ROOT) / 21.0;
    const U: f64 = (155.0 - ROOT) / 1200.0;
    const V: f64 = (155.0 + ROOT) / 1200.0;
    [
        ([1.0 / 3.0, 1.0 / 3.0, 1.0 / 3.0], 9.0 / 40.0),
        ([1.0 - 2.0 * A, A, A], U),
        ([A, 1.0 - 2.0 * A, A], U),
        ([A, A, 1.0 - 2.0 * A], U),
        ([1.0 - 2.0 * B, B, B], V),
        ([B, 1.0 - 2.0 * B, B], V),
        ([B, B, 1.0 - 2.0 * B], V),
    ]
};

/// Calls `at` for points of a polygon with the vector area each stands for, exact to degree 5.
pub(super) fn over_polygon(polygon: &Polygon, mut at: impl FnMut(Vector3<f64>, Vector3<f64>)) {
    for k in 1..polygon.len().saturating_sub(1) {
        let [a, b, c] = [polygon[0], polygon[k], polygon[k + 1]];
        let area = (b - a).cross(&(c - a)) / 2.0;
        for ([u, v, w], weight) in TRIANGLE {
            at(a * u + b * v + c * w, area * weight);
        }
    }
}

/// What a piece of surface adds: to the moments of its own cell, and per unit of length to every cell beyond it in `x`.
#[derive(Debug, Clone, Copy)]
pub(super) struct Swept {
    /// The material between the piece and the far face of its cell.
    pub(super) here: Moments,
    /// Integrals of `y^b z^c` over the piece seen along `x`, number `b + 3 c`.
    pub(super) beyond: [f64; 9],
}

impl Swept {
    pub(super) const NONE: Self = Self { here: [0.0; 27], beyond: [0.0; 9] };

    /// Adds the sweep in `+x` of a piece that lies within the cell at `cell`; outward along `+x` counts as negative.
    ///
    /// Summed over all pieces of a closed surface this is the integral over the solid (divergence theorem), whatever the
    /// pieces look like; no point is ever tested for being inside.
    pub(super) fn add(&mut self, piece: &Polygon, cell: [usize; 3]) {
        let middle = Vector3::new(cell[0] as f64 + 0.5, cell[1] as f64 + 0.5, cell[2] as f64 + 0.5);
        over_polygon(piece, |point, area| {
            // Twice, as the coordinates run from -1 to 1; an area has the factor squared.
            let local = (point - middle) * 2.0;
            let weight = -area.x * 4.0;
            let x = local.x;
            let along = [1.0 - x, (1.0 - x * x) / 2.0, (1.0 - x * x * x) / 3.0].map(|length| length * weight);
            let (y, z) = ([1.0, local.y, local.y * local.y], [1.0, local.z, local.z * local.z]);
            for (number, [a, b, c]) in WANTED {
                self.here[number] += along[a] * (y[b] * z[c]);
            }
            for (number, sum) in self.beyond.iter_mut().enumerate() {
                *sum += weight * y[number % 3] * z[number / 3];
            }
        });
    }
}

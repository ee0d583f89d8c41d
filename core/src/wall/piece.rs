use nalgebra::{Point3, Vector3};

use super::surface::Facet;
use crate::numeric::sort_few;

/// A small part of a facet with the point that stands for it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct WallPiece {
    pub(super) facet: usize,
    pub(super) point: Point3<f64>,
    /// m².
    pub(super) area: f64,
    /// No point of the piece lies farther from its point than this, m.
    pub(super) reach: f64,
}

/// A facet this many times as long as it is high is cut along its length; others into equal triangles.
const ELONGATED: f64 = 4.0;

/// Pieces of a narrow facet have at least this share of the area of a square of the spacing: facets beside it have points
/// of their own, so that each need not be as dense along as the surface is as a whole.
const LEAST_SHARE: f64 = 0.25;

/// How many pieces a facet is cut into.
pub(super) fn count(facet: &Facet, spacing: f64) -> f64 {
    let parts = parts(facet, spacing);
    match Strips::of(facet, parts, spacing) {
        Some(strips) => strips.count() * strips.rows(strips.widest),
        None => f64::from(parts * parts),
    }
}

/// Adds the pieces of a facet, each shorter than `spacing` unless the facet is narrow. Their points do not depend on
/// which corner comes first.
pub(super) fn cut(number: usize, facet: &Facet, spacing: f64, pieces: &mut Vec<WallPiece>) {
    let parts = parts(facet, spacing);
    if let Some(strips) = Strips::of(facet, parts, spacing) {
        strips.cut(number, pieces);
    } else {
        let share = 1.0 / f64::from(parts);
        let (area, reach) = (facet.area * share * share, reach(facet) * share);
        pieces.extend(triangles(facet, parts).map(|point| WallPiece { facet: number, point, area, reach }));
    }
}

/// Distance from the centroid to the farthest corner.
fn reach(facet: &Facet) -> f64 {
    let middle = facet.centroid();
    facet.corners.iter().map(|corner| (corner - middle).norm()).fold(0.0, f64::max)
}

/// Pieces along each side of a facet.
fn parts(facet: &Facet, spacing: f64) -> u32 {
    /// A facet is divided into at most this many pieces along each side.
    const MOST: f64 = 64.0;
    // A little less than the quotient, so that rounding does not decide on regular meshes.
    (longest(facet).norm() / spacing - 1e-6).ceil().clamp(1.0, MOST) as u32
}

fn longest(facet: &Facet) -> Vector3<f64> {
    let [a, b, c] = facet.corners;
    let longer = |p: Vector3<f64>, q: Vector3<f64>| if q.norm_squared() > p.norm_squared() { q } else { p };
    longer(longer(b - a, c - b), a - c)
}

/// The centroids of `parts`² equal triangles that make up a facet.
fn triangles(facet: &Facet, parts: u32) -> impl Iterator<Item = Point3<f64>> {
    let [a, b, c] = facet.corners;
    let at = move |i: f64, j: f64| a + (b - a) * (i / f64::from(parts)) + (c - a) * (j / f64::from(parts));
    (0..parts).flat_map(move |i| (0..parts - i).map(move |j| (f64::from(i), f64::from(j)))).flat_map(move |(i, j)| {
        let upright = Some(at(i + 1.0 / 3.0, j + 1.0 / 3.0));
        let turned = (i + j + 1.0 < f64::from(parts)).then(|| at(i + 2.0 / 3.0, j + 2.0 / 3.0));
        upright.into_iter().chain(turned)
    })
}

/// A long facet, to be cut square to its length.
struct Strips {
    /// Corners in the order in which they lie along the length.
    corners: [Point3<f64>; 3],
    /// How far along each corner lies, m.
    at: [f64; 3],
    /// Of the cut through the middle corner, m.
    widest: f64,
    spacing: f64,
}

impl Strips {
    /// `None` for a facet that is not long or is to stay whole.
    fn of(facet: &Facet, parts: u32, spacing: f64) -> Option<Self> {
        let side = longest(facet);
        if parts == 1 || side.norm_squared() < ELONGATED * 2.0 * facet.area {
            return None;
        }
        let along = length_axis(facet, side)?;
        let mut corners = facet.corners.map(|corner| (along.dot(&corner.coords), corner));
        sort_few(&mut corners, |a, b| a.0.total_cmp(&b.0));
        let at = corners.map(|(at, _)| at);
        let length = at[2] - at[0];
        (length > 0.0).then(|| Self {
            corners: corners.map(|(_, corner)| corner),
            at,
            widest: 2.0 * facet.area / length,
            spacing,
        })
    }

    fn length(&self) -> f64 {
        self.at[2] - self.at[0]
    }

    /// Strips along the length: as many as the area asks for, no shorter than the spacing.
    fn count(&self) -> f64 {
        let by_area = self.widest * self.length() / (2.0 * LEAST_SHARE * self.spacing * self.spacing);
        (by_area - 1e-6).ceil().min(self.dense()).max(1.0)
    }

    fn dense(&self) -> f64 {
        (self.length() / self.spacing - 1e-6).ceil()
    }

    /// Pieces across a strip so wide.
    fn rows(&self, width: f64) -> f64 {
        (width / self.spacing - 1e-6).ceil().max(1.0)
    }

    /// Area up to a place along the length.
    fn area_to(&self, at: f64) -> f64 {
        let [start, middle, end] = self.at;
        let (from, to) = ((at - start).max(0.0), (end - at).max(0.0));
        if at < middle {
            self.widest * from * from / (2.0 * (middle - start))
        } else if to > 0.0 {
            self.widest * (self.length() - to * to / (end - middle)) / 2.0
        } else {
            self.widest * self.length() / 2.0
        }
    }

    /// Ends of the cut at a place along the length: one on the long side, one on the two others.
    fn across(&self, at: f64) -> [Point3<f64>; 2] {
        let between = |k: usize, l: usize| {
            let length = self.at[l] - self.at[k];
            let share = if length > 0.0 { (at - self.at[k]) / length } else { 0.5 };
            self.corners[k] + (self.corners[l] - self.corners[k]) * share
        };
        [between(0, 2), if at < self.at[1] { between(0, 1) } else { between(1, 2) }]
    }

    fn cut(&self, number: usize, pieces: &mut Vec<WallPiece>) {
        let count = self.count();
        let step = self.length() / count;
        // Beside one another narrow facets have their points at different places: multiples of the golden section.
        let golden = (0.5 + 0.618_033_988_749_895 * number as f64).fract();
        let place = if count < self.dense() { golden } else { 0.5 };
        let mut start = self.at[0];
        for k in 1..=count as u32 {
            let end = self.at[0] + step * f64::from(k);
            let [one, other] = self.across(start + (end - start) * place);
            let rows = self.rows((other - one).norm());
            let area = (self.area_to(end) - self.area_to(start)) / rows;
            let reach = libm::hypot(step * place.max(1.0 - place), self.widest / rows);
            for row in 0..rows as u32 {
                let point = one + (other - one) * ((f64::from(row) + 0.5) / rows);
                pieces.push(WallPiece { facet: number, point, area, reach });
            }
            start = end;
        }
    }
}

/// The axis along which a facet is longest, whichever of its sides the search begins with.
fn length_axis(facet: &Facet, side: Vector3<f64>) -> Option<Vector3<f64>> {
    let middle = facet.centroid();
    let arms = facet.corners.map(|corner| corner - middle);
    let mut axis = side.try_normalize(0.0)?;
    // On a facet four times as long as high the rest of the way shrinks a hundred times at each step.
    for _ in 0..6 {
        let next: Vector3<f64> = arms.iter().map(|arm| arm * arm.dot(&axis)).sum();
        axis = next.try_normalize(0.0)?;
    }
    Some(axis)
}

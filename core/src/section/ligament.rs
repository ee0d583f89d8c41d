use nalgebra::Vector2;

use super::outline::without_straight_corners;
use super::properties::Loop;

/// The thinnest place of a section.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Ligament {
    /// Material between two facing walls, m.
    pub thickness: f64,
    /// Middle of it in the plane, m.
    pub center: Vector2<f64>,
    /// Unit vector across it.
    pub across: Vector2<f64>,
}

/// Walls face each other when their normals are within 45 degrees of opposite; corners do not count as thin.
const FACING: f64 = -core::f64::consts::FRAC_1_SQRT_2;

/// Share of a side by which a look from its end is taken inward, so that it does not start on the corner itself.
const OFF_CORNER: f64 = 1e-4;

/// Distances that differ by less than this share are the same: rounding.
const SAME: f64 = 1e-9;

/// Sides in one box; a box too far away is passed over whole.
const BOXED: usize = 16;

/// Least distance through the material from wall to facing wall.
///
/// The least distance between two outlines lies at a corner of one of them. From the middle and both ends of every side
/// it is measured square to the side; from every hollow corner, where an outline juts into the material, to the nearest
/// point opposite. Of equal distances the one first met counts, so an even wall is named at its middle.
pub fn narrowest(loops: &[Loop]) -> Option<Ligament> {
    let outline = Outline::of(loops);
    let mut best: Option<Ligament> = None;
    let limit = |best: &Option<Ligament>| best.map_or(f64::INFINITY, |b| b.thickness * (1.0 - SAME));
    for share in [0.5, OFF_CORNER, 1.0 - OFF_CORNER] {
        for side in &outline.sides {
            let start = side.from + (side.to - side.from) * share;
            if let Some((thickness, wall)) = outline.first_wall(start, side.inward, limit(&best))
                && wall.dot(&side.inward) < FACING
            {
                let center = start + side.inward * (thickness / 2.0);
                best = Some(Ligament { thickness, center, across: side.inward });
            }
        }
    }
    for (index, corner) in outline.corners.iter().enumerate() {
        if let Some(opposite) = outline.opposite(index, limit(&best)) {
            let apart = opposite - corner.point;
            let thickness = apart.norm();
            best = Some(Ligament { thickness, center: corner.point + apart / 2.0, across: apart / thickness });
        }
    }
    best
}

/// Loops taken apart into sides and hollow corners, with boxes over runs of sides.
struct Outline {
    sides: Vec<WallSide>,
    boxes: Vec<Extent>,
    /// Hollow corners only.
    corners: Vec<Corner>,
}

struct WallSide {
    from: Vector2<f64>,
    to: Vector2<f64>,
    /// Unit vector into the material.
    inward: Vector2<f64>,
    /// Whether the corners at its ends are hollow, as numbers in [`Outline::corners`].
    hollow: [Option<usize>; 2],
}

/// A corner at which the outline juts into the material.
struct Corner {
    point: Vector2<f64>,
    /// Unit vectors along the outline, away from the corner.
    away: [Vector2<f64>; 2],
}

#[derive(Clone, Copy)]
struct Extent {
    low: Vector2<f64>,
    high: Vector2<f64>,
}

impl Corner {
    /// Whether a unit vector leads away from the corner between the normals of its sides.
    fn looks(&self, direction: &Vector2<f64>) -> bool {
        self.away.iter().all(|along| along.dot(direction) <= 1e-9)
    }
}

impl Outline {
    fn of(loops: &[Loop]) -> Self {
        let (mut sides, mut corners): (Vec<WallSide>, Vec<Corner>) = (Vec::new(), Vec::new());
        for ring in loops.iter().map(|ring| without_straight_corners(ring)) {
            let count = ring.len();
            let first = sides.len();
            for k in 0..count {
                let (from, to) = (ring[k], ring[(k + 1) % count]);
                let Some(tangent) = (to - from).try_normalize(0.0) else { continue };
                sides.push(WallSide { from, to, inward: Vector2::new(-tangent.y, tangent.x), hollow: [None; 2] });
            }
            let count = sides.len() - first;
            for k in 0..count {
                let (before, after) = (first + k, first + (k + 1) % count);
                let (arriving, leaving) = (sides[before].tangent(), sides[after].tangent());
                if arriving.perp(&leaving) < 0.0 {
                    sides[before].hollow[1] = Some(corners.len());
                    sides[after].hollow[0] = Some(corners.len());
                    corners.push(Corner { point: sides[after].from, away: [-arriving, leaving] });
                }
            }
        }
        let boxes = sides.chunks(BOXED).map(Extent::round).collect();
        Self { sides, boxes, corners }
    }

    /// Nearest point opposite a hollow corner through the material, nearer than `limit`.
    fn opposite(&self, index: usize, limit: f64) -> Option<Vector2<f64>> {
        let corner = &self.corners[index];
        let mut least = limit;
        let mut found = None;
        for (number, extent) in self.boxes.iter().enumerate() {
            if extent.distance(&corner.point) >= least {
                continue;
            }
            for side in self.boxed(number).iter().filter(|side| !side.hollow.contains(&Some(index))) {
                let run = side.to - side.from;
                let share = ((corner.point - side.from).dot(&run) / run.norm_squared()).clamp(0.0, 1.0);
                let near = side.from + run * share;
                let apart = near - corner.point;
                let distance = apart.norm();
                if distance >= least || distance <= 0.0 {
                    continue;
                }
                let direction = apart / distance;
                let end = if share <= 0.0 { side.hollow[0] } else { side.hollow[1] };
                let faces = if share > 0.0 && share < 1.0 {
                    side.inward.dot(&direction) < FACING
                } else {
                    end.is_some_and(|other| self.corners[other].looks(&-direction))
                };
                if faces && corner.looks(&direction) && self.is_free(corner, direction, distance) {
                    least = distance;
                    found = Some(near);
                }
            }
        }
        found
    }

    /// Whether no wall lies between a corner and a point at `distance`.
    fn is_free(&self, corner: &Corner, direction: Vector2<f64>, distance: f64) -> bool {
        let start = corner.point + direction * (1e-6 * distance);
        self.first_wall(start, direction, distance * (1.0 - 2e-6)).is_none()
    }

    /// Distance from `start` to the first wall nearer than `limit`, with the unit vector into the material at that wall.
    fn first_wall(&self, start: Vector2<f64>, direction: Vector2<f64>, limit: f64) -> Option<(f64, Vector2<f64>)> {
        let mut nearest = limit;
        let mut wall = None;
        for (number, extent) in self.boxes.iter().enumerate() {
            if !extent.is_met(&start, &direction, nearest) {
                continue;
            }
            for side in self.boxed(number) {
                let (a, b) = (side.from - start, side.to - start);
                let (off_a, off_b) = (direction.perp(&a), direction.perp(&b));
                if (off_a < 0.0) == (off_b < 0.0) {
                    continue;
                }
                let share = off_a / (off_a - off_b);
                let distance = direction.dot(&(a + (b - a) * share));
                if distance > 1e-9 && distance < nearest {
                    nearest = distance;
                    wall = Some(side.inward);
                }
            }
        }
        wall.map(|inward| (nearest, inward))
    }

    fn boxed(&self, number: usize) -> &[WallSide] {
        &self.sides[number * BOXED..((number + 1) * BOXED).min(self.sides.len())]
    }
}

impl WallSide {
    fn tangent(&self) -> Vector2<f64> {
        Vector2::new(self.inward.y, -self.inward.x)
    }
}

impl Extent {
    fn round(sides: &[WallSide]) -> Self {
        let start = Self { low: Vector2::from([f64::INFINITY; 2]), high: Vector2::from([f64::NEG_INFINITY; 2]) };
        sides
            .iter()
            .flat_map(|side| [side.from, side.to])
            .fold(start, |extent, point| Self { low: extent.low.inf(&point), high: extent.high.sup(&point) })
    }

    fn distance(&self, point: &Vector2<f64>) -> f64 {
        let gap = |axis: usize| (self.low[axis] - point[axis]).max(point[axis] - self.high[axis]).max(0.0);
        (gap(0) * gap(0) + gap(1) * gap(1)).sqrt()
    }

    /// Whether the box lies within reach of a look of length `limit`, by the box round that look.
    fn is_met(&self, start: &Vector2<f64>, direction: &Vector2<f64>, limit: f64) -> bool {
        (0..2).all(|axis| {
            let reach = if direction[axis] == 0.0 { 0.0 } else { direction[axis] * limit };
            let (from, to) = (start[axis].min(start[axis] + reach), start[axis].max(start[axis] + reach));
            from <= self.high[axis] && self.low[axis] <= to
        })
    }
}

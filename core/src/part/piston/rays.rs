use core::f64::consts::PI;

use nalgebra::{Point3, Vector2};

use crate::mesh::Mesh;
use crate::numeric::sort_few;

/// Where lines along `x` through points of the `(y, z)` plane are inside a body.
#[derive(Debug, Clone)]
pub struct AxisRays {
    spans: Vec<Vec<Span>>,
    told: Vec<bool>,
}

/// A stretch of material along a line.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Span {
    /// Where it begins, m; the lower end.
    pub from: f64,
    /// Where it ends, m.
    pub to: f64,
    /// The facet at its upper end.
    pub facet_above: usize,
}

/// `count` points of equal area over a disc round the origin (Vogel 1979, sunflower spiral). None lies on an axis, where even
/// parts have edges that a line through the point would meet.
pub fn disc_points(radius: f64, count: usize) -> Vec<Vector2<f64>> {
    let golden = PI * (3.0 - 5.0_f64.sqrt());
    (0..count)
        .map(|index| {
            let r = radius * ((index as f64 + 0.5) / count as f64).sqrt();
            let turn = (index as f64 + 0.5) * golden;
            Vector2::new(r * libm::cos(turn), r * libm::sin(turn))
        })
        .collect()
}

impl AxisRays {
    /// Cuts the body with a line along `x` for each point; overlapping shells count once, by winding number.
    pub fn new(mesh: &Mesh, points: &[Vector2<f64>]) -> Self {
        let grid = RayGrid::new(points);
        let mut crossings: Vec<Vec<(f64, i32, usize)>> = vec![Vec::new(); points.len()];
        for facet in 0..mesh.facets().len() {
            let corners = mesh.corners(facet);
            let twice = mesh.area_vector(facet).x;
            if twice == 0.0 {
                continue;
            }
            grid.each_in(&corners, |index| {
                if let Some(x) = crossing(&corners, &points[index], twice) {
                    crossings[index].push((x, if twice > 0.0 { 1 } else { -1 }, facet));
                }
            });
        }
        let found: Vec<Option<Vec<Span>>> = crossings.into_iter().map(spans).collect();
        let told = found.iter().map(Option::is_some).collect();
        Self { spans: found.into_iter().map(Option::unwrap_or_default).collect(), told }
    }

    /// Stretches of material along each line, the highest first; none where the line met an edge and cannot tell.
    pub fn spans(&self) -> &[Vec<Span>] {
        &self.spans
    }

    /// Whether each line could tell; one that could and has no stretch meets no material.
    pub fn told(&self) -> &[bool] {
        &self.told
    }
}

/// The height at which a vertical line meets a facet.
fn crossing(corners: &[Point3<f64>; 3], at: &Vector2<f64>, twice: f64) -> Option<f64> {
    let flat = corners.map(|c| Vector2::new(c.y, c.z) - at);
    let [a, b, c] = flat;
    let (u, v, w) = (b.perp(&c), c.perp(&a), a.perp(&b));
    let inside = if twice > 0.0 { u >= 0.0 && v >= 0.0 && w >= 0.0 } else { u <= 0.0 && v <= 0.0 && w <= 0.0 };
    inside.then(|| (u * corners[0].x + v * corners[1].x + w * corners[2].x) / (u + v + w))
}

fn spans(mut crossings: Vec<(f64, i32, usize)>) -> Option<Vec<Span>> {
    sort_few(&mut crossings, |a, b| b.0.total_cmp(&a.0).then(b.1.cmp(&a.1)));
    let mut winding = 0;
    let mut open = None;
    let mut found = Vec::new();
    for (x, side, facet) in crossings {
        if winding == 0 && side > 0 {
            open = Some((x, facet));
        }
        winding += side;
        if winding == 0
            && let Some((to, facet_above)) = open.take()
        {
            found.push(Span { from: x, to, facet_above });
        }
    }
    (winding == 0).then_some(found)
}

/// Points sorted into square cells.
struct RayGrid<'a> {
    points: &'a [Vector2<f64>],
    low: Vector2<f64>,
    cell: f64,
    side: usize,
    cells: Vec<Vec<u32>>,
}

impl<'a> RayGrid<'a> {
    fn new(points: &'a [Vector2<f64>]) -> Self {
        let endless = Vector2::from([f64::INFINITY; 2]);
        let (low, high) = points
            .iter()
            .fold((endless, -endless), |(low, high): (Vector2<f64>, Vector2<f64>), p| (low.inf(p), high.sup(p)));
        let side = ((points.len() as f64).sqrt() as usize).clamp(1, 256);
        let cell = ((high - low).max() / side as f64).max(f64::MIN_POSITIVE);
        let mut grid = Self { points, low, cell, side, cells: vec![Vec::new(); side * side] };
        for (index, point) in points.iter().enumerate() {
            let (column, row) = (grid.place(point.x - low.x), grid.place(point.y - low.y));
            grid.cells[row * side + column].push(index as u32);
        }
        grid
    }

    fn place(&self, along: f64) -> usize {
        ((along / self.cell).max(0.0) as usize).min(self.side - 1)
    }

    /// Calls `each` for the points within the box round a facet.
    fn each_in(&self, corners: &[Point3<f64>; 3], mut each: impl FnMut(usize)) {
        let [a, b, c] = corners.map(|p| Vector2::new(p.y, p.z));
        let (low, high) = (a.inf(&b).inf(&c), a.sup(&b).sup(&c));
        for row in self.place(low.y - self.low.y)..=self.place(high.y - self.low.y) {
            for column in self.place(low.x - self.low.x)..=self.place(high.x - self.low.x) {
                for &index in &self.cells[row * self.side + column] {
                    let p = &self.points[index as usize];
                    if p.x >= low.x && p.x <= high.x && p.y >= low.y && p.y <= high.y {
                        each(index as usize);
                    }
                }
            }
        }
    }
}

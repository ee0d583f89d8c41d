use nalgebra::Point3;

use super::edges::Turned;

/// Empty cells round the part, so that its outermost lines have nothing beside them.
const RIM: usize = 2;

/// Depth of the nearest facet in every cell of a view.
pub(super) struct DepthMap {
    low: [f64; 2],
    high: [f64; 2],
    cell: f64,
    columns: usize,
    rows: usize,
    /// Toward the viewer; below everything where nothing is.
    depth: Vec<f32>,
    /// The depths are counted from here, so that single precision is enough.
    farthest: f64,
}

impl DepthMap {
    /// Draws the facets turned toward the viewer. `seen` has right, up and toward of each corner.
    pub(super) fn new(facets: &[[u32; 3]], seen: &[Point3<f64>], facing: &Turned, cells: f64) -> Self {
        let (low, high) = seen
            .iter()
            .fold((Point3::from([f64::INFINITY; 3]), Point3::from([f64::NEG_INFINITY; 3])), |(low, high), p| {
                (low.inf(p), high.sup(p))
            });
        let extent = (high - low).xy().max();
        let cell = if extent > 0.0 { extent / cells } else { 1.0 };
        let count = |axis: usize| ((high[axis] - low[axis]) / cell) as usize + 1 + 2 * RIM;
        let (columns, rows) = (count(0), count(1));
        let mut map = Self {
            low: [low.x, low.y],
            high: [high.x, high.y],
            cell,
            columns,
            rows,
            depth: vec![f32::NEG_INFINITY; columns * rows],
            farthest: low.z,
        };
        for (index, facet) in facets.iter().enumerate() {
            if facing.toward(index) {
                map.fill(facet.map(|id| seen[id as usize]));
            }
        }
        map
    }

    /// Side of a cell, m.
    pub(super) fn cell(&self) -> f64 {
        self.cell
    }

    /// Corners of the box round the part.
    pub(super) fn bounds(&self) -> ([f64; 2], [f64; 2]) {
        (self.low, self.high)
    }

    /// Where a place lies, counted in cells from the left edge of the map.
    fn column(&self, x: f64) -> f64 {
        (x - self.low[0]) / self.cell + RIM as f64
    }

    /// The same from the lower edge.
    fn row(&self, y: f64) -> f64 {
        (y - self.low[1]) / self.cell + RIM as f64
    }

    /// A facet in cells whose middle it covers.
    fn fill(&mut self, corners: [Point3<f64>; 3]) {
        let [a, b, c] = corners.map(|p| Point3::new(self.column(p.x) - 0.5, self.row(p.y) - 0.5, p.z - self.farthest));
        let area = (b.x - a.x) * (c.y - a.y) - (c.x - a.x) * (b.y - a.y);
        if area <= 0.0 {
            return;
        }
        let from = |x: f64| x.ceil().max(0.0) as usize;
        let to = |x: f64, most: usize| ((x.floor() + 1.0).max(0.0) as usize).min(most);
        let columns = from(a.x.min(b.x).min(c.x))..to(a.x.max(b.x).max(c.x), self.columns);
        let rows = from(a.y.min(b.y).min(c.y))..to(a.y.max(b.y).max(c.y), self.rows);
        for row in rows {
            let y = row as f64;
            for column in columns.clone() {
                let x = column as f64;
                // Shares of the three corners, times the area.
                let at_a = (b.x - x) * (c.y - y) - (c.x - x) * (b.y - y);
                let at_b = (c.x - x) * (a.y - y) - (a.x - x) * (c.y - y);
                let at_c = area - at_a - at_b;
                if at_a >= 0.0 && at_b >= 0.0 && at_c >= 0.0 {
                    let depth = ((at_a * a.z + at_b * b.z + at_c * c.z) / area) as f32;
                    let known = &mut self.depth[row * self.columns + column];
                    *known = known.max(depth);
                }
            }
        }
    }

    /// Whether nothing nearer covers a point. The least depth of the cells round it counts, since a line on the rim of a
    /// surface must not be covered by that surface.
    pub(super) fn shows(&self, point: &Point3<f64>) -> bool {
        let (column, row) = (self.column(point.x) as usize, self.row(point.y) as usize);
        let (column, row) = (column.min(self.columns - 1), row.min(self.rows - 1));
        let least = (row.saturating_sub(1)..(row + 2).min(self.rows))
            .flat_map(|row| {
                let first = row * self.columns;
                &self.depth[first + column.saturating_sub(1)..first + (column + 2).min(self.columns)]
            })
            .copied()
            .fold(f32::INFINITY, f32::min);
        point.z - self.farthest + self.cell >= f64::from(least)
    }
}

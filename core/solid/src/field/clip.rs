use nalgebra::Vector3;

/// A convex flat polygon in units of cells.
pub(super) type Polygon = Vec<Vector3<f64>>;

/// Share of a cell by which a polygon in the face between two cells counts to the side its material is on.
const NUDGE: f64 = 1e-9;

/// Cuts a polygon at the whole numbers along `axis` and hands every part to `take` with its cell number, which is held
/// within `0..count`. `inward` points into the material.
pub(super) fn along(
    polygon: &Polygon,
    axis: usize,
    count: usize,
    inward: &Vector3<f64>,
    mut take: impl FnMut(usize, Polygon),
) {
    let (least, most) =
        polygon.iter().fold((f64::INFINITY, f64::NEG_INFINITY), |(l, m), p| (l.min(p[axis]), m.max(p[axis])));
    let cell = |at: f64| ((at + NUDGE * inward[axis]).floor().max(0.0) as usize).min(count.saturating_sub(1));
    let (first, last) = (cell(least), cell(most));
    if first == last {
        take(first, polygon.clone());
        return;
    }
    let mut rest = polygon.clone();
    for number in first..last {
        let (below, above) = split(&rest, axis, (number + 1) as f64);
        if below.len() >= 3 {
            take(number, below);
        }
        rest = above;
    }
    if rest.len() >= 3 {
        take(last, rest);
    }
}

fn split(polygon: &Polygon, axis: usize, at: f64) -> (Polygon, Polygon) {
    let mut below = Polygon::with_capacity(polygon.len() + 1);
    let mut above = Polygon::with_capacity(polygon.len() + 1);
    for (k, from) in polygon.iter().enumerate() {
        let to = &polygon[(k + 1) % polygon.len()];
        let (a, b) = (from[axis] - at, to[axis] - at);
        if a <= 0.0 {
            below.push(*from);
        }
        if a >= 0.0 {
            above.push(*from);
        }
        if a * b < 0.0 {
            let mut crossing = from + (to - from) * (a / (a - b));
            crossing[axis] = at;
            below.push(crossing);
            above.push(crossing);
        }
    }
    (below, above)
}

/// Cuts a polygon into its parts within single cells.
pub(super) fn cells(
    polygon: &Polygon,
    counts: [usize; 3],
    inward: &Vector3<f64>,
    mut take: impl FnMut([usize; 3], Polygon),
) {
    along(polygon, 2, counts[2], inward, |k, layer| {
        along(&layer, 1, counts[1], inward, |j, row| {
            along(&row, 0, counts[0], inward, |i, piece| take([i, j, k], piece));
        });
    });
}

/// As [`cells`] for a polygon that may go on beyond the cells: what lies outside is left out.
pub(super) fn cells_within(
    polygon: &Polygon,
    counts: [usize; 3],
    inward: &Vector3<f64>,
    mut take: impl FnMut([usize; 3], Polygon),
) {
    // A cell more on every side takes what is beyond.
    let one = Vector3::repeat(1.0);
    let moved: Polygon = polygon.iter().map(|point| point + one).collect();
    cells(&moved, counts.map(|count| count + 2), inward, |cell, piece| {
        if (0..3).all(|axis| (1..=counts[axis]).contains(&cell[axis])) {
            take(cell.map(|c| c - 1), piece.iter().map(|point| point - one).collect());
        }
    });
}

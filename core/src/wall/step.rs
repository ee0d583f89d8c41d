use nalgebra::Vector2;

use crate::section::Section;

/// What a step in area is looked for in: one plane along the load path.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct AreaStation {
    /// Position along the load path, m.
    pub position: f64,
    /// Area of the section, m².
    pub area: f64,
    /// Size of the box round it across the rod and along the pin, m.
    pub size: [f64; 2],
}

impl AreaStation {
    /// Reads a section.
    pub fn of(section: &Section) -> Self {
        let none = (Vector2::repeat(f64::INFINITY), Vector2::repeat(f64::NEG_INFINITY));
        let (low, high) =
            section.loops.iter().flatten().fold(none, |(low, high), point| (low.inf(point), high.sup(point)));
        let size = (high - low).sup(&Vector2::zeros());
        Self { position: section.position, area: section.properties.area, size: [size.x, size.y] }
    }
}

/// What counts as a sudden step.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct StepLimits {
    /// Larger area over smaller, at least.
    pub ratio: f64,
    /// The change happens within this length, m.
    pub within: f64,
}

impl StepLimits {
    /// Three tenths of the area within a twentieth of the centre distance. (Common practice, no source.)
    pub fn of_rod(center_distance: f64) -> Self {
        Self { ratio: 1.3, within: center_distance / 20.0 }
    }
}

/// A place where the area along the load path changes suddenly.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct AreaStep {
    /// Where the change begins and ends, m along the load path.
    pub from: f64,
    /// See `from`.
    pub to: f64,
    /// Area at `from`, m².
    pub area_from: f64,
    /// Area at `to`, m².
    pub area_to: f64,
    /// Fillet radius that a change of this height and length would have, m; infinite where the area does not change.
    pub fillet_radius: f64,
    /// Peak stress over the mean stress of the smaller section under tension.
    pub concentration: f64,
}

/// Share of a change that may lie outside the stated ends of a step: the slow start and end of a blend.
const TAIL: f64 = 0.02;

/// Finds sudden steps of area between neighbouring stations, which must lie in rising order.
///
/// Stations belong to the shank: through the bores the area changes by nature, and the eyes have their own factors. A
/// step is taken as a flat bar with two equal shoulders whose widths are the areas over the size that the sections have
/// in common.
pub fn area_steps(stations: &[AreaStation], limits: &StepLimits) -> Vec<AreaStep> {
    let mut steps: Vec<AreaStep> = Vec::new();
    let mut first = 0;
    while first + 1 < stations.len() {
        let last = run_end(stations, first);
        if let Some((from, to)) = steepest(&stations[first..=last], limits) {
            steps.push(step(&stations[first + from], &stations[first + to]));
        }
        first = last;
    }
    steps
}

/// The last station of the run from `first` over which the area only rises or only falls.
fn run_end(stations: &[AreaStation], first: usize) -> usize {
    let change = |i: usize| stations[i + 1].area - stations[i].area;
    let mut last = first + 1;
    let mut sense = change(first);
    while last + 1 < stations.len() && change(last) * sense >= 0.0 {
        if sense == 0.0 {
            sense = change(last);
        }
        last += 1;
    }
    last
}

/// The ends of the greatest change within the length, if it is sudden, without its slow ends.
fn steepest(run: &[AreaStation], limits: &StepLimits) -> Option<(usize, usize)> {
    let ratio = |i: usize, j: usize| {
        let (a, b) = (run[i].area, run[j].area);
        if a.min(b) > 0.0 { a.max(b) / a.min(b) } else { 1.0 }
    };
    let mut best: Option<(usize, usize)> = None;
    let mut from = 0;
    for to in 1..run.len() {
        // Neighbours count however far apart: a jump between them may be as short as one likes.
        while from + 1 < to && run[to].position - run[from].position > limits.within {
            from += 1;
        }
        if ratio(from, to) >= limits.ratio && best.is_none_or(|(i, j)| ratio(from, to) > ratio(i, j)) {
            best = Some((from, to));
        }
    }
    let (mut from, mut to) = best?;
    let allowed = TAIL * (run[to].area - run[from].area).abs();
    let (start, end) = (run[from].area, run[to].area);
    while from + 1 < to && (run[from + 1].area - start).abs() <= allowed {
        from += 1;
    }
    while from + 1 < to && (run[to - 1].area - end).abs() <= allowed {
        to -= 1;
    }
    Some((from, to))
}

fn step(from: &AreaStation, to: &AreaStation) -> AreaStep {
    let common = common_size(from, to);
    let (wide, narrow) = (from.area.max(to.area) / common, from.area.min(to.area) / common);
    let shoulder = (wide - narrow) / 2.0;
    let fillet_radius = fillet(shoulder, to.position - from.position);
    AreaStep {
        from: from.position,
        to: to.position,
        area_from: from.area,
        area_to: to.area,
        fillet_radius,
        concentration: shoulder_concentration(wide, narrow, fillet_radius),
    }
}

/// The size that changes least from one section to the other; of equals the smaller, which gives the higher shoulder.
fn common_size(a: &AreaStation, b: &AreaStation) -> f64 {
    let change = |k: usize| {
        let (low, high) = (a.size[k].min(b.size[k]), a.size[k].max(b.size[k]));
        if low > 0.0 { high / low } else { f64::INFINITY }
    };
    let size = |k: usize| a.size[k].max(b.size[k]);
    // Sizes within a thousandth count as equal.
    let k = if (change(0) / change(1) - 1.0).abs() < 1e-3 {
        usize::from(size(1) < size(0))
    } else {
        usize::from(change(1) < change(0))
    };
    size(k)
}

/// Radius of the arc, tangent to the narrow bar, that climbs a shoulder of `height` within `length`; where the shoulder is
/// higher than long, the length itself.
fn fillet(height: f64, length: f64) -> f64 {
    if height <= 0.0 {
        f64::INFINITY
    } else if length <= height {
        length
    } else {
        (length * length + height * height) / (2.0 * height)
    }
}

/// Stress concentration factor of a flat bar in tension whose width steps from `wide` to `narrow` by two shoulders with
/// fillets, on the mean stress of the narrow part.
///
/// Fit of Peterson's Stress Concentration Factors (Pilkey), stepped flat tension bar with shoulder fillets. It holds for
/// shoulder heights of 0.1 to 20 radii; below, the factor falls to 1 in proportion to the height, and sharper fillets
/// count as the sharpest of the fit.
pub fn shoulder_concentration(wide: f64, narrow: f64, fillet_radius: f64) -> f64 {
    const LOW: f64 = 0.1;
    const HIGH: f64 = 20.0;
    let height = (wide - narrow) / 2.0;
    if height <= 0.0 || wide <= 0.0 {
        return 1.0;
    }
    let sharpness = height / fillet_radius;
    let x = sharpness.clamp(LOW, HIGH);
    let root = x.sqrt();
    let c = if x <= 2.0 {
        [
            1.006 + 1.008 * root - 0.044 * x,
            -0.115 - 0.584 * root + 0.315 * x,
            0.245 - 1.006 * root - 0.257 * x,
            -0.135 + 0.582 * root - 0.017 * x,
        ]
    } else {
        [
            1.020 + 1.009 * root - 0.048 * x,
            -0.065 - 0.165 * root - 0.007 * x,
            -3.459 + 1.266 * root - 0.016 * x,
            3.505 - 2.109 * root + 0.069 * x,
        ]
    };
    let share = 2.0 * height / wide;
    let factor = (c[0] + share * (c[1] + share * (c[2] + share * c[3]))).max(1.0);
    if sharpness < LOW { 1.0 + (factor - 1.0) * sharpness / LOW } else { factor }
}

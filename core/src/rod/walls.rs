use std::fmt;

use nalgebra::{Point3, Vector2, Vector3};

use crate::kind::Walled;
use crate::mesh::Mesh;
use crate::part::Rod;
use crate::report::AreaStepReport;
use crate::section::{Section, planes, sections, settled_sections};
use crate::units::MM;
use crate::wall::{AreaStation, Shells, StepLimits, area_steps};

/// Where on a rod something lies, in the words of the trade.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum RodWall {
    /// Round the smaller bore.
    SmallEndEye,
    /// Round the larger bore.
    BigEndEye,
    /// The separate part that closes a split big end.
    Cap,
    /// The thin middle of the shank between its flanges.
    ShankWeb {
        /// Distance along the rod from the small-end centre, m.
        from_small_end: f64,
    },
    /// An outer wall of the shank beside its web.
    ShankFlange {
        /// Distance along the rod from the small-end centre, m.
        from_small_end: f64,
    },
    /// The shank as a whole.
    Shank {
        /// Distance along the rod from the small-end centre, m.
        from_small_end: f64,
    },
}

impl fmt::Display for RodWall {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        let (part, distance) = match self {
            Self::SmallEndEye => return out.write_str("small-end eye"),
            Self::BigEndEye => return out.write_str("big-end eye"),
            Self::Cap => return out.write_str("cap"),
            Self::ShankWeb { from_small_end } => ("shank web", from_small_end),
            Self::ShankFlange { from_small_end } => ("shank flange", from_small_end),
            Self::Shank { from_small_end } => ("shank", from_small_end),
        };
        write!(out, "{part}, {:.0} mm from small end", distance * 1e3)
    }
}

/// What of a rod is needed to name a place on it.
#[derive(Debug, Clone)]
pub struct RodPlaces {
    center_distance: f64,
    small_outer: f64,
    big_outer: f64,
    /// Where the cap begins along the rod.
    cap_from: Option<f64>,
    /// Low and high corner of the shank's sections in their planes, by position.
    shank: Vec<(f64, Vector2<f64>, Vector2<f64>)>,
}

/// Planes through the shank.
const PLANES: usize = 32;

/// A wall as thick as this share of the whole shank is the shank.
const WHOLE: f64 = 0.8;

/// A web lies within this share of the half size from the middle of the shank.
const MIDDLE: f64 = 0.3;

/// A cap's own surface stays this share of the bore radius clear of the shank's side of the bore axis.
const CAP_CLEAR: f64 = 0.25;

impl RodPlaces {
    /// Measures a rod.
    pub fn new(rod: &Rod) -> Self {
        let (low, high) = rod.mesh.bounds();
        let distance = rod.center_distance;
        let half_width = |at: f64| -> f64 {
            let cut = sections(&rod.mesh, &[at], rod.overlapping);
            cut.first().and_then(extent).map_or(0.0, |(low, high)| low.x.abs().max(high.x.abs()))
        };
        // Of half an eye the far side is missing, so its width stands for it.
        let outer =
            |half: bool, beyond: f64, at: f64, radius: f64| if half { half_width(at) } else { beyond }.max(radius);
        let (small, big) = (&rod.small_end, &rod.big_end);
        let small_outer = outer(small.half, -low.x, 0.1 * small.radius(), small.radius());
        let big_outer = outer(big.half, high.x - distance, distance - 0.1 * big.radius(), big.radius());
        let (from, to) = (small_outer, distance - big_outer);
        let planes: Vec<f64> = (0..PLANES).map(|k| from + (to - from) * (k as f64 + 0.5) / PLANES as f64).collect();
        let cuts = if to > from { sections(&rod.mesh, &planes, rod.overlapping) } else { Vec::new() };
        let shank = cuts.iter().filter_map(|cut| extent(cut).map(|(low, high)| (cut.position, low, high))).collect();
        let cap_from = shell_starts(&rod.mesh).into_iter().filter(|&x| x > distance - CAP_CLEAR * big.radius());
        let cap_from = cap_from.fold(None, |least: Option<f64>, x| Some(least.map_or(x, |l| l.min(x))));
        Self { center_distance: distance, small_outer, big_outer, cap_from, shank }
    }

    /// Whether a separate part closes the big end.
    pub fn has_cap(&self) -> bool {
        self.cap_from.is_some()
    }

    /// Names the place of a wall by its middle, the unit vector through it and its thickness, in the rod's frame.
    pub fn of(&self, middle: &Point3<f64>, across: &Vector3<f64>, thickness: f64) -> RodWall {
        if self.cap_from.is_some_and(|x| middle.x >= x) {
            return RodWall::Cap;
        }
        let from_big = Vector2::new(middle.x - self.center_distance, middle.y).norm();
        let from_small = middle.xy().coords.norm();
        if middle.x >= self.center_distance || from_big <= self.big_outer {
            return RodWall::BigEndEye;
        }
        if middle.x <= 0.0 || from_small <= self.small_outer {
            return RodWall::SmallEndEye;
        }
        let from_small_end = middle.x;
        let nearest = self.shank.iter().min_by(|a, b| (a.0 - middle.x).abs().total_cmp(&(b.0 - middle.x).abs()));
        let Some((_, low, high)) = nearest else { return RodWall::Shank { from_small_end } };
        // The plane's axis that the wall is measured along: y across the rod, or z along the pin.
        let axis = usize::from(across.z.abs() > across.y.abs());
        let (size, center) = (high[axis] - low[axis], f64::midpoint(low[axis], high[axis]));
        if thickness >= WHOLE * size {
            RodWall::Shank { from_small_end }
        } else if (middle[axis + 1] - center).abs() <= MIDDLE * size / 2.0 {
            RodWall::ShankWeb { from_small_end }
        } else {
            RodWall::ShankFlange { from_small_end }
        }
    }
}

/// Corners of the box round a section.
fn extent(section: &Section) -> Option<(Vector2<f64>, Vector2<f64>)> {
    let mut points = section.loops.iter().flatten();
    let first = *points.next()?;
    Some(points.fold((first, first), |(low, high), point| (low.inf(point), high.sup(point))))
}

/// Least `x` of each connected surface.
fn shell_starts(mesh: &Mesh) -> Vec<f64> {
    let mut seen = vec![false; mesh.facets().len()];
    let mut starts = Vec::new();
    let mut stack = Vec::new();
    for seed in 0..seen.len() {
        if core::mem::replace(&mut seen[seed], true) {
            continue;
        }
        let mut least = f64::INFINITY;
        stack.push(seed);
        while let Some(facet) = stack.pop() {
            least = mesh.corners(facet).iter().fold(least, |least, corner| least.min(corner.x));
            for k in 0..3 {
                let next = mesh.opposite(3 * facet + k) / 3;
                if !core::mem::replace(&mut seen[next], true) {
                    stack.push(next);
                }
            }
        }
        starts.push(least);
    }
    starts
}

/// A rod as far as its walls matter.
pub(crate) fn walled(rod: &Rod) -> Walled<'_> {
    let places = RodPlaces::new(rod);
    let jointed = rod.overlapping && places.has_cap();
    Walled {
        shells: if jointed { Shells::Jointed } else { Shells::united(rod.overlapping) },
        whole_file: rod.left_out.is_empty(),
        area_steps: steps(rod),
        place: Box::new(move |middle, across, thickness| places.of(middle, across, thickness).to_string()),
        notes,
    }
}

fn notes(stress: bool) -> Vec<String> {
    let stressed = if stress {
        "Walls flagged for stress do not last the wanted life in 90 % of prints. The thickness named is enough if stress falls as \
         thickness grows; in bending it falls faster."
    } else {
        "The job has no engine, material or speed, so stress was not checked."
    };
    let steps = "Steps of area are taken as shoulders of a flat bar; the eyes have their own factors in a check.";
    vec![steps.into(), stressed.into()]
}

fn steps(rod: &Rod) -> Vec<AreaStepReport> {
    /// Planes in which steps are looked for.
    const PLANES: usize = 200;
    let (from, to) = (rod.small_end.radius(), rod.center_distance - rod.big_end.radius());
    let planes = planes(&rod.mesh, from, to, PLANES, rod.overlapping);
    let stations: Vec<AreaStation> =
        settled_sections(&rod.mesh, &planes, rod.overlapping).iter().map(AreaStation::of).collect();
    area_steps(&stations, &StepLimits::of_rod(rod.center_distance))
        .iter()
        .map(|step| AreaStepReport {
            from_mm: step.from * MM,
            to_mm: step.to * MM,
            area_from_mm2: step.area_from * 1e6,
            area_to_mm2: step.area_to * 1e6,
            fillet_radius_mm: step.fillet_radius * MM,
            concentration: step.concentration,
        })
        .collect()
}

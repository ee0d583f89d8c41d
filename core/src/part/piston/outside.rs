use core::f64::consts::TAU;

use nalgebra::{Matrix3, Point3, SymmetricEigen, Vector3};

use crate::mesh::Mesh;
use crate::numeric::sort_few;
use crate::part::piston::{Collar, GivenGroove, Groove, Skirt};

/// Bins round the axis by which the arc of a wall is measured.
const BINS: usize = 72;

/// A ring goes at least this far round, bins of [`BINS`]: slots and drain holes may interrupt it.
const RING: usize = 60;

/// Nothing of a piston stands out of its skirt by more than this share of the radius.
pub(super) const TAPER: f64 = 0.05;

/// Radii farther apart than this share of the piston's are different walls.
const SAME_RADIUS: f64 = 0.004;

/// A groove is at least this deep against the radius: less is a step between lands.
const LEAST_DEPTH: f64 = 0.02;

/// What guides has at least this share of the area of the largest wall: a lip at the skirt's end has less.
const GUIDING: f64 = 0.25;

/// Walls of the outside that look away from the axis, in the frame of the piston.
pub(super) struct Outside<'mesh> {
    mesh: &'mesh Mesh,
    normals: Vec<Vector3<f64>>,
    walls: Vec<CylinderWall>,
    greatest: f64,
}

struct CylinderWall {
    radius: f64,
    from: f64,
    to: f64,
    /// First and last bin of its arc; the last may pass the end of the circle.
    bins: (usize, usize),
    /// Half the angle of its chord, rad.
    half: f64,
    /// Of the facet, m².
    area: f64,
}

impl<'mesh> Outside<'mesh> {
    pub(super) fn of(mesh: &'mesh Mesh) -> Self {
        let normals: Vec<Vector3<f64>> =
            (0..mesh.facets().len()).map(|f| mesh.area_vector(f).try_normalize(0.0).unwrap_or_default()).collect();
        let walls: Vec<CylinderWall> =
            (0..normals.len()).filter_map(|facet| wall(mesh, facet, &normals[facet])).collect();
        let greatest = walls.iter().map(|wall| wall.radius).fold(0.0, f64::max);
        Self { mesh, normals, walls, greatest }
    }

    /// Whether walls of at least a radius go all the way round.
    pub(super) fn ringed(&self, radius: f64) -> bool {
        covered(self.walls.iter().filter(|wall| wall.radius >= radius)) >= RING
    }

    /// The skirt: of the walls below `top`, the bottom of the last groove over the pin, the widest that has a fair share of
    /// their area and is about as wide as the largest.
    pub(super) fn skirt(&self, top: f64, (low, _): (f64, f64)) -> Option<Skirt> {
        let mut below: Vec<&CylinderWall> = self.walls.iter().filter(|wall| wall.from < top).collect();
        sort_few(&mut below, |a, b| a.radius.total_cmp(&b.radius));
        let sizes: Vec<(f64, f64)> = below
            .chunk_by(|a, b| b.radius - a.radius < SAME_RADIUS * self.greatest)
            .filter_map(|same| Some((same.last()?.radius, same.iter().map(|wall| wall.area).sum::<f64>())))
            .collect();
        let (main, most) =
            sizes.iter().copied().fold((0.0, 0.0), |known, size| if size.1 > known.1 { size } else { known });
        let guides = |&&(radius, area): &&(f64, f64)| radius <= main * (1.0 + TAPER) && area >= GUIDING * most;
        let radius = sizes.iter().rev().find(guides)?.0;
        let same = |wall: &&&CylinderWall| wall.radius > radius * (1.0 - SAME_RADIUS) && wall.radius <= radius;
        let skirt: Vec<&CylinderWall> = below.iter().filter(same).copied().collect();
        let from = skirt.iter().map(|wall| wall.from).fold(f64::INFINITY, f64::min);
        let to = skirt.iter().map(|wall| wall.to).fold(low, f64::max).min(top);
        let half = skirt.iter().map(|wall| wall.half).fold(0.0, f64::max);
        let arc = covered(skirt.iter().copied()) as f64 / BINS as f64 * TAU;
        let sagitta = radius * (1.0 - libm::cos(half));
        (radius > 0.0 && to > from).then_some(Skirt { radius, from, to, arc, sagitta })
    }

    /// Walls between two heights that stand out of a radius, as one.
    pub(super) fn out_of(&self, radius: f64, (low, high): (f64, f64)) -> Option<Collar> {
        let slack = 1e-6;
        let out = self.walls.iter().filter(|wall| {
            wall.radius > radius * (1.0 + SAME_RADIUS) && wall.from >= low - slack && wall.to <= high + slack
        });
        out.fold(None, |known: Option<Collar>, wall| {
            let known = known.unwrap_or(Collar { radius: 0.0, from: wall.from, to: wall.to });
            Some(Collar {
                radius: known.radius.max(wall.radius),
                from: known.from.min(wall.from),
                to: known.to.max(wall.to),
            })
        })
    }

    /// Rings round the outside that lie deeper than both neighbours, from the crown down.
    pub(super) fn grooves(&self, crown: f64) -> Vec<Groove> {
        let mut sorted: Vec<&CylinderWall> = self.walls.iter().filter(|w| w.radius > 0.5 * self.greatest).collect();
        sort_few(&mut sorted, |a, b| a.radius.total_cmp(&b.radius));
        let mut grooves: Vec<Groove> = Vec::new();
        for same in sorted.chunk_by(|a, b| b.radius - a.radius < SAME_RADIUS * self.greatest) {
            let mut by_height: Vec<&CylinderWall> = same.to_vec();
            sort_few(&mut by_height, |a, b| a.from.total_cmp(&b.from));
            for floor in stretches(&by_height) {
                grooves.extend(self.groove(&floor, crown));
            }
        }
        sort_few(&mut grooves, |a, b| b.to.total_cmp(&a.to));
        // A groove with a stepped floor is one groove, as wide as its widest step and as deep as its deepest.
        grooves.dedup_by(|low, high| {
            let overlap = low.to > high.from + 1e-6;
            if overlap {
                high.floor_radius = high.floor_radius.min(low.floor_radius);
                high.from = high.from.min(low.from);
            }
            overlap
        });
        grooves
    }

    /// The groove with a given floor, if lands stand out above and below it.
    fn groove(&self, floor: &[&CylinderWall], crown: f64) -> Option<Groove> {
        if covered(floor.iter().copied()) < RING {
            return None;
        }
        let floor_radius = floor.iter().map(|wall| wall.radius).fold(0.0, f64::max);
        let from = floor.iter().map(|wall| wall.from).fold(f64::INFINITY, f64::min);
        let to = floor.iter().map(|wall| wall.to).fold(f64::NEG_INFINITY, f64::max);
        let out = floor_radius + LEAST_DEPTH * self.greatest;
        let land = |near: &dyn Fn(&CylinderWall) -> bool| {
            let ring: Vec<&CylinderWall> = self.walls.iter().filter(|w| w.radius > out && near(w)).collect();
            (covered(ring.iter().copied()) >= RING).then(|| ring.iter().map(|w| w.radius).fold(0.0, f64::max))
        };
        let width = to - from;
        let above = land(&|w| w.from >= to - 0.1 * width && w.from < to + 1.5 * width)?;
        let below = land(&|w| w.to <= from + 0.1 * width && w.to > from - 1.5 * width)?;
        let land_radius = above.min(below);
        let middle = f64::midpoint(floor_radius, land_radius);
        // Corner fillets shorten the floor; the flanks say how wide it is.
        let (upper, lower) = (self.flank(middle, to, width, -1.0), self.flank(middle, from, width, 1.0));
        let (from, to) = (lower.unwrap_or(from), upper.unwrap_or(to));
        (to < crown && to > from).then_some(Groove { from, to, floor_radius, land_radius })
    }

    /// Height of the flat ring nearest to an end of a floor, looking up (`1`) or down (`-1`), that crosses a radius.
    fn flank(&self, radius: f64, end: f64, width: f64, looks: f64) -> Option<f64> {
        let mut best: Option<f64> = None;
        for (facet, normal) in self.normals.iter().enumerate() {
            if normal.x * looks < 0.99 {
                continue;
            }
            let corners = self.mesh.corners(facet);
            let x = corners.iter().map(|c| c.x).sum::<f64>() / 3.0;
            let beyond = (end - x) * looks;
            if !(-0.02 * width..=0.5 * width).contains(&beyond) {
                continue;
            }
            let radii = corners.map(|c| libm::hypot(c.y, c.z));
            let (low, high) = radii.iter().fold((f64::INFINITY, 0.0_f64), |(l, h), r| (l.min(*r), h.max(*r)));
            if low <= radius && high >= radius && best.is_none_or(|known| (known - end).abs() > (x - end).abs()) {
                best = Some(x);
            }
        }
        best
    }
}

/// Axes nearer than this, rad, are the same.
const SAME_AXIS: f64 = 2e-4;

/// An axis by the walls of every radius that look away from it: a circle through a skirt and a lip leans. One that was
/// straight already stays as it was.
pub(super) fn straightened(mesh: &Mesh, (center, axis): (Point3<f64>, Vector3<f64>)) -> (Point3<f64>, Vector3<f64>) {
    let walls: Vec<(Vector3<f64>, Point3<f64>, f64)> = (0..mesh.facets().len())
        .filter_map(|facet| {
            let twice = mesh.area_vector(facet);
            let normal = twice.try_normalize(0.0)?;
            let [a, b, c] = mesh.corners(facet);
            let arm = nalgebra::center(&a, &nalgebra::center(&b, &c)) - center;
            let arm = arm - axis * axis.dot(&arm);
            let looks_out = normal.dot(&axis).abs() < 0.03 && normal.dot(&arm) > 0.98 * arm.norm();
            // The middle of the longest side across: the chord's middle, through which its normal passes the axis.
            let sides = [(a, b), (b, c), (c, a)];
            let across = |side: &(Point3<f64>, Point3<f64>)| axis.cross(&(side.1 - side.0)).norm();
            let widest = sides.iter().max_by(|x, y| across(x).total_cmp(&across(y)))?;
            looks_out.then(|| (normal, nalgebra::center(&widest.0, &widest.1), twice.norm()))
        })
        .collect();
    let spread =
        walls.iter().fold(Matrix3::zeros(), |sum, (normal, _, area)| sum + normal * normal.transpose() * *area);
    let eigen = SymmetricEigen::new(spread);
    let found = eigen.eigenvectors.column(eigen.eigenvalues.imin()).into_owned();
    let found = if found.dot(&axis) < 0.0 { -found } else { found };
    let lean = found.cross(&axis).norm();
    if !(SAME_AXIS..0.05).contains(&lean) {
        return (center, axis);
    }
    // The point nearest to all normals; along the axis nothing is known, so that it stays.
    let (mut normal, mut right) = (found * found.transpose(), Vector3::zeros());
    for (wall, middle, area) in &walls {
        let tangent = found.cross(wall);
        normal += tangent * tangent.transpose() * *area / spread.trace();
        right += tangent * tangent.dot(&(middle - center)) * *area / spread.trace();
    }
    let shift = normal.try_inverse().map_or(Vector3::zeros(), |inverse| inverse * right);
    (center + shift, found)
}

impl GivenGroove {
    /// In the frame of a piston with its crown at `crown` and lands of a radius.
    pub(super) fn placed(&self, crown: f64, land_radius: f64) -> Groove {
        let to = crown - self.below_crown;
        Groove { from: to - self.width, to, floor_radius: land_radius - self.depth, land_radius }
    }
}

fn wall(mesh: &Mesh, facet: usize, normal: &Vector3<f64>) -> Option<CylinderWall> {
    if normal.x.abs() > 0.03 || *normal == Vector3::zeros() {
        return None;
    }
    let corners = mesh.corners(facet);
    let radii = corners.map(|c| libm::hypot(c.y, c.z));
    let (low, high) = radii.iter().fold((f64::INFINITY, 0.0_f64), |(l, h), r| (l.min(*r), h.max(*r)));
    // All corners of a round wall lie on its circle.
    if high - low > SAME_RADIUS * high {
        return None;
    }
    let angles = corners.map(|c| libm::atan2(c.z, c.y));
    let turn = |to: f64| {
        let turn = (to - angles[0]).rem_euclid(TAU);
        if turn > 0.5 * TAU { turn - TAU } else { turn }
    };
    let turns = [0.0, turn(angles[1]), turn(angles[2])];
    let (first, last) = turns.iter().fold((0.0_f64, 0.0_f64), |(l, h), t| (l.min(*t), h.max(*t)));
    let middle = angles[0] + 0.5 * (first + last);
    let outward = normal.y * libm::cos(middle) + normal.z * libm::sin(middle);
    if outward < 0.98 {
        return None;
    }
    let bin = |angle: f64| (angle.rem_euclid(TAU) / TAU * BINS as f64) as usize % BINS;
    let start = bin(angles[0] + first);
    let count = ((last - first) / TAU * BINS as f64) as usize;
    let x = corners.map(|c| c.x);
    Some(CylinderWall {
        radius: high,
        from: x[0].min(x[1]).min(x[2]),
        to: x[0].max(x[1]).max(x[2]),
        bins: (start, start + count),
        half: 0.5 * (last - first),
        area: mesh.area_vector(facet).norm() / 2.0,
    })
}

/// Bins round the axis that some walls fill.
fn covered<'a>(walls: impl Iterator<Item = &'a CylinderWall>) -> usize {
    let mut seen = [false; BINS];
    for wall in walls {
        for bin in wall.bins.0..=wall.bins.1.min(wall.bins.0 + BINS) {
            seen[bin % BINS] = true;
        }
    }
    seen.iter().filter(|bin| **bin).count()
}

/// Splits walls sorted by their lower end where no wall goes on.
fn stretches<'a>(sorted: &[&'a CylinderWall]) -> Vec<Vec<&'a CylinderWall>> {
    let mut found: Vec<(f64, Vec<&CylinderWall>)> = Vec::new();
    for &wall in sorted {
        match found.last_mut() {
            Some((reached, list)) if wall.from <= *reached + 1e-6 => {
                *reached = reached.max(wall.to);
                list.push(wall);
            }
            _ => found.push((wall.to, vec![wall])),
        }
    }
    found.into_iter().map(|(_, list)| list).collect()
}

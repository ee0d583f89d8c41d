//! What makes a rod of two parallel bores: rings of material round both, a narrower shank between them, and nothing else.

use core::f64::consts::TAU;

use nalgebra::{Point3, Vector2};

use super::bore::Bore;
use super::frame::Frame;
use super::named::NEARLY_PARALLEL;
use super::profile::Profile;
use super::through::{is_clear, is_open};
use crate::mesh::Mesh;

/// Rods have at least this much centre distance for their bore radii; crank webs have less. (Common practice, no source.)
const LEAST_SLENDERNESS: f64 = 1.25;

/// The wall beyond a bore, away from the other one, reaches this many bore radii from its centre in the middle of its
/// rays; single things such as an oil dipper reach farther. (Common practice, no source.)
const OVERHANG: f64 = 3.2;
const DIPPER: f64 = 4.0;

/// Material beside the line of centres reaches this many radii of the larger bore. (Common practice, no source.)
const SPREAD: f64 = 3.2;

/// The shank is at most this wide against the wider eye.
const WAIST: f64 = 0.93;

/// The middle half between the bores is nowhere so wide against the wider eye.
const WIDEST: f64 = 1.1;

/// Eyes that reach each other are joined at least this wide against the narrower one: two bushes that touch have no shank.
const LEAST_WAIST: f64 = 0.25;

/// Material stands out of the eyes' faces by at most this many radii of the larger bore.
const STEP: f64 = 0.6;

/// Bores are at most this long for their diameter; longer ones are tubes. (Common practice, no source.)
const TUBE: f64 = 5.0;

/// A third bore this large against the larger end carries a shaft of its own; lightening holes in a shank are smaller.
const PIVOT: f64 = 0.95;

/// A third bore beside the line of centres, from this size against the smaller end, makes a lever.
const LEVER: f64 = 0.6;

/// Share of the rays away from the shank that meet a wall: slots and forks leave some free.
const RING: f64 = 0.4;

/// The two ends of what may be a rod.
pub(super) struct BorePair<'a> {
    pub(super) mesh: &'a Mesh,
    pub(super) small: &'a Bore,
    pub(super) big: &'a Bore,
    pub(super) frame: &'a Frame,
    /// Between the axes, m.
    pub(super) distance: f64,
}

impl BorePair<'_> {
    /// What speaks against a rod, if anything does; `others` are all bores found.
    pub(super) fn against(&self, others: &[Bore]) -> Option<String> {
        let (small, big) = (self.small.main().radius, self.big.main().radius);
        if self.distance < LEAST_SLENDERNESS * (small + big) {
            return Some("its two bores are close together for their size, as on a crank web".into());
        }
        if let Some(why) = [self.small, self.big].into_iter().find_map(|bore| self.no_eye_bore(bore)) {
            return Some(why);
        }
        let profile = Profile::of(self.mesh, self.frame, self.distance);
        let eye = profile.width_near(self.distance, big).max(profile.width_near(0.0, small));
        self.beyond(&profile)
            .or_else(|| self.no_shank(&profile))
            .or_else(|| others.iter().find_map(|bore| self.third(bore, eye)))
            .or_else(|| self.no_ring(self.small, -1.0))
            .or_else(|| self.no_ring(self.big, 1.0))
    }

    fn no_eye_bore(&self, bore: &Bore) -> Option<String> {
        let (from, to) = bore.extent();
        if to - from > TUBE * bore.diameter() {
            return Some(format!("its bore of {:.2} mm is long for its width, as in a tube", bore.diameter() * 1e3));
        }
        if !is_open(self.mesh, bore, None) {
            return Some(format!("its bore of {:.2} mm does not pass through the part", bore.diameter() * 1e3));
        }
        (!is_clear(self.mesh, bore)).then(|| format!("its bore of {:.2} mm is partly filled", bore.diameter() * 1e3))
    }

    /// Material that reaches far beyond the eyes.
    fn beyond(&self, profile: &Profile) -> Option<String> {
        let (small, big) = (self.small.main().radius, self.big.main().radius);
        let far = -profile.low > DIPPER * small || profile.high - self.distance > DIPPER * big;
        if far || profile.reach() > SPREAD * big {
            return Some("material reaches far beyond its bores, so they do not span the part".into());
        }
        let ends = [self.small, self.big].map(|bore| {
            let middle = self.frame.point(&bore.center).z;
            let (from, to) = bore.extent();
            let turned = self.frame.direction(&bore.axis).z < 0.0;
            if turned { (middle - to, middle - from) } else { (middle + from, middle + to) }
        });
        let (low, high) = (ends[0].0.min(ends[1].0), ends[0].1.max(ends[1].1));
        let heights = self.mesh.points().iter().map(|point| self.frame.point(point).z);
        let (least, most) =
            heights.fold((f64::INFINITY, f64::NEG_INFINITY), |(least, most), z| (least.min(z), most.max(z)));
        (low - least > STEP * big || most - high > STEP * big)
            .then(|| "material stands far out of the faces of its eyes".into())
    }

    fn no_shank(&self, profile: &Profile) -> Option<String> {
        let (small, big) = (self.small.main().radius, self.big.main().radius);
        let widths = [profile.width_near(0.0, small), profile.width_near(self.distance, big)];
        let (narrower, wider) = (widths[0].min(widths[1]), widths[0].max(widths[1]));
        let shank = profile.least_between(small, self.distance - big);
        if shank > WAIST * wider {
            return Some("it is as wide between its bores as at them: it has eyes but no shank".into());
        }
        let (from, to) = (small, self.distance - big);
        let middle = (from + (to - from) / 4.0, to - (to - from) / 4.0);
        if profile.greatest_between(middle.0, middle.1) > WIDEST * wider {
            return Some("it is widest between its bores, as two rods on one shaft are".into());
        }
        let reach_each_other = f64::midpoint(widths[0], widths[1]) > 0.9 * self.distance;
        if reach_each_other && shank < LEAST_WAIST * narrower {
            return Some("its eyes hang together by next to nothing: it has no shank".into());
        }
        (profile.offset_between(small, self.distance - big) > wider / 2.0)
            .then(|| "it is bent round the line between its bores: it has no shank".into())
    }

    /// A bore that a rod has not.
    fn third(&self, bore: &Bore, eye: f64) -> Option<String> {
        let parallel = [self.small, self.big].iter().all(|end| end.axis.dot(&bore.axis).abs() > NEARLY_PARALLEL);
        let at = self.frame.point(&bore.center);
        let radius = bore.main().radius;
        let (small, big) = (self.small.main().radius, self.big.main().radius);
        let on_end =
            at.xy().coords.norm() < small || (at.xy() - nalgebra::Point2::new(self.distance, 0.0)).norm() < big;
        if !parallel || on_end || bore.main().arc < 0.75 * TAU {
            return None;
        }
        let between = (0.0..=self.distance).contains(&at.x) && at.y.abs() + radius < eye / 2.0;
        (radius > PIVOT * big || (!between && radius > LEVER * small)).then(|| {
            format!("it has a third bore, of {:.2} mm, for a shaft of its own, as a lever has", bore.diameter() * 1e3)
        })
    }

    /// Whether the wall beyond an eye's bore, on the side that `outward` gives, is that of a ring.
    fn no_ring(&self, bore: &Bore, outward: f64) -> Option<String> {
        // A half bore without its cap has no wall there.
        if bore.main().arc < 0.75 * TAU {
            return None;
        }
        let walls = self.walls_beyond(bore, outward);
        let met = walls.iter().flatten().count();
        if (met as f64) < RING * walls.len() as f64 {
            return Some(format!("there is no ring of material round its bore of {:.2} mm", bore.diameter() * 1e3));
        }
        let mut reach: Vec<f64> = walls.into_iter().flatten().collect();
        crate::numeric::sort_few(&mut reach, f64::total_cmp);
        (reach[reach.len() / 2] > OVERHANG * bore.main().radius)
            .then(|| "material reaches far beyond its bores, so they do not span the part".into())
    }

    /// Where rays from a bore's axis leave its wall, m from the axis; `None` where one meets no wall.
    fn walls_beyond(&self, bore: &Bore, outward: f64) -> Vec<Option<f64>> {
        let radius = bore.main().radius;
        let center = self.frame.point(&bore.center);
        let seat = bore.main();
        // Off faces and middles, on which planes of facets lie.
        let levels = [0.21, 0.47, 0.83].map(|share| center.z + seat.from + share * (seat.to - seat.from));
        let rays: Vec<Vector2<f64>> = (-4..=4)
            .map(|k| 0.17 * f64::from(k) + 0.01)
            .map(|angle| Vector2::new(outward * libm::cos(angle), libm::sin(angle)))
            .collect();
        let mut met = vec![Vec::new(); levels.len() * rays.len()];
        for facet in 0..self.mesh.facets().len() {
            let corners = self.mesh.corners(facet).map(|corner| self.frame.point(&corner) - center.coords);
            for (row, level) in levels.iter().enumerate() {
                let Some(cut) = cut(&corners, level - center.z) else { continue };
                for (column, ray) in rays.iter().enumerate() {
                    if let Some(crossing) = crossing(&cut, ray) {
                        met[row * rays.len() + column].push(crossing);
                    }
                }
            }
        }
        met.into_iter().map(|crossings| left_at(crossings, radius)).collect()
    }
}

/// The chord of a facet in the plane at a height, with material on its left.
fn cut(corners: &[Point3<f64>; 3], height: f64) -> Option<[Vector2<f64>; 2]> {
    let above = corners.map(|corner| corner.z > height);
    if above[0] == above[1] && above[1] == above[2] {
        return None;
    }
    let at = |k: usize| {
        let (a, b) = (corners[k], corners[(k + 1) % 3]);
        a.xy().coords + (b.xy() - a.xy()) * ((height - a.z) / (b.z - a.z))
    };
    let rises = (0..3).find(|&k| !above[k] && above[(k + 1) % 3])?;
    let falls = (0..3).find(|&k| above[k] && !above[(k + 1) % 3])?;
    Some([at(falls), at(rises)])
}

/// Where a ray from the origin crosses a chord, and whether it enters material there.
fn crossing(chord: &[Vector2<f64>; 2], ray: &Vector2<f64>) -> Option<(f64, bool)> {
    let (a, b) = (ray.perp(&chord[0]), ray.perp(&chord[1]));
    if (a > 0.0) == (b > 0.0) {
        return None;
    }
    let along = ray.dot(&(chord[0] + (chord[1] - chord[0]) * (a / (a - b))));
    (along > 0.0).then_some((along, a > 0.0))
}

/// Where the material that begins at about `radius` ends; of overlapping shells the union's.
fn left_at(mut crossings: Vec<(f64, bool)>, radius: f64) -> Option<f64> {
    crate::numeric::sort_few(&mut crossings, |a, b| a.0.total_cmp(&b.0));
    let mut depth = 0;
    let mut begun = false;
    for (along, enters) in crossings {
        if !begun && along > 1.25 * radius {
            return None;
        }
        begun |= along > 0.75 * radius && enters;
        depth += if enters { 1 } else { -1 };
        if begun && depth <= 0 {
            return Some(along);
        }
    }
    None
}

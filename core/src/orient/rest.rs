use nalgebra::{Point3, Vector2, Vector3};

use crate::numeric::sort_few;

/// Turns before a part counts as rolling for ever.
const MOST_TURNS: usize = 60;

/// Corners this near the bed touch it, as a share of the part's size: above the rounding of 32-bit coordinates.
const TOUCHING: f64 = 1e-5;

/// How a part comes to rest on a bed when it is put down somehow and let go: it turns about what touches the bed until
/// its centre of mass lies over its footing. Every pose found so lies on a face of the part's convex hull.
pub(super) struct Settling<'a> {
    pub(super) corners: &'a [Point3<f64>],
    pub(super) center_of_mass: Point3<f64>,
    pub(super) size: f64,
}

impl Settling<'_> {
    /// The direction that points up when the part has come to rest, from one that points up as it is let go; `None` where
    /// it stands on less than a face.
    pub(super) fn at_rest(&self, up: &Vector3<f64>) -> Option<Vector3<f64>> {
        let mut up = *up;
        for _ in 0..MOST_TURNS {
            let touching = self.touching(&up);
            let (right, front) = across(&up);
            let on_bed = |at: &Point3<f64>| {
                let arm = at - self.center_of_mass;
                Vector2::new(right.dot(&arm), front.dot(&arm))
            };
            let outline = outline(touching.iter().map(|at| (on_bed(at), *at)).collect());
            let places: Vec<Vector2<f64>> = outline.iter().map(|(place, _)| *place).collect();
            let Some(nearest) = nearest_to_origin(&places) else { return normal(&outline, &up) };
            // Over this place it falls: toward the centre of mass.
            let fall = nearest.try_normalize(TOUCHING * self.size)?;
            let toward = right * fall.x + front * fall.y;
            up = self.turned(&up, &toward, touching.first()?)?;
        }
        None
    }

    /// Corners on the bed.
    fn touching(&self, up: &Vector3<f64>) -> Vec<Point3<f64>> {
        let lowest = self.corners.iter().map(|at| up.dot(&at.coords)).fold(f64::INFINITY, f64::min);
        let bed = lowest + TOUCHING * self.size;
        self.corners.iter().filter(|at| up.dot(&at.coords) <= bed).copied().collect()
    }

    /// Up after a turn in which `up` leans toward `toward`, until the next corner meets the bed.
    fn turned(&self, up: &Vector3<f64>, toward: &Vector3<f64>, foot: &Point3<f64>) -> Option<Vector3<f64>> {
        let touching = TOUCHING * self.size;
        let slope = |at: &Point3<f64>| {
            let arm = at - foot;
            let (height, ahead) = (up.dot(&arm), -toward.dot(&arm));
            // Corners on the bed turn with it or rise.
            (ahead > 0.0 && height > touching).then(|| height / ahead)
        };
        let least = self.corners.iter().filter_map(slope).fold(f64::INFINITY, f64::min);
        least.is_finite().then(|| (up + toward * least).normalize())
    }
}

/// Two directions square to one another and to `up`.
fn across(up: &Vector3<f64>) -> (Vector3<f64>, Vector3<f64>) {
    let mut helper = Vector3::zeros();
    helper[up.iamin()] = 1.0;
    let right = up.cross(&helper).normalize();
    (right, up.cross(&right))
}

/// A place on the bed with the corner that lies there.
type Foot = (Vector2<f64>, Point3<f64>);

/// Convex outline, counter-clockwise (Andrew's monotone chain).
fn outline(mut feet: Vec<Foot>) -> Vec<Foot> {
    sort_few(&mut feet, |a, b| a.0.x.total_cmp(&b.0.x).then(a.0.y.total_cmp(&b.0.y)));
    let half = |feet: &mut dyn Iterator<Item = &Foot>| {
        let mut chain: Vec<Foot> = Vec::new();
        for foot in feet {
            while let [.., a, b] = chain.as_slice()
                && (b.0 - a.0).perp(&(foot.0 - b.0)) <= 0.0
            {
                chain.pop();
            }
            chain.push(*foot);
        }
        chain.pop();
        chain
    };
    let mut chain = half(&mut feet.iter());
    chain.extend(half(&mut feet.iter().rev()));
    if chain.is_empty() {
        feet.truncate(1);
    } else {
        feet = chain;
    }
    feet
}

/// The place of a convex outline nearest to the origin; `None` if the origin lies inside.
fn nearest_to_origin(outline: &[Vector2<f64>]) -> Option<Vector2<f64>> {
    let mut inside = outline.len() > 2;
    let mut nearest: Option<Vector2<f64>> = None;
    for (k, from) in outline.iter().enumerate() {
        let side = outline[(k + 1) % outline.len()] - from;
        inside &= side.perp(&-from) >= 0.0;
        let length = side.norm_squared();
        let share = if length > 0.0 { (-from.dot(&side) / length).clamp(0.0, 1.0) } else { 0.0 };
        let place = from + side * share;
        if nearest.is_none_or(|nearest| place.norm_squared() < nearest.norm_squared()) {
            nearest = Some(place);
        }
    }
    nearest.filter(|_| !inside)
}

/// Normal of the face that an outline spans, upward.
fn normal(outline: &[Foot], up: &Vector3<f64>) -> Option<Vector3<f64>> {
    let first = outline.first()?.1;
    let fan = outline.windows(2).map(|pair| (pair[0].1 - first).cross(&(pair[1].1 - first)));
    let normal = fan.sum::<Vector3<f64>>().try_normalize(0.0)?;
    Some(if normal.dot(up) < 0.0 { -normal } else { normal })
}

use nalgebra::{Point3, Vector2};

use super::ball::thickness_at;
use super::sample::Sample;
use super::surface::Surface;
use crate::numeric::{map_in_order, sort_few};
use crate::part::{AxisRays, Piston, Span, disc_points};

/// Points of the map: each stands for two thousandths of the crown's area.
const POINTS: usize = 2000;

/// The free crown ends where it is this many times as thick as in its middle: there a wall or a boss carries it.
const HELD: f64 = 2.0;

/// The crown counts as thin as it is over this share of its free area: a single scratch does not make it thinner.
const THIN_SHARE: f64 = 0.05;

/// Material nearer below the crown than this share of its thickness is the same wall with a hole in it.
const GAP: f64 = 0.5;

/// A thin place of this share of the crown is the crown, and what is thicker stiffens it.
const MAIN: f64 = 0.3;

/// Thinner than this share of what is usual the crown is no plate there but a bridge over a pocket, a plate of its own.
const BRIDGE: f64 = 0.5;

/// Fewer lines than this are an edge that a line met by chance.
const LEAST_LINES: usize = 3;

/// Lines nearer to each other than this many times the root of their area are neighbours.
const NEIGHBOURS: f64 = 1.5;

/// How thick a crown is, over its disc.
#[derive(Debug, Clone)]
pub struct CrownMap {
    /// Samples of equal area.
    pub samples: Vec<CrownSample>,
    /// Radius of the disc of the free crown's area, m.
    pub free_radius: f64,
    /// Radius of the crown, m.
    pub radius: f64,
    /// Thickness that all but a twentieth of the free crown exceeds, m.
    pub thin: f64,
    /// Mean over the free crown, m.
    pub mean: f64,
    /// Thickness that only a twentieth of the free crown exceeds, m.
    pub thick: f64,
    /// Inscribed sphere that all but a twentieth of the free crown exceeds, m; the same as `thin` on an even crown.
    pub thin_sphere: f64,
    /// Difference of height over the free crown's upper face, m: of a dome, a bowl or valve pockets.
    pub relief: f64,
    /// Height of the underside where the crown is free, m over the pin axis; mean.
    pub underside: f64,
    /// Where the crown is less than half as thick as it usually is, the thinnest first.
    pub bridges: Vec<Bridge>,
    /// Holes through it, the largest first.
    pub holes: Vec<Hole>,
}

/// A thin place of a crown: a plate of its own in the rest.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Bridge {
    /// Least thickness, m.
    pub thickness: f64,
    /// Seen along the axis, m².
    pub area: f64,
    /// Its middle on the disc `(y, z)`, m.
    pub at: Vector2<f64>,
    /// Height of its upper face, m over the pin axis.
    pub top: f64,
}

impl Bridge {
    /// Radius of the disc of its area, m.
    pub fn radius(&self) -> f64 {
        (self.area / core::f64::consts::PI).sqrt()
    }
}

/// A hole through a crown.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Hole {
    /// Seen along the axis, m².
    pub area: f64,
    /// Its middle on the disc `(y, z)`, m.
    pub at: Vector2<f64>,
}

/// The crown at one point.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CrownSample {
    /// Place on the disc `(y, z)`, m.
    pub at: Vector2<f64>,
    /// Height of the upper face, m over the pin axis.
    pub top: f64,
    /// Material along the axis below it, m.
    pub thickness: f64,
    /// Whether no wall or boss holds the crown there.
    pub free: bool,
}

impl CrownMap {
    /// Measures a piston's crown; `None` where nothing is hollow over the pin.
    pub fn of(piston: &Piston, surface: &Surface<'_>) -> Option<Self> {
        let radius = piston.land_radius();
        // Over a ring groove the crown is a land, not a plate.
        let inner = piston.grooves.iter().map(|groove| groove.floor_radius).fold(radius, f64::min);
        let cell = core::f64::consts::PI * radius * radius / POINTS as f64;
        let reach = NEIGHBOURS * cell.sqrt();
        let CrownLines { met, through } = CrownLines::of(piston, inner);
        let usual = usual(&met, reach)?;
        let samples: Vec<CrownSample> = met.iter().map(|met| met.sample(usual)).collect();
        let thin: Vec<&CrownSample> = samples.iter().filter(|s| s.free && s.thickness < BRIDGE * usual).collect();
        let thin_at: Vec<Vector2<f64>> = thin.iter().map(|sample| sample.at).collect();
        let clusters = clusters(&thin_at, reach);
        let bridged: Vec<Vector2<f64>> = clusters.iter().flatten().map(|&k| thin_at[k]).collect();
        let free: Vec<&CrownSample> = samples.iter().filter(|s| s.free).collect();
        let plate: Vec<&CrownSample> = free.iter().copied().filter(|s| !bridged.contains(&s.at)).collect();
        let thickness = sorted(plate.iter().map(|sample| sample.thickness));
        // Beside a hole or pocket a sphere has less room than the plate is thick.
        let beside = |at: &Vector2<f64>| bridged.iter().chain(&through).any(|hole| (hole - at).norm() < usual);
        let spheres = map_in_order(met.len(), |k| {
            let Met { at, span, .. } = met[k];
            let sample = Sample { facet: span.facet_above, point: Point3::new(span.to, at.x, at.y) };
            let counts = samples[k].free && !beside(&at);
            counts.then(|| thickness_at(surface, &sample).map(|found| found.sphere)).flatten()
        });
        let spheres = sorted(spheres.into_iter().flatten());
        let count = plate.len().max(1) as f64;
        let (low, high) =
            free.iter().fold((f64::INFINITY, f64::NEG_INFINITY), |(l, h), s| (l.min(s.top), h.max(s.top)));
        let (freed, whole) = (free.len() + through.len(), samples.len() + through.len());
        Some(Self {
            free_radius: radius * (freed as f64 / whole.max(1) as f64).sqrt(),
            radius,
            thin: quantile(&thickness, THIN_SHARE)?,
            mean: thickness.iter().sum::<f64>() / count,
            thick: quantile(&thickness, 1.0 - THIN_SHARE)?,
            thin_sphere: quantile(&spheres, THIN_SHARE).or_else(|| quantile(&thickness, THIN_SHARE))?,
            relief: high - low,
            underside: plate.iter().map(|s| s.top - s.thickness).sum::<f64>() / count,
            bridges: bridges(&thin, &clusters, cell),
            holes: holes(&through, reach, cell),
            samples,
        })
    }

    /// Thickness the crown plate is taken with, m: the thinner of line and sphere.
    pub fn plate(&self) -> f64 {
        self.thin.min(self.thin_sphere)
    }
}

/// Lines along the axis through a crown.
struct CrownLines {
    met: Vec<Met>,
    /// Those within the ring grooves that pass a hole.
    through: Vec<Vector2<f64>>,
}

/// A line that meets the crown.
struct Met {
    at: Vector2<f64>,
    span: Span,
    /// From the underside to what lies below, m.
    gap: f64,
    /// Whether it ends over the pin bore, within the ring grooves.
    roof: bool,
}

impl CrownLines {
    fn of(piston: &Piston, inner: f64) -> Self {
        // The outermost facets are chords.
        let points = disc_points(0.995 * piston.land_radius(), POINTS);
        let rays = AxisRays::new(&piston.mesh, &points);
        let over_pin = piston.pin.radius;
        let mut lines = Self { met: Vec::new(), through: Vec::new() };
        for ((at, spans), told) in points.iter().zip(rays.spans()).zip(rays.told()) {
            let within = at.norm() < inner;
            match spans.first().filter(|span| span.to > over_pin) {
                Some(span) => {
                    let gap = spans.get(1).map_or(f64::INFINITY, |next| span.from - next.to);
                    lines.met.push(Met { at: *at, span: *span, gap, roof: within && span.from > over_pin });
                }
                None if *told && within => lines.through.push(*at),
                None => {}
            }
        }
        lines
    }
}

impl Met {
    fn thickness(&self) -> f64 {
        self.span.to - self.span.from
    }

    fn sample(&self, usual: f64) -> CrownSample {
        let thickness = self.thickness();
        let free = self.roof && thickness < HELD * usual && self.gap > GAP * usual;
        CrownSample { at: self.at, top: self.span.to, thickness, free }
    }
}

/// How thick the crown is for the most part: in its middle value, or in that of a thinner place so large that it is the plate.
fn usual(met: &[Met], reach: f64) -> Option<f64> {
    let middle = |list: Vec<f64>| list.get(list.len() / 2).copied();
    let roof: Vec<&Met> = met.iter().filter(|met| met.roof).collect();
    let usual = middle(sorted(roof.iter().map(|met| met.thickness())))?;
    let thin: Vec<&Met> = roof.iter().copied().filter(|met| met.thickness() < BRIDGE * usual).collect();
    let places: Vec<Vector2<f64>> = thin.iter().map(|met| met.at).collect();
    let mut largest = clusters(&places, reach);
    sort_few(&mut largest, |a, b| b.len().cmp(&a.len()));
    let main = largest.first().filter(|cluster| cluster.len() as f64 > MAIN * roof.len() as f64);
    main.map_or(Some(usual), |cluster| middle(sorted(cluster.iter().map(|&k| thin[k].thickness()))))
}

fn bridges(thin: &[&CrownSample], clusters: &[Vec<usize>], cell: f64) -> Vec<Bridge> {
    let mut found: Vec<Bridge> = clusters
        .iter()
        .map(|cluster| {
            let count = cluster.len() as f64;
            Bridge {
                thickness: cluster.iter().map(|&k| thin[k].thickness).fold(f64::INFINITY, f64::min),
                area: count * cell,
                at: cluster.iter().map(|&k| thin[k].at).sum::<Vector2<f64>>() / count,
                top: cluster.iter().map(|&k| thin[k].top).sum::<f64>() / count,
            }
        })
        .collect();
    sort_few(&mut found, |a, b| a.thickness.total_cmp(&b.thickness));
    found
}

fn holes(through: &[Vector2<f64>], reach: f64, cell: f64) -> Vec<Hole> {
    let mut found: Vec<Hole> = clusters(through, reach)
        .iter()
        .map(|cluster| {
            let count = cluster.len() as f64;
            Hole { area: count * cell, at: cluster.iter().map(|&k| through[k]).sum::<Vector2<f64>>() / count }
        })
        .collect();
    sort_few(&mut found, |a, b| b.area.total_cmp(&a.area));
    found
}

/// Points that hang together, by their numbers; those of too few lines are left out.
fn clusters(points: &[Vector2<f64>], reach: f64) -> Vec<Vec<usize>> {
    let mut left: Vec<usize> = (0..points.len()).collect();
    let mut found = Vec::new();
    while let Some(first) = left.pop() {
        let mut cluster = vec![first];
        let mut looked = 0;
        while looked < cluster.len() {
            let from = points[cluster[looked]];
            left.retain(|&other| {
                let near = (points[other] - from).norm() <= reach;
                if near {
                    cluster.push(other);
                }
                !near
            });
            looked += 1;
        }
        found.push(cluster);
    }
    found.retain(|cluster| cluster.len() >= LEAST_LINES);
    found
}

fn sorted(values: impl Iterator<Item = f64>) -> Vec<f64> {
    let mut list: Vec<f64> = values.collect();
    list.sort_by(f64::total_cmp);
    list
}

fn quantile(sorted: &[f64], share: f64) -> Option<f64> {
    sorted.get(((sorted.len() as f64 * share) as usize).min(sorted.len().saturating_sub(1))).copied()
}

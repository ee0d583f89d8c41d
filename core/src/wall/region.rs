use crate::few::sort_few;
use nalgebra::{Point3, Vector3};

use super::facets::FacetThickness;
use super::limit::{ThinReason, WallLimits};
use super::surface::Surface;

/// Walls whose thickness differs by less than this share are even.
const EVEN: f64 = 1e-3;

/// A connected wall that is too thin.
#[derive(Debug, Clone, PartialEq)]
pub struct ThinRegion {
    /// Why.
    pub reason: ThinReason,
    /// Thickness that would do where it is thinnest, m.
    pub limit: f64,
    /// Least thickness, m.
    pub least_thickness: f64,
    /// The middle of the wall where it is thinnest, m; in the midst of an even stretch.
    pub thinnest: Point3<f64>,
    /// Unit vector through the wall there, out of its face.
    pub across: Vector3<f64>,
    /// Centroid of its faces, m.
    pub centroid: Point3<f64>,
    /// Area as seen from one side, m².
    pub area: f64,
    /// Its facets on both sides, rising.
    pub facets: Vec<u32>,
}

/// Connected regions of the walls that are below a limit, the gravest reason first and the thinnest first within it.
///
/// `thickness` is that of [`super::facet_thickness`]. Every facet counts for its gravest reason only, so a pocket in a
/// wall without core is a region of its own. Facets belong together when they share an edge or lie on the two sides of
/// one wall. `demand` has the stress of every facet over what is borne there; empty where no load is known.
pub fn thin_regions(
    surface: &Surface<'_>,
    thickness: &[Option<FacetThickness>],
    limits: &WallLimits,
    demand: &[f64],
) -> Vec<ThinRegion> {
    let flags: Vec<Option<(ThinReason, f64)>> = thickness
        .iter()
        .zip(&surface.facets)
        .enumerate()
        .map(|(number, (found, facet))| {
            let demand = demand.get(number).copied().unwrap_or(0.0);
            found.and_then(|f| limits.reason(f.thickness.sphere, &facet.normal, demand))
        })
        .collect();
    let mut regions: Vec<ThinRegion> = patches(surface, thickness, &flags)
        .into_iter()
        .filter_map(|patch| region(surface, thickness, &flags, patch))
        .filter(|region| region.area >= limits.least_area)
        .collect();
    sort_few(&mut regions, |a, b| {
        a.reason.cmp(&b.reason).then(a.least_thickness.total_cmp(&b.least_thickness)).then(a.facets.cmp(&b.facets))
    });
    regions
}

/// Facet numbers of each patch, rising.
fn patches(
    surface: &Surface<'_>,
    thickness: &[Option<FacetThickness>],
    flags: &[Option<(ThinReason, f64)>],
) -> Vec<Vec<u32>> {
    let reason = |facet: usize| flags[facet].map(|(reason, _)| reason);
    let flagged = || (0..flags.len()).filter(|&facet| flags[facet].is_some());
    let mut sets = Sets::new(flags.len());
    for facet in flagged() {
        let beside = (0..3).map(|k| surface.mesh.opposite(3 * facet + k) / 3);
        let across = thickness[facet].map(|found| found.thickness.facet_across);
        for other in beside.chain(across) {
            if reason(other) == reason(facet) {
                sets.unite(facet, other);
            }
        }
    }
    let mut patches: Vec<Vec<u32>> = Vec::new();
    let mut number = vec![usize::MAX; flags.len()];
    for facet in flagged() {
        let root = sets.root(facet);
        if number[root] == usize::MAX {
            number[root] = patches.len();
            patches.push(Vec::new());
        }
        patches[number[root]].push(facet as u32);
    }
    patches
}

fn region(
    surface: &Surface<'_>,
    thickness: &[Option<FacetThickness>],
    flags: &[Option<(ThinReason, f64)>],
    facets: Vec<u32>,
) -> Option<ThinRegion> {
    let measured = || facets.iter().filter_map(|&f| thickness[f as usize].map(|found| (f as usize, found)));
    let least_thickness = measured().map(|(_, found)| found.thickness.sphere).fold(f64::INFINITY, f64::min);
    // Of an even wall, its middle is named and not the facet that rounding makes the thinnest.
    let even = || measured().filter(|(_, found)| found.thickness.sphere <= least_thickness * (1.0 + EVEN));
    let (thinnest, found) = nearest_to_middle(surface, even)?;
    let (reason, limit) = flags[thinnest]?;
    let across = surface.facets[thinnest].normal;
    let (mut front, mut back) = (0.0, 0.0);
    let mut moment = Vector3::zeros();
    for &f in &facets {
        let facet = &surface.facets[f as usize];
        *(if facet.normal.dot(&across) >= 0.0 { &mut front } else { &mut back }) += facet.area;
        moment += facet.centroid().coords * facet.area;
    }
    Some(ThinRegion {
        reason,
        limit,
        least_thickness,
        thinnest: nalgebra::center(&found.point, &found.thickness.across),
        across,
        centroid: Point3::from(moment / (front + back)),
        // Of a wall seen from one side only, the other may have been too thick or too small to count.
        area: f64::max(front, back),
        facets,
    })
}

/// Of the facets given, the one nearest to their common centroid.
fn nearest_to_middle<I: Iterator<Item = (usize, FacetThickness)>>(
    surface: &Surface<'_>,
    facets: impl Fn() -> I,
) -> Option<(usize, FacetThickness)> {
    let (area, moment) = facets().fold((0.0, Vector3::zeros()), |(area, moment), (f, found)| {
        let facet = &surface.facets[f];
        (area + facet.area, moment + found.point.coords * facet.area)
    });
    let middle = Point3::from(moment / area);
    facets().min_by(|a, b| (a.1.point - middle).norm().total_cmp(&(b.1.point - middle).norm()))
}

/// Disjoint sets of facets; the lowest number stands for its set.
struct Sets {
    parent: Vec<u32>,
}

impl Sets {
    fn new(count: usize) -> Self {
        Self { parent: (0..count as u32).collect() }
    }

    fn root(&mut self, mut of: usize) -> usize {
        while self.parent[of] as usize != of {
            self.parent[of] = self.parent[self.parent[of] as usize];
            of = self.parent[of] as usize;
        }
        of
    }

    fn unite(&mut self, a: usize, b: usize) {
        let (a, b) = (self.root(a), self.root(b));
        self.parent[a.max(b)] = a.min(b) as u32;
    }
}

use crate::numeric::sort_few;
use nalgebra::{Point3, Vector3};

use super::ball::WallThickness;
use super::knife::Knife;
use super::limit::{ThinReason, WallLimits};
use super::map::{MeasuredPiece, WallMap};
use super::neighbours::Neighbours;
use super::surface::Surface;

/// Walls whose thickness differs by less than this share are even.
const EVEN: f64 = 1e-3;

/// A region that is larger than its edge explains by this factor is a thin wall that ends in an edge: sides may be curved.
const MOST_OF_EDGE: f64 = 2.0;

/// A connected wall that is too thin.
#[derive(Debug, Clone, PartialEq)]
pub struct ThinRegion {
    /// Why.
    pub reason: ThinReason,
    /// Thickness that would do where it is thinnest, m.
    pub limit: f64,
    /// Least thickness, m; zero where it runs out in an edge.
    pub least_thickness: f64,
    /// The middle of the wall where it is thinnest, m; in the midst of an even stretch or of the edge.
    pub thinnest: Point3<f64>,
    /// Unit vector through the wall there, out of its face.
    pub across: Vector3<f64>,
    /// Centroid of its faces, m.
    pub centroid: Point3<f64>,
    /// Area as seen from one side, m².
    pub area: f64,
    /// The edge in which its two sides meet, where that is why it is thin.
    pub edge: Option<SharpEdge>,
    /// Its facets on both sides, rising.
    pub facets: Vec<u32>,
}

/// A knife edge: two sides that close in by less than 28 degrees until they meet.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SharpEdge {
    /// Along the edge, m.
    pub length: f64,
    /// How far back from the edge the wall is too thin, m: the region's area over the edge's length.
    pub depth: f64,
}

/// A piece below a limit.
struct Flagged<'a> {
    measured: &'a MeasuredPiece,
    thickness: WallThickness,
    reason: ThinReason,
    limit: f64,
}

/// Connected regions of the walls that are below a limit, the gravest reason first and the thinnest first within it.
///
/// Every place counts for its gravest reason only, so a pocket in a wall without core is a region of its own. Places
/// belong together that lie beside each other or on the two sides of one wall; what lies nearer together than the part is
/// measured is not told apart. `demand` has the stress of every facet over what is borne there; empty where no load is
/// known.
pub fn thin_regions(surface: &Surface<'_>, map: &WallMap, limits: &WallLimits, demand: &[f64]) -> Vec<ThinRegion> {
    let flagged: Vec<Flagged<'_>> = map
        .pieces
        .iter()
        .filter_map(|measured| {
            let (thickness, facet) = (measured.thickness?, measured.piece.facet);
            let demand = demand.get(facet).copied().unwrap_or(0.0);
            let (reason, limit) = limits.reason(thickness.sphere, &surface.facets[facet].normal, demand)?;
            Some(Flagged { measured, thickness, reason, limit })
        })
        .collect();
    let mut regions: Vec<ThinRegion> = patches(surface, map.spacing, &flagged)
        .into_iter()
        .filter_map(|patch| region(surface, &flagged, &patch))
        .filter(|region| region.area >= limits.least_area)
        .collect();
    sort_few(&mut regions, |a, b| {
        a.reason.cmp(&b.reason).then(a.least_thickness.total_cmp(&b.least_thickness)).then(a.facets.cmp(&b.facets))
    });
    regions
}

/// Numbers of the pieces of each patch, rising.
fn patches(surface: &Surface<'_>, spacing: f64, flagged: &[Flagged<'_>]) -> Vec<Vec<usize>> {
    let mut sets = Sets::new(flagged.len());
    let mut unite = |a: usize, b: usize| {
        if flagged[a].reason == flagged[b].reason {
            sets.unite(a, b);
        }
    };
    // Pieces are listed facet after facet.
    let of_facet = |facet: usize| {
        let start = flagged.partition_point(|piece| piece.measured.piece.facet < facet);
        (start..flagged.len()).take_while(move |&k| flagged[k].measured.piece.facet == facet)
    };
    for (number, Flagged { measured: MeasuredPiece { piece, .. }, thickness, .. }) in flagged.iter().enumerate() {
        let beside = (0..3).map(|k| surface.mesh.opposite(3 * piece.facet + k) / 3);
        for other in beside.chain([piece.facet]).flat_map(of_facet) {
            let near = &flagged[other].measured.piece;
            if (near.point - piece.point).norm() <= piece.reach + near.reach {
                unite(number, other);
            }
        }
        for other in of_facet(thickness.facet_across) {
            let near = &flagged[other].measured.piece;
            if (near.point - thickness.across).norm() <= near.reach + spacing {
                unite(number, other);
            }
        }
    }
    let points: Vec<Point3<f64>> = flagged.iter().map(|piece| piece.measured.piece.point).collect();
    Neighbours::new(&points, LINKED * spacing).each(|a, b| {
        let [one, other] = [a, b].map(|k| surface.facets[flagged[k].measured.piece.facet].normal);
        if one.dot(&other).abs() >= ALONG {
            unite(a, b);
        }
    });
    let mut patches: Vec<Vec<usize>> = Vec::new();
    let mut number = vec![usize::MAX; flagged.len()];
    for piece in 0..flagged.len() {
        let root = sets.root(piece);
        if number[root] == usize::MAX {
            number[root] = patches.len();
            patches.push(Vec::new());
        }
        patches[number[root]].push(piece);
    }
    patches
}

/// Pieces this many spacings apart, that lie along each other or back to back, belong together: those of even triangles
/// that share a corner are so near.
const LINKED: f64 = 1.5;

/// Cosine of 30 degrees: pieces lie along each other if their normals differ by less. A flange beside a web does not.
const ALONG: f64 = 0.866_025_403_784_438_6;

fn region(surface: &Surface<'_>, flagged: &[Flagged<'_>], patch: &[usize]) -> Option<ThinRegion> {
    let pieces = || patch.iter().map(|&k| &flagged[k]);
    let mut facets: Vec<u32> = pieces().map(|piece| piece.measured.piece.facet as u32).collect();
    facets.dedup();
    let knife = Knife::of(surface, &facets, pieces().next()?.limit);
    let least = pieces().map(|piece| piece.thickness.sphere).fold(f64::INFINITY, f64::min);
    // Of an even wall, its middle is named and not the piece that rounding makes the thinnest.
    let even = || pieces().filter(|piece| piece.thickness.sphere <= least * (1.0 + EVEN));
    let found = nearest_to_middle(even)?;
    let across = surface.facets[found.measured.piece.facet].normal;
    let (mut front, mut back) = (0.0, 0.0);
    let mut moment = Vector3::zeros();
    for Flagged { measured: MeasuredPiece { piece, .. }, .. } in pieces() {
        let normal = &surface.facets[piece.facet].normal;
        *(if normal.dot(&across) >= 0.0 { &mut front } else { &mut back }) += piece.area;
        moment += piece.point.coords * piece.area;
    }
    // Of a wall seen from one side only, the other may have been too thick or too small to count.
    let area = f64::max(front, back);
    let knife = knife.filter(|knife| area <= MOST_OF_EDGE * knife.area);
    let middle = nalgebra::center(&found.measured.piece.point, &found.thickness.across);
    Some(ThinRegion {
        reason: found.reason,
        limit: found.limit,
        least_thickness: if knife.is_some() { 0.0 } else { least },
        thinnest: knife.as_ref().map_or(middle, |knife| knife.middle),
        across,
        centroid: Point3::from(moment / (front + back)),
        area,
        edge: knife.map(|knife| SharpEdge { length: knife.length, depth: area / knife.length }),
        facets,
    })
}

/// Of the pieces given, the one nearest to their common centroid.
fn nearest_to_middle<'a, I: Iterator<Item = &'a Flagged<'a>>>(pieces: impl Fn() -> I) -> Option<&'a Flagged<'a>> {
    let (area, moment) = pieces().fold((0.0, Vector3::zeros()), |(area, moment), piece| {
        let MeasuredPiece { piece, .. } = piece.measured;
        (area + piece.area, moment + piece.point.coords * piece.area)
    });
    let middle = Point3::from(moment / area);
    let distance = |piece: &Flagged<'_>| (piece.measured.piece.point - middle).norm();
    pieces().min_by(|a, b| distance(a).total_cmp(&distance(b)))
}

/// Disjoint sets of pieces; the lowest number stands for its set.
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

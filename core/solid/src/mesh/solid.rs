use nalgebra::{Point3, Vector3};
use parry3d::math::Vector;
use parry3d::shape::Triangle;

use super::edges::Pairing;
use super::error::MeshError;
use super::mass::MassProperties;
use super::place::Place;
use super::stl::{Soup, Triangles};
use super::weld::{Welded, join_near, weld};
use crate::mesh::{cap, edges, touching, turn};
use crate::units::LengthUnit;

/// A closed, consistently oriented triangle surface in metres.
#[derive(Debug, Clone)]
pub struct Mesh {
    points: Vec<Point3<f64>>,
    facets: Vec<[u32; 3]>,
    opposite: Vec<u32>,
    step: f64,
}

/// What was done to a file before it was a closed surface.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq)]
pub struct Mended {
    /// Facets in the file.
    pub facets_in_file: usize,
    /// Facets left out because two corners coincide.
    pub degenerate_dropped: usize,
    /// Facets that were the wrong way round.
    pub facets_turned: usize,
    /// Holes closed with new facets.
    pub holes_capped: usize,
    /// Whether corners had to be rounded to a grid to meet.
    pub corners_rounded: bool,
}

/// Corners within this share of the greatest extent are joined when exact welding leaves the surface open.
const REACH_SHARE: f32 = 2e-6;

impl Mesh {
    /// Reads an STL file whose coordinates are in `unit`.
    pub fn from_stl(bytes: &[u8], unit: LengthUnit) -> Result<(Self, Mended), MeshError> {
        Self::of(&Soup::read(bytes)?, unit)
    }

    /// The same of a surface in memory.
    pub fn from_numbered(triangles: Triangles<'_>, unit: LengthUnit) -> Result<(Self, Mended), MeshError> {
        Self::of(&Soup::numbered(triangles)?, unit)
    }

    fn of(soup: &Soup<'_>, unit: LengthUnit) -> Result<(Self, Mended), MeshError> {
        let mut mended = Mended { facets_in_file: soup.len(), ..Mended::default() };
        let mut welded = weld(soup)?;
        let place = Placed { unit, origin: soup.origin() };
        // Far from the origin the last digit of a coordinate is a longer step.
        let digit = welded.points.iter().flatten().fold(0.0, |most: f32, c| most.max(c.abs())) * f32::EPSILON;
        let mut pairing =
            paired(&welded.facets, welded.points.len(), |id| place.in_metres(&welded.points[id as usize]));
        if !pairing.boundary.is_empty() || !pairing.conflicting.is_empty() {
            let reach = (extent(&welded.points) * REACH_SHARE).max(2.0 * digit);
            let rounded = join_near(&welded, &pairing.loose_corners(&welded.facets), reach);
            let again =
                paired(&rounded.facets, rounded.points.len(), |id| place.in_metres(&rounded.points[id as usize]));
            if again.faults() < pairing.faults() {
                mended.corners_rounded = true;
                welded = rounded;
                pairing = again;
            }
        }
        mended.degenerate_dropped = welded.degenerate;
        let mesh = Self::close(welded, pairing, place, &mut mended)?;
        Ok((Self { step: f64::from(digit) * unit.metres(), ..mesh }, mended))
    }

    /// The same facets with every corner's z times a factor above zero of its place.
    #[must_use]
    pub fn stretched_along_z(&self, factor: impl Fn(&Point3<f64>) -> f64) -> Self {
        let points = self.points.iter().map(|point| Point3::new(point.x, point.y, point.z * factor(point))).collect();
        Self { points, facets: self.facets.clone(), opposite: self.opposite.clone(), step: self.step }
    }

    /// Builds a mesh from corner points and facets that already form closed shells.
    pub fn from_facets(points: Vec<Point3<f64>>, facets: Vec<[u32; 3]>) -> Result<Self, MeshError> {
        if facets.is_empty() {
            return Err(MeshError::Empty);
        }
        if let Some(facet) = facets.iter().position(|f| f.iter().any(|&p| p as usize >= points.len())) {
            return Err(MeshError::BadCoordinate { facet });
        }
        let pairing = paired(&facets, points.len(), |id| points[id as usize]);
        refuse_faults(&facets, &pairing, &points)?;
        Ok(Self { points, facets, opposite: pairing.opposite, step: 0.0 })
    }

    fn close(welded: Welded, mut pairing: Pairing, place: Placed, mended: &mut Mended) -> Result<Self, MeshError> {
        let Welded { points, mut facets, .. } = welded;
        let points: Vec<_> = points.iter().map(|p| place.in_metres(p)).collect();
        if facets.is_empty() {
            return Err(MeshError::Empty);
        }
        if !pairing.alike.is_empty()
            && pairing.conflicting.is_empty()
            && let Some(count) = turn::agree(&mut facets, &pairing)
        {
            pairing = paired(&facets, points.len(), |id| points[id as usize]);
            mended.facets_turned = count;
        }
        if !pairing.boundary.is_empty() && pairing.conflicting.is_empty() {
            let (low, high) = bounds(&points);
            if let Some((holes, caps)) = cap::caps(&facets, &pairing.boundary, &points, (high - low).norm()) {
                facets.extend(caps);
                pairing = paired(&facets, points.len(), |id| points[id as usize]);
                mended.holes_capped = holes;
            }
        }
        refuse_faults(&facets, &pairing, &points)?;
        Ok(Self { points, facets, opposite: pairing.opposite, step: 0.0 })
    }

    /// Step between neighbouring coordinates of the file the mesh was read from, where they are largest, m; 0 of one made
    /// here.
    #[inline]
    pub fn step(&self) -> f64 {
        self.step
    }

    /// Corner points, m.
    #[inline]
    pub fn points(&self) -> &[Point3<f64>] {
        &self.points
    }

    /// Corner numbers of each facet, counter-clockwise seen from outside.
    #[inline]
    pub fn facets(&self) -> &[[u32; 3]] {
        &self.facets
    }

    /// Corner points of facet `index`.
    #[inline]
    pub fn corners(&self, index: usize) -> [Point3<f64>; 3] {
        self.facets[index].map(|id| self.points[id as usize])
    }

    /// Centroid of facet `index`.
    #[inline]
    pub fn middle(&self, index: usize) -> Point3<f64> {
        let [a, b, c] = self.corners(index);
        Point3::from((a.coords + b.coords + c.coords) / 3.0)
    }

    /// Facet `index` for the geometry library.
    #[inline]
    pub fn triangle(&self, index: usize) -> Triangle {
        let [a, b, c] = self.corners(index).map(|p| Vector::new(p.x, p.y, p.z));
        Triangle::new(a, b, c)
    }

    /// Twice the area of facet `index` along its outward normal.
    #[inline]
    pub fn area_vector(&self, index: usize) -> Vector3<f64> {
        let [a, b, c] = self.corners(index);
        (b - a).cross(&(c - a))
    }

    /// Several meshes as one, their facets one after another.
    pub fn together(meshes: &[&Self]) -> Self {
        let mut all = Self { points: Vec::new(), facets: Vec::new(), opposite: Vec::new(), step: 0.0 };
        for mesh in meshes {
            all.step = all.step.max(mesh.step);
            let (points, edges) = (all.points.len() as u32, 3 * all.facets.len() as u32);
            all.points.extend_from_slice(&mesh.points);
            all.facets.extend(mesh.facets.iter().map(|facet| facet.map(|corner| corner + points)));
            all.opposite.extend(mesh.opposite.iter().map(|edge| edge + edges));
            all.step = all.step.max(mesh.step);
        }
        all
    }

    /// Half-edge across half-edge `3 * facet + k`, which runs from corner `k` to the next.
    #[inline]
    pub fn opposite(&self, half_edge: usize) -> usize {
        self.opposite[half_edge] as usize
    }

    /// Lowest and highest corner of the box round all points.
    pub fn bounds(&self) -> (Point3<f64>, Point3<f64>) {
        bounds(&self.points)
    }

    /// Greatest length, m, whichever way the part lies: from the point farthest from the middle of all to the one farthest
    /// from that.
    pub fn length(&self) -> f64 {
        let middle = self.points.iter().fold(Vector3::zeros(), |sum, p| sum + p.coords) / self.points.len() as f64;
        let farthest = |from: Point3<f64>| {
            self.points.iter().fold((from, 0.0), |most, p| {
                let apart = (p - from).norm();
                if apart > most.1 { (*p, apart) } else { most }
            })
        };
        let (end, _) = farthest(Point3::from(middle));
        farthest(end).1
    }

    /// Volume, centroid and second moments.
    pub fn mass_properties(&self) -> MassProperties {
        let (low, high) = self.bounds();
        MassProperties::of((0..self.facets.len()).map(|f| self.corners(f)), nalgebra::center(&low, &high))
    }

    /// The same surface with every point moved by `motion`, which must keep handedness.
    #[must_use]
    pub fn moved(mut self, motion: &nalgebra::Isometry3<f64>) -> Self {
        for point in &mut self.points {
            *point = motion * *point;
        }
        self
    }

    /// The facets marked by `keep`, with unused points left out. `keep` must take whole shells.
    pub(super) fn subset(&self, keep: impl Fn(usize) -> bool) -> Self {
        let mut renumbered = vec![u32::MAX; self.points.len()];
        let mut points = Vec::new();
        let mut facets = Vec::new();
        let mut new_number = vec![u32::MAX; self.facets.len()];
        for (index, facet) in self.facets.iter().enumerate() {
            if !keep(index) {
                continue;
            }
            new_number[index] = facets.len() as u32;
            facets.push(facet.map(|id| {
                let fresh = &mut renumbered[id as usize];
                if *fresh == u32::MAX {
                    *fresh = points.len() as u32;
                    points.push(self.points[id as usize]);
                }
                *fresh
            }));
        }
        let opposite = (0..self.facets.len())
            .filter(|&f| new_number[f] != u32::MAX)
            .flat_map(|f| (0..3).map(move |k| 3 * f + k))
            .map(|h| {
                let across = self.opposite[h];
                3 * new_number[across as usize / 3] + across % 3
            })
            .collect();
        Self { points, facets, opposite, step: self.step }
    }
}

/// What coordinates of a file are counted in and from.
#[derive(Clone, Copy)]
struct Placed {
    unit: LengthUnit,
    /// In file units.
    origin: [f64; 3],
}

impl Placed {
    fn in_metres(&self, corner: &[f32; 3]) -> Point3<f64> {
        Point3::from([0, 1, 2].map(|axis| (f64::from(corner[axis]) + self.origin[axis]) * self.unit.metres()))
    }
}

/// Half-edges with their partners, solids that touch face on face apart.
fn paired(facets: &[[u32; 3]], count: usize, point: impl Fn(u32) -> Point3<f64>) -> Pairing {
    let mut pairing = edges::pair(facets, count);
    touching::part(facets, &point, &mut pairing);
    pairing
}

fn bounds(points: &[Point3<f64>]) -> (Point3<f64>, Point3<f64>) {
    points.iter().fold((Point3::from([f64::INFINITY; 3]), Point3::from([f64::NEG_INFINITY; 3])), |(low, high), p| {
        (low.inf(p), high.sup(p))
    })
}

fn extent(points: &[[f32; 3]]) -> f32 {
    let mut greatest = 0.0_f32;
    for axis in 0..3 {
        let (low, high) = points
            .iter()
            .fold((f32::INFINITY, f32::NEG_INFINITY), |(low, high), p| (low.min(p[axis]), high.max(p[axis])));
        greatest = greatest.max(high - low);
    }
    greatest
}

fn refuse_faults(facets: &[[u32; 3]], pairing: &Pairing, points: &[Point3<f64>]) -> Result<(), MeshError> {
    let place = |half_edge: u32| Place::from(&points[edges::ends(facets, half_edge).0 as usize]);
    let alike = pairing.alike.iter().map(|(first, _)| first);
    let wrong: Vec<u32> = pairing.conflicting.iter().chain(alike).copied().collect();
    if let Some(&first) = wrong.first() {
        let ends = |&half_edge: &u32| {
            let (from, to) = edges::ends(facets, half_edge);
            (from.min(to), from.max(to))
        };
        let mut distinct: Vec<(u32, u32)> = wrong.iter().map(ends).collect();
        distinct.sort_unstable();
        distinct.dedup();
        return Err(MeshError::NonManifold { edges: distinct.len(), place: place(first) });
    }
    if let Some(&first) = pairing.boundary.first() {
        return Err(MeshError::Open { edges: pairing.boundary.len(), place: place(first) });
    }
    Ok(())
}

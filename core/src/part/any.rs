use std::collections::BTreeSet;

use nalgebra::{Point3, Vector3};

use super::bore::Bore;
use super::error::PartError;
use super::frame::Frame;
use super::left_out::{LeftOut, Volumes};
use super::search::BoreSearch;
use crate::mesh::{Body, Mesh, Place};
use crate::numeric::sort_few;

/// A part of any kind: its mesh as it is in the file, with the bores and flat faces by which places on it are found.
#[derive(Debug, Clone)]
pub struct AnyPart {
    /// Its surface, coordinates of the file.
    pub mesh: Mesh,
    /// The frame of the file.
    pub frame: Frame,
    /// Its bores, the widest first.
    pub bores: Vec<Bore>,
    /// Its flat faces, the largest first.
    pub faces: Vec<FlatFace>,
    /// Whether it is several shells that overlap or touch.
    pub overlapping: bool,
    /// Closed voids inside.
    pub voids: usize,
    /// Bodies of the file that are not part of it.
    pub left_out: Vec<LeftOut>,
}

/// Facets that join in one plane.
#[derive(Debug, Clone, PartialEq)]
pub struct FlatFace {
    /// Its facets.
    pub facets: Vec<usize>,
    /// m².
    pub area: f64,
    /// Middle of its area, m.
    pub center: Point3<f64>,
    /// Outward unit vector.
    pub normal: Vector3<f64>,
}

/// Facets that turn by less than this from the first one of a face lie in its plane, rad: rounding turns small ones so far.
const FLAT: f64 = 1.0 / 180.0 * core::f64::consts::PI;

/// Faces below this share of the whole surface are edges and facets of curves.
const LEAST: f64 = 2e-3;

/// Most flat faces kept.
const MOST: usize = 60;

impl AnyPart {
    /// One body of a file.
    ///
    /// # Errors
    ///
    /// Where there is none of that number.
    pub(super) fn of(bodies: &[Body], number: usize) -> Result<Self, PartError> {
        let body = bodies.get(number).ok_or(PartError::NoSuchBody {
            number: number + 1,
            count: bodies.len(),
            list: String::new(),
        })?;
        let frame = Frame::new(Point3::origin(), Vector3::x(), Vector3::z()).ok_or(PartError::NoPinAxis)?;
        let mesh = body.mesh.clone();
        let mut bores = BoreSearch::new(&mesh).all();
        sort_few(&mut bores, |a, b| b.diameter().total_cmp(&a.diameter()));
        let faces = flat_faces(&mesh);
        let left_out = Volumes::of(bodies).without(number);
        Ok(Self { mesh, frame, bores, faces, overlapping: body.outer_shells > 1, voids: body.voids, left_out })
    }

    /// Flat faces in words, those nearest to a point first.
    pub fn faces_near(&self, point: &Point3<f64>) -> String {
        let mut faces: Vec<&FlatFace> = self.faces.iter().collect();
        sort_few(&mut faces, |a, b| (a.center - point).norm().total_cmp(&(b.center - point).norm()));
        let told: Vec<String> = faces.iter().take(3).map(|face| face.words()).collect();
        if told.is_empty() {
            "the part has no flat face".into()
        } else {
            format!("flat faces near it: {}", told.join("; "))
        }
    }

    /// Its bores in words, those nearest to a point first where there is one.
    pub fn bores_near(&self, point: Option<&Point3<f64>>) -> String {
        let mut bores: Vec<&Bore> = self.bores.iter().collect();
        if let Some(point) = point {
            sort_few(&mut bores, |a, b| (a.center - point).norm().total_cmp(&(b.center - point).norm()));
        }
        let told: Vec<String> = bores.iter().take(4).map(|bore| bore_words(bore)).collect();
        if told.is_empty() { "the part has no bore".into() } else { format!("its bores: {}", told.join("; ")) }
    }
}

/// A bore in words.
pub(crate) fn bore_words(bore: &Bore) -> String {
    format!("{:.2} mm wide at {}", bore.diameter() * 1e3, Place::from(&bore.center))
}

impl FlatFace {
    /// It in words.
    pub fn words(&self) -> String {
        let [x, y, z] = self.normal.map(|c| (c * 100.0).round() / 100.0 + 0.0).into();
        format!("{:.1} mm² at {}, facing {x}, {y}, {z}", self.area * 1e6, Place::from(&self.center))
    }
}

/// Facets joined to `first` by their edges that turn from `normal` by no more than `within`, rad; those of `taken` are none.
pub(crate) fn joined(mesh: &Mesh, first: usize, (normal, within): (&Vector3<f64>, f64), taken: &[bool]) -> Vec<usize> {
    let least = libm::cos(within) - 1e-9;
    let alike = |facet: usize| {
        let own = mesh.area_vector(facet).try_normalize(0.0);
        !taken.get(facet).copied().unwrap_or(false) && own.is_some_and(|own| own.dot(normal) >= least)
    };
    let mut seen = BTreeSet::from([first]);
    let mut open = vec![first];
    while let Some(facet) = open.pop() {
        for k in 0..3 {
            let next = mesh.opposite(3 * facet + k) / 3;
            if !seen.contains(&next) && alike(next) {
                seen.insert(next);
                open.push(next);
            }
        }
    }
    seen.into_iter().collect()
}

/// Area, m², its middle and the mean unit normal of facets.
pub(crate) fn measured(mesh: &Mesh, facets: &[usize]) -> (f64, Point3<f64>, Vector3<f64>) {
    let (mut area, mut middle, mut normal) = (0.0, Vector3::zeros(), Vector3::zeros());
    for &facet in facets {
        let own = mesh.area_vector(facet) / 2.0;
        area += own.norm();
        middle += mesh.middle(facet).coords * own.norm();
        normal += own;
    }
    (area, Point3::from(middle / area.max(f64::MIN_POSITIVE)), normal.try_normalize(0.0).unwrap_or_default())
}

/// All flat faces worth a name: not those of curves, which lie beside others as large with a small turn between.
fn flat_faces(mesh: &Mesh) -> Vec<FlatFace> {
    let count = mesh.facets().len();
    let sizes: Vec<f64> = (0..count).map(|facet| mesh.area_vector(facet).norm() / 2.0).collect();
    let whole: f64 = sizes.iter().sum();
    let mut order: Vec<usize> = (0..count).collect();
    sort_few(&mut order, |&a, &b| sizes[b].total_cmp(&sizes[a]).then(a.cmp(&b)));
    let mut taken = vec![false; count];
    let mut group_of = vec![usize::MAX; count];
    let mut groups: Vec<(Vec<usize>, f64)> = Vec::new();
    for first in order {
        if taken[first] {
            continue;
        }
        let Some(normal) = mesh.area_vector(first).try_normalize(0.0) else { continue };
        let facets = joined(mesh, first, (&normal, FLAT), &taken);
        for &facet in &facets {
            taken[facet] = true;
            group_of[facet] = groups.len();
        }
        let area = facets.iter().map(|&facet| sizes[facet]).sum();
        groups.push((facets, area));
    }
    let area_of = |facet: usize| groups.get(group_of[facet]).map_or(0.0, |group| group.1);
    let mut faces: Vec<FlatFace> = groups
        .iter()
        .filter(|(facets, area)| *area >= LEAST * whole && !curved(mesh, (facets, *area), &area_of))
        .map(|(facets, _)| {
            let (area, center, normal) = measured(mesh, facets);
            FlatFace { facets: facets.clone(), area, center, normal }
        })
        .collect();
    sort_few(&mut faces, |a, b| b.area.total_cmp(&a.area));
    faces.truncate(MOST);
    faces
}

/// Turn from one facet of a curve to the next, at most, rad.
const SMOOTH: f64 = 35.0 / 180.0 * core::f64::consts::PI;

/// A neighbour of this share of a face's own area may be of one curve with it: fillets round a face are far smaller.
const AS_LARGE: f64 = 0.3;

/// Whether most of a face's rim goes on smoothly into faces about as large.
fn curved(mesh: &Mesh, (facets, area): (&[usize], f64), area_of: &dyn Fn(usize) -> f64) -> bool {
    let own: BTreeSet<usize> = facets.iter().copied().collect();
    let (mut rim, mut smooth) = (0.0, 0.0);
    for &facet in facets {
        let corners = mesh.corners(facet);
        let Some(normal) = mesh.area_vector(facet).try_normalize(0.0) else { continue };
        for k in 0..3 {
            let next = mesh.opposite(3 * facet + k) / 3;
            if own.contains(&next) {
                continue;
            }
            let length = (corners[(k + 1) % 3] - corners[k]).norm();
            rim += length;
            let beyond = mesh.area_vector(next).try_normalize(0.0);
            if beyond.is_some_and(|beyond| beyond.dot(&normal) > libm::cos(SMOOTH)) && area_of(next) > AS_LARGE * area {
                smooth += length;
            }
        }
    }
    smooth > 0.4 * rim
}

//! Solids made here, with corners in double precision.

use core::f64::consts::{PI, TAU};
use std::collections::HashSet;

use layload_core::mesh::{Mesh, MeshError};
use nalgebra::{Isometry3, Point3, Rotation3, Translation3, UnitQuaternion, Vector3};

/// A triangle surface.
#[derive(Debug, Clone, Default)]
pub(crate) struct Solid {
    pub(crate) points: Vec<Point3<f64>>,
    pub(crate) facets: Vec<[u32; 3]>,
}

/// A plane region cut into convex parts that share whole sides.
#[derive(Debug, Clone)]
pub(crate) struct Region {
    corners: Vec<[f64; 2]>,
    /// Counter-clockwise corner numbers.
    parts: Vec<Vec<usize>>,
}

impl Region {
    /// A rectangle round the origin.
    pub(crate) fn rectangle(width: f64, height: f64) -> Self {
        let (y, z) = (width / 2.0, height / 2.0);
        Self { corners: vec![[-y, -z], [y, -z], [y, z], [-y, z]], parts: vec![vec![0, 1, 2, 3]] }
    }

    /// A polygon with its corners on an ellipse.
    pub(crate) fn ellipse(half_width: f64, half_height: f64, corners: usize) -> Self {
        Self { corners: ring(half_width, half_height, corners), parts: vec![(0..corners).collect()] }
    }

    /// The region between two polygons with corners on circles; the hole may lie off centre by `offset`.
    pub(crate) fn annulus(outer: f64, inner: f64, offset: f64, corners: usize) -> Self {
        let mut points = ring(outer, outer, corners);
        points.extend(ring(inner, inner, corners).into_iter().map(|[y, z]| [y + offset, z]));
        let parts = (0..corners).map(|k| (k, (k + 1) % corners)).map(|(k, l)| vec![k, l, corners + l, corners + k]);
        Self { corners: points, parts: parts.collect() }
    }

    /// Two flanges of full `width`, joined by a web.
    pub(crate) fn i_section(width: f64, height: f64, web: f64, flange: f64) -> Self {
        let (a, b, h, i) = (width / 2.0, web / 2.0, height / 2.0, height / 2.0 - flange);
        let corners = vec![
            [-a, -h],
            [a, -h],
            [a, -i],
            [b, -i],
            [b, i],
            [a, i],
            [a, h],
            [-a, h],
            [-a, i],
            [-b, i],
            [-b, -i],
            [-a, -i],
        ];
        let parts = vec![vec![0, 1, 2, 3, 10, 11], vec![10, 3, 4, 9], vec![8, 9, 4, 5, 6, 7]];
        Self { corners, parts }
    }
}

fn ring(half_width: f64, half_height: f64, corners: usize) -> Vec<[f64; 2]> {
    let angle = |k: usize| TAU * k as f64 / corners as f64;
    (0..corners).map(|k| [half_width * libm::cos(angle(k)), half_height * libm::sin(angle(k))]).collect()
}

impl Solid {
    /// The region in the plane of y and z, drawn out along x from `from` to `to`.
    pub(crate) fn prism(region: &Region, from: f64, to: f64) -> Self {
        let count = region.corners.len() as u32;
        let end = |x: f64| region.corners.iter().map(move |&[y, z]| Point3::new(x, y, z));
        let mut facets = Vec::new();
        let mut sides = HashSet::new();
        for part in &region.parts {
            for k in 1..part.len() - 1 {
                let [a, b, c] = [part[0], part[k], part[k + 1]].map(|corner| corner as u32);
                facets.push([a, c, b]);
                facets.push([a + count, b + count, c + count]);
            }
            sides.extend((0..part.len()).map(|k| (part[k] as u32, part[(k + 1) % part.len()] as u32)));
        }
        let mut outline: Vec<_> = sides.iter().filter(|&&(a, b)| !sides.contains(&(b, a))).collect();
        outline.sort_unstable();
        for &(a, b) in outline {
            facets.push([a, b, b + count]);
            facets.push([a, b + count, a + count]);
        }
        Self { points: end(from).chain(end(to)).collect(), facets }
    }

    /// A block with one corner at the origin.
    pub(crate) fn block(size: [f64; 3]) -> Self {
        let [x, y, z] = size;
        Self::prism(&Region::rectangle(y, z), 0.0, x).moved(&Isometry3::translation(0.0, y / 2.0, z / 2.0))
    }

    /// A ball round the origin with its corners on the sphere, `2 * rings` meridians.
    pub(crate) fn ball(radius: f64, rings: usize) -> Self {
        let around = 2 * rings as u32;
        let mut points = vec![Point3::new(0.0, 0.0, radius)];
        for row in 1..rings {
            let polar = PI * row as f64 / rings as f64;
            for [x, y] in ring(radius * libm::sin(polar), radius * libm::sin(polar), around as usize) {
                points.push(Point3::new(x, y, radius * libm::cos(polar)));
            }
        }
        points.push(Point3::new(0.0, 0.0, -radius));
        let last = points.len() as u32 - 1;
        let at = |row: u32, k: u32| 1 + row * around + k % around;
        let mut facets = Vec::new();
        for k in 0..around {
            facets.push([0, at(0, k), at(0, k + 1)]);
            for row in 0..rings as u32 - 2 {
                facets.push([at(row, k), at(row + 1, k), at(row + 1, k + 1)]);
                facets.push([at(row, k), at(row + 1, k + 1), at(row, k + 1)]);
            }
            facets.push([last, at(rings as u32 - 2, k + 1), at(rings as u32 - 2, k)]);
        }
        Self { points, facets }
    }

    /// The facets of an STL file, corners joined where they are equal, in file units.
    pub(crate) fn of_stl(bytes: &[u8]) -> std::io::Result<Self> {
        let mut copy = bytes.to_vec();
        if copy.get(84..).is_some_and(|records| records.contains(&0)) {
            // `stl_io` goes by the first word alone to tell text from binary.
            copy[..80].fill(b' ');
        }
        let read = stl_io::read_stl(&mut std::io::Cursor::new(copy))?;
        Ok(Self {
            points: read.vertices.iter().map(|v| Point3::from(v.0.map(f64::from))).collect(),
            facets: read.faces.iter().map(|f| f.vertices.map(|id| id as u32)).collect(),
        })
    }

    /// Turned and shifted.
    pub(crate) fn moved(mut self, motion: &Isometry3<f64>) -> Self {
        self.points.iter_mut().for_each(|point| *point = motion * *point);
        self
    }

    /// Larger by a factor.
    pub(crate) fn scaled(mut self, factor: f64) -> Self {
        self.points.iter_mut().for_each(|point| *point *= factor);
        self
    }

    /// Every facet the other way round.
    pub(crate) fn inside_out(mut self) -> Self {
        self.facets.iter_mut().for_each(|facet| facet.swap(1, 2));
        self
    }

    /// Both surfaces in one file.
    pub(crate) fn with(mut self, other: &Self) -> Self {
        let shift = self.points.len() as u32;
        self.points.extend(&other.points);
        self.facets.extend(other.facets.iter().map(|facet| facet.map(|id| id + shift)));
        self
    }

    /// Facets in another order and beginning at another corner, by a seed.
    pub(crate) fn shuffled(mut self, seed: u64) -> Self {
        let mut random = Shuffle(seed);
        for k in (1..self.facets.len()).rev() {
            self.facets.swap(k, random.below(k + 1));
        }
        for facet in &mut self.facets {
            facet.rotate_left(random.below(3));
        }
        self
    }

    /// As a mesh of the library, corners taken as metres.
    pub(crate) fn mesh(&self) -> Result<Mesh, MeshError> {
        Mesh::from_facets(self.points.clone(), self.facets.clone())
    }

    /// Corners of each facet in single precision.
    pub(crate) fn corners(&self) -> impl Iterator<Item = [[f32; 3]; 3]> + '_ {
        self.facets.iter().map(|facet| {
            facet.map(|id| {
                let point = &self.points[id as usize];
                [point.x as f32, point.y as f32, point.z as f32]
            })
        })
    }
}

/// A motion from three angles and a shift.
pub(crate) fn motion(angles: [f64; 3], shift: [f64; 3]) -> Isometry3<f64> {
    let rotation = Rotation3::from_euler_angles(angles[0], angles[1], angles[2]);
    Isometry3::from_parts(Translation3::from(Vector3::from(shift)), UnitQuaternion::from_rotation_matrix(&rotation))
}

/// A linear congruential generator (Knuth, MMIX): enough to shuffle by.
struct Shuffle(u64);

impl Shuffle {
    fn below(&mut self, limit: usize) -> usize {
        self.0 = self.0.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        ((self.0 >> 33) % limit as u64) as usize
    }
}

//! Solids whose thickness is known, built facet by facet. Metres.

use std::f64::consts::TAU;

use layload_core::mesh::{Mesh, MeshError};
use nalgebra::{Point2, Point3};

/// A prism over a polygon that runs counter-clockwise in `(x, y)`, from `z = 0` to `height`; the caps are fans from the
/// first corner, from which every other must be seen.
pub(crate) fn prism(outline: &[Point2<f64>], height: f64) -> Result<Mesh, MeshError> {
    let n = outline.len() as u32;
    let mut points: Vec<Point3<f64>> = outline.iter().map(|p| Point3::new(p.x, p.y, 0.0)).collect();
    points.extend(outline.iter().map(|p| Point3::new(p.x, p.y, height)));
    let mut facets = Vec::new();
    for k in 1..n - 1 {
        facets.push([0, k + 1, k]);
        facets.push([n, n + k, n + k + 1]);
    }
    for k in 0..n {
        let next = (k + 1) % n;
        facets.push([k, next, n + next]);
        facets.push([k, n + next, n + k]);
    }
    Mesh::from_facets(points, facets)
}

/// A block from the origin.
pub(crate) fn block(x: f64, y: f64, z: f64) -> Result<Mesh, MeshError> {
    prism(&[[0.0, 0.0], [x, 0.0], [x, y], [0.0, y]].map(Point2::from), z)
}

/// A tube along `z` whose circles are polygons of `sides` corners, rings of facets between.
pub(crate) fn tube(outer: f64, inner: f64, height: f64, sides: u32, rings: u32) -> Result<Mesh, MeshError> {
    let circle = |radius: f64, z: f64| {
        (0..sides).map(move |k| {
            let (sine, cosine) = libm::sincos(TAU * f64::from(k) / f64::from(sides));
            Point3::new(radius * cosine, radius * sine, z)
        })
    };
    let mut points = Vec::new();
    for radius in [outer, inner] {
        for ring in 0..=rings {
            points.extend(circle(radius, height * f64::from(ring) / f64::from(rings)));
        }
    }
    let at = |wall: u32, ring: u32, k: u32| (wall * (rings + 1) + ring) * sides + k % sides;
    let mut facets = Vec::new();
    let mut quad = |a, b, c, d| facets.extend([[a, b, c], [a, c, d]]);
    for k in 0..sides {
        for ring in 0..rings {
            quad(at(0, ring, k), at(0, ring, k + 1), at(0, ring + 1, k + 1), at(0, ring + 1, k));
            quad(at(1, ring, k + 1), at(1, ring, k), at(1, ring + 1, k), at(1, ring + 1, k + 1));
        }
        quad(at(1, 0, k), at(1, 0, k + 1), at(0, 0, k + 1), at(0, 0, k));
        quad(at(0, rings, k), at(0, rings, k + 1), at(1, rings, k + 1), at(1, rings, k));
    }
    Mesh::from_facets(points, facets)
}

/// A hollow sphere: an octahedron whose facets are split `splits` times and set on the sphere, outside and, turned
/// inward, inside.
pub(crate) fn sphere_shell(outer: f64, inner: f64, splits: u32) -> Result<Mesh, MeshError> {
    let mut corners: Vec<[Point3<f64>; 3]> = Vec::new();
    for signs in 0..8_u8 {
        let sign = |bit: u8| if signs >> bit & 1 == 0 { 1.0 } else { -1.0 };
        let (x, y, z) =
            (Point3::new(sign(0), 0.0, 0.0), Point3::new(0.0, sign(1), 0.0), Point3::new(0.0, 0.0, sign(2)));
        corners.push(if sign(0) * sign(1) * sign(2) > 0.0 { [x, y, z] } else { [x, z, y] });
    }
    for _ in 0..splits {
        corners = corners
            .into_iter()
            .flat_map(|[a, b, c]| {
                let on = |p: &Point3<f64>, q: &Point3<f64>| Point3::from((p.coords + q.coords).normalize());
                let (ab, bc, ca) = (on(&a, &b), on(&b, &c), on(&c, &a));
                [[a, ab, ca], [ab, b, bc], [ca, bc, c], [ab, bc, ca]]
            })
            .collect();
    }
    let inward = corners.iter().map(|[a, b, c]| [a, c, b].map(|p| p * inner));
    let outward = corners.iter().map(|triangle| triangle.map(|p| p * outer));
    welded(&outward.chain(inward).collect::<Vec<_>>())
}

/// A mesh of loose triangles whose equal corners are equal to the bit.
pub(crate) fn welded(triangles: &[[Point3<f64>; 3]]) -> Result<Mesh, MeshError> {
    let mut points: Vec<Point3<f64>> = triangles.iter().flatten().copied().collect();
    let order =
        |p: &Point3<f64>, q: &Point3<f64>| p.x.total_cmp(&q.x).then(p.y.total_cmp(&q.y)).then(p.z.total_cmp(&q.z));
    // Plus zero, so that both zeros are one.
    for point in &mut points {
        *point = point.map(|c| c + 0.0);
    }
    points.sort_by(order);
    points.dedup();
    let number = |p: &Point3<f64>| {
        let plain = p.map(|c| c + 0.0);
        points.binary_search_by(|q| order(q, &plain)).unwrap_or(usize::MAX) as u32
    };
    let facets = triangles.iter().map(|corners| [0, 1, 2].map(|k| number(&corners[k]))).collect();
    Mesh::from_facets(points, facets)
}

/// The same facets in another order, each begun at another corner.
pub(crate) fn shuffled(mesh: &Mesh, stride: usize) -> Result<Mesh, MeshError> {
    let count = mesh.facets().len();
    let facets = (0..count)
        .map(|k| {
            let [a, b, c] = mesh.facets()[k * stride % count];
            if k % 2 == 0 { [b, c, a] } else { [c, a, b] }
        })
        .collect();
    Mesh::from_facets(mesh.points().to_vec(), facets)
}

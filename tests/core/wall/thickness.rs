//! Inscribed-sphere thickness of solids that have a closed form.

use approx::assert_relative_eq;
use layload_core::wall::{Sample, Shells, Surface, WallThickness, area_samples, thickness_all, thickness_at};
use nalgebra::{Point2, Vector3};

use super::Tested;
use super::solids::{block, prism, sphere_shell, tube};

/// Samples with their thickness, of the facets that look along `way`.
fn looking(surface: &Surface<'_>, count: usize, way: Vector3<f64>) -> Vec<(Sample, WallThickness)> {
    let samples = area_samples(surface, count);
    let thickness = thickness_all(surface, &samples);
    let pairs = samples.into_iter().zip(thickness).filter_map(|(sample, found)| found.map(|found| (sample, found)));
    pairs.filter(|(sample, _)| surface.normal(sample.facet).dot(&way) > 0.99).collect()
}

#[test]
fn a_plate_is_as_thick_at_its_rim_as_in_its_middle() -> Tested {
    let mesh = block(0.040, 0.030, 0.002)?;
    let surface = Surface::new(&mesh, Shells::Apart);
    for (way, thick) in [(Vector3::z(), 0.002), (-Vector3::z(), 0.002), (Vector3::x(), 0.040), (-Vector3::y(), 0.030)] {
        let found = looking(&surface, 4000, way);
        assert!(found.len() > 50);
        for (_, thickness) in found {
            // Planes of exact coordinates: rounding only.
            assert_relative_eq!(thickness.sphere, thick, max_relative = 1e-12);
            assert_relative_eq!(thickness.ray, thick, max_relative = 1e-12);
        }
    }
    Ok(())
}

#[test]
fn a_tube_is_as_thick_as_its_wall() -> Tested {
    const SIDES: u32 = 96;
    let (outer, inner) = (0.010, 0.007);
    let mesh = tube(outer, inner, 0.030, SIDES, 20)?;
    let surface = Surface::new(&mesh, Shells::Apart);
    // Both polygons have parallel sides, whose distance is less than the difference of the radii by this factor.
    let flat = (outer - inner) * libm::cos(std::f64::consts::PI / f64::from(SIDES));
    let sagitta = outer - outer * libm::cos(std::f64::consts::PI / f64::from(SIDES));
    for (sample, thickness) in area_samples(&surface, 5000).iter().map(|s| (s, thickness_at(&surface, s))) {
        let thickness = thickness.ok_or("no thickness")?;
        if surface.normal(sample.facet).z.abs() > 0.5 {
            continue;
        }
        if sample.point.xy().coords.norm() < f64::midpoint(outer, inner) {
            // The inner side looks at the wider outer one: exact.
            assert_relative_eq!(thickness.sphere, flat, max_relative = 1e-9);
        } else {
            assert!(thickness.sphere >= flat * (1.0 - 1e-9), "{}", thickness.sphere);
            assert!(thickness.sphere <= flat + sagitta, "{}", thickness.sphere);
        }
    }
    Ok(())
}

#[test]
fn a_sphere_shell_is_as_thick_as_its_wall() -> Tested {
    let (outer, inner) = (0.020, 0.017);
    let mesh = sphere_shell(outer, inner, 5)?;
    let surface = Surface::new(&mesh, Shells::Apart);
    // The greatest facets of the split octahedron: their middle lies this far inside the sphere.
    let deepest = (0..mesh.facets().len())
        .map(|f| {
            let [a, b, c] = mesh.corners(f);
            let (middle, radius) = ((a.coords + b.coords + c.coords) / 3.0, a.coords.norm());
            (radius - middle.norm()) * outer / radius
        })
        .fold(0.0, f64::max);
    assert!(deepest < 1e-4);
    for thickness in thickness_all(&surface, &area_samples(&surface, 4000)) {
        let thickness = thickness.ok_or("no thickness")?.sphere;
        assert!((thickness - (outer - inner)).abs() <= deepest, "{thickness}");
    }
    Ok(())
}

/// 2 d tan(a / 2) at the distance d from the edge, while the sphere stays clear of the back. Sides that close in by more
/// than 28 degrees meet in an edge and are no wall.
#[test]
fn a_wedge_grows_with_the_distance_from_its_edge() -> Tested {
    for angle_deg in [3.0, 12.0, 20.0, 27.5] {
        let angle = f64::to_radians(angle_deg);
        let length = 0.040;
        let (sine, cosine) = libm::sincos(angle);
        let outline = [[0.0, 0.0], [length, 0.0], [length * cosine, length * sine]].map(Point2::from);
        let mesh = prism(&outline, 0.100)?;
        let surface = Surface::new(&mesh, Shells::Apart);
        let mut tested = 0;
        for (sample, thickness) in looking(&surface, 4000, -Vector3::y()) {
            let diameter = 2.0 * sample.point.x * libm::tan(angle / 2.0);
            // Clear of the third side and of the ends.
            let margin = sample.point.z.min(0.100 - sample.point.z);
            if sample.point.x > 0.5 * length || diameter / 2.0 > margin {
                continue;
            }
            assert_relative_eq!(thickness.sphere, diameter, max_relative = 1e-9);
            assert_relative_eq!(thickness.ray, sample.point.x * libm::tan(angle), max_relative = 1e-9);
            tested += 1;
        }
        assert!(tested > 100, "{angle_deg}: {tested}");
    }
    Ok(())
}

/// Beyond that angle nothing faces a side but what lies behind the edge: here the third side, at the far end.
#[test]
fn a_corner_is_not_a_wall() -> Tested {
    for angle_deg in [28.5, 30.0, 45.0, 60.0, 64.0, 70.0, 89.0] {
        let angle = f64::to_radians(angle_deg);
        let length = 0.040;
        let outline = [[0.0, 0.0], [length, 0.0], [length * libm::cos(angle), length * libm::sin(angle)]];
        let mesh = prism(&outline.map(Point2::from), 0.100)?;
        let surface = Surface::new(&mesh, Shells::Apart);
        for (sample, thickness) in looking(&surface, 2000, -Vector3::y()) {
            // The third side meets the base at the far end, at an edge too.
            let from_edge = sample.point.x.min(length - sample.point.x);
            assert!(thickness.sphere > 0.5 * length, "{angle_deg}: {} at {from_edge}", thickness.sphere);
        }
    }
    Ok(())
}

/// A wall that steps from 2 to 5 mm. Under the step the sphere touches the hollow edge: with d across to it and h up to
/// it the diameter is (d² + h²) / h, until it reaches the top.
#[test]
fn a_stepped_wall_has_both_thicknesses_and_a_round_way_between() -> Tested {
    let (thin, thick, at) = (0.002, 0.005, 0.020);
    let outline = [[at, thin], [0.0, thin], [0.0, 0.0], [0.040, 0.0], [0.040, thick], [at, thick]].map(Point2::from);
    let mesh = prism(&outline, 0.060)?;
    let surface = Surface::new(&mesh, Shells::Apart);
    let (mut under_thin, mut under_edge, mut under_thick) = (0, 0, 0);
    for (sample, thickness) in looking(&surface, 20_000, -Vector3::y()) {
        let x = sample.point.x;
        let expected = if x <= at {
            under_thin += 1;
            thin
        } else {
            let over_edge = ((x - at) * (x - at) + thin * thin) / thin;
            if over_edge < thick && (x - at) < thin * libm::tan(f64::to_radians(31.9)) {
                under_edge += 1;
                over_edge
            } else if over_edge >= thick {
                under_thick += 1;
                thick
            } else {
                continue;
            }
        };
        assert_relative_eq!(thickness.sphere, expected, max_relative = 1e-9);
    }
    assert!(under_thin > 1000 && under_edge > 20 && under_thick > 1000, "{under_thin} {under_edge} {under_thick}");
    Ok(())
}

/// A narrow groove cut from below leaves a thin place above its root, though its sides are steep.
#[test]
fn a_groove_thins_the_wall_above_its_root() -> Tested {
    let (thick, depth, half) = (0.010, 0.007, 0.000_8);
    // From the root every corner is seen.
    let outline =
        [[0.0, depth], [-half, 0.0], [-0.020, 0.0], [-0.020, thick], [0.020, thick], [0.020, 0.0], [half, 0.0]];
    let mut outline = outline.map(Point2::from);
    outline.reverse();
    outline.rotate_right(1);
    let mesh = prism(&outline, 0.040)?;
    let surface = Surface::new(&mesh, Shells::Apart);
    let mut least = f64::INFINITY;
    for (sample, thickness) in looking(&surface, 20_000, Vector3::y()) {
        let (x, h) = (sample.point.x, thick - depth);
        if x.abs() < h * libm::tan(f64::to_radians(31.0)) {
            assert_relative_eq!(thickness.sphere, (x * x + h * h) / h, max_relative = 1e-9);
        }
        least = least.min(thickness.sphere);
    }
    assert_relative_eq!(least, thick - depth, max_relative = 1e-3);
    Ok(())
}

/// A wall does not become thin because another stands near it across a gap.
#[test]
fn what_lies_beyond_a_gap_does_not_count() -> Tested {
    // A U: two legs 6 mm thick and 10 mm long with 1 mm between them, on a base 2 mm thick.
    let outline = [
        [0.006, 0.002],
        [0.007, 0.002],
        [0.007, 0.012],
        [0.013, 0.012],
        [0.013, 0.0],
        [0.0, 0.0],
        [0.0, 0.012],
        [0.006, 0.012],
    ];
    let mut outline = outline.map(Point2::from);
    outline.reverse();
    // The first corner sees too little of a U for a fan, so the caps are three strips.
    let mesh = super::solids::welded(&u_triangles(&outline, 0.030))?;
    let surface = Surface::new(&mesh, Shells::Apart);
    for (sample, thickness) in looking(&surface, 20_000, -Vector3::x()) {
        if sample.point.y > 0.002 && sample.point.x < 0.001 {
            assert_relative_eq!(thickness.ray, if sample.point.y > 0.002 { 0.006 } else { 0.013 }, max_relative = 1e-9);
            assert_relative_eq!(thickness.sphere, 0.006, max_relative = 1e-9);
        }
    }
    for (_, thickness) in looking(&surface, 20_000, Vector3::y()) {
        // Tops of the legs see the base, the floor of the gap sees its underside.
        let (leg, floor) = ((thickness.sphere - 0.012).abs(), (thickness.sphere - 0.002).abs());
        assert!(leg < 1e-9 || floor < 1e-9, "{}", thickness.sphere);
    }
    Ok(())
}

fn u_triangles(outline: &[Point2<f64>], height: f64) -> Vec<[nalgebra::Point3<f64>; 3]> {
    let at = |p: &Point2<f64>, z: f64| nalgebra::Point3::new(p.x, p.y, z);
    let mut triangles = Vec::new();
    for (k, p) in outline.iter().enumerate() {
        let q = &outline[(k + 1) % outline.len()];
        triangles.push([at(p, 0.0), at(q, 0.0), at(q, height)]);
        triangles.push([at(p, 0.0), at(q, height), at(p, height)]);
    }
    let find = |x: f64, y: f64| outline.iter().position(|p| *p == Point2::new(x, y)).unwrap_or(usize::MAX);
    let [a, b, c, d, e, f, g, h] = [
        find(0.006, 0.002),
        find(0.007, 0.002),
        find(0.007, 0.012),
        find(0.013, 0.012),
        find(0.013, 0.0),
        find(0.0, 0.0),
        find(0.0, 0.012),
        find(0.006, 0.012),
    ];
    for [i, j, k] in [[f, a, h], [f, h, g], [f, b, a], [f, e, b], [e, c, b], [e, d, c]] {
        let [p, q, r] = [i, j, k].map(|n| outline[n]);
        triangles.push([at(&p, height), at(&q, height), at(&r, height)]);
        triangles.push([at(&p, 0.0), at(&r, 0.0), at(&q, 0.0)]);
    }
    triangles
}

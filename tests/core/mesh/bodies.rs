//! Shells become bodies: what overlaps or touches belongs together, voids belong to what is round them.

use layload_core::LengthUnit;
use layload_core::mesh::{Body, Mesh, MeshError, bodies};
use nalgebra::Point3;

use super::shapes::{Solid, motion};
use super::{Tested, files, stl};

fn read(name: &str) -> Result<Vec<Body>, Box<dyn std::error::Error>> {
    let (mesh, _) = Mesh::from_stl(&files::test_mesh(name)?, LengthUnit::Millimetre)?;
    Ok(bodies(mesh)?)
}

fn shape(bodies: &[Body]) -> Vec<(usize, usize)> {
    bodies.iter().map(|body| (body.outer_shells, body.voids)).collect()
}

#[test]
fn bodies_of_the_test_meshes() -> Tested {
    assert_eq!(shape(&read("solid_header")?), [(1, 0)]);
    assert_eq!(shape(&read("overlapping_shells")?), [(3, 0)]);
    assert_eq!(shape(&read("loose_bodies")?), [(1, 0), (1, 0), (1, 0)]);
    assert_eq!(shape(&read("half_bore_with_cap")?), [(2, 0)]);
    assert_eq!(shape(&read("inner_void")?), [(1, 1)]);
    assert_eq!(shape(&read("two_rods")?), [(1, 0), (1, 0)]);
    Ok(())
}

#[test]
fn the_largest_comes_first() -> Tested {
    let volumes: Vec<f64> = read("loose_bodies")?.iter().map(|body| body.mesh.mass_properties().volume).collect();
    assert!(volumes.is_sorted_by(|a, b| a >= b), "{volumes:?}");
    Ok(())
}

#[test]
fn a_void_takes_its_volume_away() -> Tested {
    let body = &read("inner_void")?[0];
    let truth = &files::truths()?["tests/meshes/inner_void.stl"];
    let [a, b, c] = files::triple(&truth["void_half_axes_mm"]);
    let void = 4.0 / 3.0 * core::f64::consts::PI * a * b * c;
    let (plain, _) = Mesh::from_stl(&files::test_mesh("solid_header")?, LengthUnit::Millimetre)?;
    let taken = (plain.mass_properties().volume - body.mesh.mass_properties().volume) * 1e9;
    // Its facets lie inside the ellipsoid: some 1100 of them stay within 2 % of its volume.
    approx::assert_relative_eq!(taken, void, max_relative = 0.02);
    assert!(taken < void);
    Ok(())
}

/// Bodies of solids given in mm.
fn of(solid: &Solid) -> Result<Vec<Body>, MeshError> {
    bodies(Mesh::from_stl(&stl::binary(solid), LengthUnit::Millimetre)?.0)
}

fn at(size: f64, place: [f64; 3]) -> Solid {
    Solid::block([size; 3]).moved(&motion([0.0; 3], place))
}

#[test]
fn touching_faces_join_and_a_gap_parts() -> Tested {
    let first = at(10.0, [0.0; 3]);
    assert_eq!(shape(&of(&first.clone().with(&at(10.0, [10.0, 3.0, 3.0])))?), [(2, 0)]);
    assert_eq!(shape(&of(&first.clone().with(&at(10.0, [10.05, 3.0, 3.0])))?), [(1, 0), (1, 0)]);
    assert_eq!(shape(&of(&first.with(&at(4.0, [3.0; 3])))?), [(2, 0)], "one inside the other");
    Ok(())
}

#[test]
fn a_chain_of_overlaps_is_one_body() -> Tested {
    let chain = [4.0, 0.0, 3.0, 1.0, 2.0]
        .iter()
        .fold(Solid::default(), |all, &k| all.with(&at(10.0, [8.0 * k, 0.3 * k, 0.7 * k])));
    assert_eq!(shape(&of(&chain.with(&at(1.0, [90.0; 3])))?), [(5, 0), (1, 0)]);
    Ok(())
}

#[test]
fn a_solid_core_in_a_void() -> Tested {
    let nested = at(30.0, [0.0; 3]).with(&at(20.0, [5.0; 3]).inside_out()).with(&at(10.0, [10.0; 3]));
    let found = of(&nested)?;
    let volume: f64 = found.iter().map(|body| body.mesh.mass_properties().volume * 1e9).sum();
    // Exact but for the factor from mm to m.
    approx::assert_relative_eq!(volume, 27_000.0 - 8_000.0 + 1_000.0, max_relative = 1e-12);
    assert_eq!(found.iter().map(|body| body.voids).sum::<usize>(), 1);
    Ok(())
}

#[test]
fn the_order_of_facets_does_not_matter() -> Tested {
    for name in ["overlapping_shells", "loose_bodies", "half_bore_with_cap", "inner_void"] {
        let expected = shape(&read(name)?);
        let shuffled = Solid::of_stl(&files::test_mesh(name)?)?.shuffled(7);
        assert_eq!(shape(&of(&shuffled)?), expected, "{name}");
    }
    Ok(())
}

/// A void is refused wherever its wall meets the surface, whichever of its points is looked at first.
#[test]
fn a_void_that_breaks_through_is_refused() -> Tested {
    let block = Solid::block([0.04, 0.03, 0.02]);
    let ball = Solid::ball(0.004, 12).inside_out();
    let at = |x: f64| ball.clone().moved(&motion([0.3, 0.2, 0.1], [x, 0.015, 0.01]));
    assert_eq!(shape(&of(&block.clone().with(&at(0.02)))?), [(1, 1)]);
    assert_eq!(shape(&of(&block.clone().with(&at(0.0045)))?), [(1, 1)]);
    for x in [0.0039, 0.002, 0.0, -0.001] {
        for seed in [1, 2, 3] {
            let refused = bodies(block.clone().with(&at(x)).shuffled(seed).mesh()?);
            let pierces = matches!(refused, Err(MeshError::VoidPierces { .. } | MeshError::InsideOut { .. }));
            assert!(pierces, "{x}: {:?}", refused.map(|found| shape(&found)));
        }
    }
    Ok(())
}

#[test]
fn dust_is_refused() -> Tested {
    let mut dust = Solid::block([0.001; 3]);
    for k in 1..1_001 {
        dust = dust.with(&Solid::block([0.001; 3]).moved(&motion([0.0; 3], [0.002 * f64::from(k), 0.0, 0.0])));
    }
    let refused = bodies(dust.mesh()?);
    assert!(matches!(refused, Err(MeshError::TooManyShells { count: 1_001, limit: 1_000 })), "{refused:?}");
    Ok(())
}

/// Two corrugated sheets whose folds cross: every fold of one meets every fold of the other.
#[test]
fn shells_that_meet_everywhere_are_refused() -> Tested {
    let folds = 1_000;
    let sheet = |turned: bool| -> (Vec<Point3<f64>>, Vec<[u32; 3]>) {
        let mut points = Vec::new();
        let mut facets = Vec::new();
        for k in 0..=folds {
            let along = 1e-4 * f64::from(k) - 0.05;
            let height = if k % 2 == 0 { 0.0 } else { 1e-3 };
            for (across, above) in [(-0.05, 0.0), (0.05, 0.0), (-0.05, 1e-3), (0.05, 1e-3)] {
                let (x, y) = if turned { (-across, along) } else { (along, across) };
                points.push(Point3::new(x, y, height + above));
            }
        }
        let mut quad = |a: u32, b: u32, c: u32, d: u32| facets.extend([[a, b, c], [a, c, d]]);
        for k in 0..folds as u32 {
            let (a, b) = (4 * k, 4 * k + 4);
            quad(a, a + 1, b + 1, b);
            quad(a + 2, b + 2, b + 3, a + 3);
            quad(a, b, b + 2, a + 2);
            quad(a + 1, a + 3, b + 3, b + 1);
        }
        quad(0, 2, 3, 1);
        let last = 4 * folds as u32;
        quad(last, last + 1, last + 3, last + 2);
        (points, facets)
    };
    let (mut points, mut facets) = sheet(false);
    let (more, others) = sheet(true);
    let offset = points.len() as u32;
    points.extend(more);
    facets.extend(others.iter().map(|facet| facet.map(|corner| corner + offset)));
    let refused = bodies(Mesh::from_facets(points, facets)?);
    assert!(matches!(refused, Err(MeshError::Entangled)), "{:?}", refused.map(|found| shape(&found)));
    Ok(())
}

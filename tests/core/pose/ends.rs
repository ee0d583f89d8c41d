//! Rods with two equal bores: the ends keep their names in every pose, or the answer says that they are alike.

use layload_core::part::{Naming, Rod};
use layload_core::quick_look;
use nalgebra::Point3;

use super::corpus::{part_of, question, sample_of};
use super::{Found, POSES, REACH};
use crate::copies::poses;
use crate::mesh::shapes::Solid;

/// The middle of the bore that is called the small end's, and by what.
fn small_end(solid: &Solid) -> Found<(Point3<f64>, Naming)> {
    let rod = part_of(solid)?.recognised::<Rod>().ok_or("not a rod")?;
    Ok((rod.small_end.bore.center, rod.naming))
}

/// Two bores of 12 mm, the eyes' walls given; the bores are 80 mm apart along x.
fn rod_of_equal_bores(walls_mm: [f64; 2]) -> Solid {
    let sides = 96;
    let radius = 6.0;
    let ring = |center: f64, radius: f64| -> Vec<[f64; 2]> {
        (0..sides)
            .map(|k| core::f64::consts::TAU * (f64::from(k) + 0.5) / f64::from(sides))
            .map(|angle| [center + radius * libm::cos(angle), radius * libm::sin(angle)])
            .collect()
    };
    // Each eye a tube of its own, the shank a block that reaches into both: three shells that overlap.
    let tube = |center: f64, wall: f64| {
        let (inner, outer) = (ring(center, radius), ring(center, radius + wall));
        let n = sides as u32;
        let mut points = Vec::new();
        for z in [-6.0, 6.0] {
            points.extend(inner.iter().chain(&outer).map(|[x, y]| Point3::new(*x, *y, z) * 1e-3));
        }
        let mut facets = Vec::new();
        for k in 0..n {
            let l = (k + 1) % n;
            let quads = [
                [n + k, n + l, 3 * n + l, 3 * n + k],
                [l, k, 2 * n + k, 2 * n + l],
                [k, l, n + l, n + k],
                [2 * n + l, 2 * n + k, 3 * n + k, 3 * n + l],
            ];
            facets.extend(quads.iter().flat_map(|[a, b, c, d]| [[*a, *b, *c], [*a, *c, *d]]));
        }
        Solid { points, facets }
    };
    let shank = Solid::block([0.080 - 2.0 * 0.0085, 0.008, 0.010])
        .moved(&nalgebra::Isometry3::translation(0.0085, -0.004, -0.005));
    tube(0.0, walls_mm[0]).with(&tube(80.0, walls_mm[1])).with(&shank)
}

#[test]
fn the_heavier_end_is_the_big_end_in_every_pose() -> Found<()> {
    for (walls, at) in [([5.0, 7.0], 0.0), ([7.0, 5.0], 0.080), ([5.0, 5.01], 0.0)] {
        let solid = rod_of_equal_bores(walls);
        for (seed, pose) in poses(5, POSES, REACH).iter().enumerate() {
            let (small, naming) = small_end(&solid.clone().shuffled(seed as u64).moved(pose))?;
            assert_eq!(naming, Naming::Material);
            let expected = pose * Point3::new(at, 0.0, 0.0);
            assert!((small - expected).norm() < 1e-6, "{walls:?}: {small} instead of {expected}");
        }
    }
    Ok(())
}

#[test]
fn ends_that_are_alike_are_said_to_be() -> Found<()> {
    let solid = rod_of_equal_bores([5.0, 5.0]);
    for pose in poses(6, POSES, REACH) {
        assert_eq!(small_end(&solid.clone().moved(&pose))?.1, Naming::Alike);
    }
    let job = sample_of("samples/plain_rod.stl")?.job()?;
    let report = quick_look(&part_of(&solid)?, &question(&job), &mut ())?;
    assert!(report.mesh.notes.iter().any(|note| note.contains("both ends are alike")), "{:?}", report.mesh.notes);
    Ok(())
}

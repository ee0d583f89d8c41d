//! Volume integrals of the slabs between planes add up to those of the whole, and each is exact.

use layload_core::LengthUnit;
use layload_core::mesh::Mesh;
use layload_core::section::{VolumeMoments, slab_moments};

use super::Tested;
use crate::mesh::files;
use crate::mesh::shapes::{Solid, motion};

fn total(slabs: &[VolumeMoments]) -> VolumeMoments {
    slabs.iter().fold(VolumeMoments::default(), |sum, slab| sum.plus(slab, 1.0))
}

/// Integral over x from `from` to `to` of x to the power k.
fn line(from: f64, to: f64, power: usize) -> f64 {
    let raised = |x: f64| (0..=power).fold(1.0, |product, _| product * x);
    (raised(to) - raised(from)) / (power as f64 + 1.0)
}

/// Moments of a block with its sides along the axes, in closed form.
fn block([x0, x1]: [f64; 2], [y0, y1]: [f64; 2], [z0, z1]: [f64; 2]) -> VolumeMoments {
    let of = |i: usize, j: usize, k: usize| line(x0, x1, i) * line(y0, y1, j) * line(z0, z1, k);
    VolumeMoments {
        volume: of(0, 0, 0),
        first: [of(1, 0, 0), of(0, 1, 0), of(0, 0, 1)],
        polar: of(2, 0, 0) + of(0, 2, 0),
        xz: of(1, 0, 1),
        yz: of(0, 1, 1),
    }
}

fn close(a: &VolumeMoments, b: &VolumeMoments, volume: f64, size: f64, share: f64) -> bool {
    let near = |a: f64, b: f64, power: i32| (a - b).abs() <= share * volume * (0..power).fold(1.0, |s, _| s * size);
    near(a.volume, b.volume, 0)
        && (0..3).all(|k| near(a.first[k], b.first[k], 1))
        && near(a.polar, b.polar, 2)
        && near(a.xz, b.xz, 2)
        && near(a.yz, b.yz, 2)
}

#[test]
fn block_slab_by_slab() -> Tested {
    let (low, high) = ([-0.011, 0.004, -0.02], [0.043, 0.019, 0.002]);
    let size = [0, 1, 2].map(|k| high[k] - low[k]);
    let mesh = Solid::block(size).moved(&motion([0.0; 3], low)).mesh()?;
    let planes = [-0.5, -0.01, 0.0, 0.0123, 0.042, 0.3];
    let slabs = slab_moments(&mesh, &planes);
    assert_eq!(slabs.len(), planes.len() + 1);
    let clamp = |x: f64| x.clamp(low[0], high[0]);
    for (k, slab) in slabs.iter().enumerate() {
        let from = if k == 0 { low[0] } else { clamp(planes[k - 1]) };
        let to = planes.get(k).map_or(high[0], |&x| clamp(x));
        let exact = block([from, to], [low[1], high[1]], [low[2], high[2]]);
        // Rounding of some twenty products, on the scale of the whole block.
        let whole = size[0] * size[1] * size[2];
        assert!(close(slab, &exact, whole, 0.05, 1e-13), "slab {k}: {slab:?} is not {exact:?}");
    }
    Ok(())
}

#[test]
fn slabs_add_up_to_the_mass_properties() -> Tested {
    for name in [
        "samples/i_shank_rod.stl",
        "samples/bearing_rod.stl",
        "tests/meshes/inner_void.stl",
        "tests/meshes/oil_hole_rod.stl",
    ] {
        let (mesh, _) = Mesh::from_stl(&files::bytes(name)?, LengthUnit::Millimetre)?;
        let (low, high) = mesh.bounds();
        for count in [1, 7, 200] {
            let planes: Vec<f64> =
                (0..count).map(|k| low.x + (high.x - low.x) * (f64::from(k) + 0.5) / f64::from(count)).collect();
            let sum = total(&slab_moments(&mesh, &planes));
            let mass = mesh.mass_properties();
            let (c, m) = (mass.centroid, mass.second_moments);
            let v = mass.volume;
            let exact = VolumeMoments {
                volume: v,
                first: [v * c.x, v * c.y, v * c.z],
                polar: m[(0, 0)] + m[(1, 1)] + v * (c.x * c.x + c.y * c.y),
                xz: m[(0, 2)] + v * c.x * c.z,
                yz: m[(1, 2)] + v * c.y * c.z,
            };
            // Relative to the volume and the farthest corner: sums over 45 000 facets grow rounding to some 1e-13.
            let size = low.coords.norm().max(high.coords.norm());
            assert!(close(&sum, &exact, v, size, 1e-12), "{name}, {count} planes: {sum:?} is not {exact:?}");
        }
    }
    Ok(())
}

#[test]
fn planes_through_corners_lose_nothing() -> Tested {
    let (mesh, _) = Mesh::from_stl(&files::test_mesh("unequal_depths")?, LengthUnit::Millimetre)?;
    let mut planes: Vec<f64> = mesh.points().iter().map(|p| p.x).collect();
    planes.sort_by(f64::total_cmp);
    planes.dedup();
    let sum = total(&slab_moments(&mesh, &planes));
    approx::assert_relative_eq!(sum.volume, mesh.mass_properties().volume, max_relative = 1e-12);
    Ok(())
}

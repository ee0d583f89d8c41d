//! Shells that overlap are united in the cuts: what two of them share counts once.

use approx::assert_relative_eq;
use layload_core::LengthUnit;
use layload_core::mesh::Mesh;
use layload_core::section::{Loop, Section, VolumeMoments, planes, sections, slab_moments_from_sections};

use super::Tested;
use crate::mesh::files;
use crate::mesh::shapes::{Solid, motion};

#[test]
fn two_blocks() -> Tested {
    let block = |size: [f64; 3], place: [f64; 3]| Solid::block(size).moved(&motion([0.0; 3], place));
    let both = block([0.04, 0.02, 0.01], [0.0; 3]).with(&block([0.04, 0.02, 0.01], [0.0, 0.012, 0.004])).mesh()?;
    let shared = 0.008 * 0.006;
    let (apart, united) = (&sections(&both, &[0.013], false)[0], &sections(&both, &[0.013], true)[0]);
    assert_relative_eq!(apart.properties.area, 4e-4, max_relative = 1e-12);
    // The union works on a grid finer than the rounding of floats.
    assert_relative_eq!(united.properties.area, 4e-4 - shared, max_relative = 1e-12);
    assert_eq!((apart.loops.len(), united.loops.len()), (2, 1));
    // Both blocks are alike about the middle of the union.
    assert!((united.properties.centroid - nalgebra::Vector2::new(0.016, 0.007)).norm() < 1e-9);
    Ok(())
}

#[test]
fn one_within_the_other_and_one_apart() -> Tested {
    let block = |side: f64, place: f64| Solid::block([side; 3]).moved(&motion([0.0; 3], [0.0, place, place]));
    let three = block(0.02, 0.0).with(&block(0.01, 0.005)).with(&block(0.01, 0.05)).mesh()?;
    let united = &sections(&three, &[0.005], true)[0];
    assert_relative_eq!(united.properties.area, 5e-4, max_relative = 1e-12);
    assert_eq!(united.loops.len(), 2);
    Ok(())
}

#[test]
fn a_void_stays_empty_unless_filled() -> Tested {
    let block = |side: f64, place: f64| Solid::block([side; 3]).moved(&motion([0.0; 3], [place; 3]));
    let hollow = block(0.03, 0.0).with(&block(0.02, 0.005).inside_out());
    let united = &sections(&hollow.mesh()?, &[0.015], true)[0];
    assert_relative_eq!(united.properties.area, 5e-4, max_relative = 1e-12);
    let filled = hollow.with(&block(0.02, 0.005));
    assert_relative_eq!(sections(&filled.mesh()?, &[0.015], true)[0].properties.area, 9e-4, max_relative = 1e-12);
    Ok(())
}

#[test]
fn without_overlap_uniting_changes_nothing() -> Tested {
    let (mesh, _) = Mesh::from_stl(&files::test_mesh("oil_hole_rod")?, LengthUnit::Millimetre)?;
    let (low, high) = mesh.bounds();
    let planes: Vec<f64> = (1..40).map(|k| low.x + (high.x - low.x) * f64::from(k) / 40.3).collect();
    for (a, b) in sections(&mesh, &planes, false).iter().zip(&sections(&mesh, &planes, true)) {
        assert_relative_eq!(a.properties.area, b.properties.area, max_relative = 1e-12);
        assert_relative_eq!(a.properties.principal().1, b.properties.principal().1, max_relative = 1e-12);
    }
    Ok(())
}

#[test]
fn volume_of_the_union() -> Tested {
    let (mesh, _) = Mesh::from_stl(&files::test_mesh("overlapping_shells")?, LengthUnit::Millimetre)?;
    let (low, high) = mesh.bounds();
    let truth = files::number(&files::truths()?["tests/meshes/overlapping_shells.stl"]["united_volume_mm3"]);
    let count = 400;
    let planes: Vec<f64> =
        (0..count).map(|k| low.x + (high.x - low.x) * (f64::from(k) + 0.5) / f64::from(count)).collect();
    let slabs = slab_moments_from_sections(&sections(&mesh, &planes, true), low.x, high.x);
    assert_eq!(slabs.len(), planes.len() + 1);
    let volume = slabs.iter().fold(VolumeMoments::default(), |sum, slab| sum.plus(slab, 1.0)).volume * 1e9;
    // Straight lines between cuts 0.3 mm apart: the round ends and the mouths of the bores bend away by some 0.1 %.
    assert_relative_eq!(volume, truth, max_relative = 2e-3);
    let counted_twice = mesh.mass_properties().volume * 1e9;
    assert!(counted_twice > 1.01 * truth, "the shells do not overlap enough to tell");
    Ok(())
}

#[test]
fn moments_from_sections_come_close_to_the_exact_ones() -> Tested {
    let (mesh, _) = Mesh::from_stl(&files::test_mesh("solid_header")?, LengthUnit::Millimetre)?;
    let (low, high) = mesh.bounds();
    let count = 400;
    let planes: Vec<f64> =
        (0..count).map(|k| low.x + (high.x - low.x) * (f64::from(k) + 0.5) / f64::from(count)).collect();
    let close = slab_moments_from_sections(&sections(&mesh, &planes, false), low.x, high.x);
    let exact = layload_core::section::slab_moments(&mesh, &planes);
    let sum = |slabs: &[VolumeMoments]| slabs.iter().fold(VolumeMoments::default(), |sum, slab| sum.plus(slab, 1.0));
    let (close, exact) = (sum(&close), sum(&exact));
    // As above.
    assert_relative_eq!(close.volume, exact.volume, max_relative = 2e-3);
    assert_relative_eq!(close.polar, exact.polar, max_relative = 2e-3);
    for k in 0..3 {
        assert_relative_eq!(close.first[k], exact.first[k], max_relative = 2e-3);
    }
    assert_relative_eq!(close.xz, exact.xz, max_relative = 2e-3);
    assert_relative_eq!(close.yz, exact.yz, max_relative = 2e-3, epsilon = 2e-3 * exact.xz.abs());
    Ok(())
}

/// A part sheared along a plane and turned cuts into outlines that nearly coincide along whole sides. On a coarse grid
/// the union splits them into ever more pieces; found by the fuzz target `sections`.
#[test]
fn sides_that_nearly_coincide_end() -> Tested {
    let (mesh, _) = Mesh::from_stl(&files::test_mesh("one_bore")?, LengthUnit::Millimetre)?;
    let turn = nalgebra::Rotation3::from_axis_angle(&nalgebra::Vector3::x_axis(), 325.09_f64.to_radians());
    let sheared = |p: &nalgebra::Point3<f64>| {
        let by = if p.y > -0.0057 { 0.15297 } else { 0.0 };
        turn * nalgebra::Point3::new(p.x + by, p.y, p.z)
    };
    let mesh = Mesh::from_facets(mesh.points().iter().map(sheared).collect(), mesh.facets().to_vec())?;
    let (low, high) = mesh.bounds();
    for k in 0..30 {
        united_with_few_corners(&mesh, low.x + (high.x - low.x) * (f64::from(k) + 0.5) / 30.0);
    }
    Ok(())
}

/// A rod bent, turned and flattened to a 256th has sides that nearly coincide and cross themselves. Crossings rounded to the
/// union's grid made new ones without end; found by the fuzz target `sections`.
#[test]
fn flattened_sides_that_cross_end() -> Tested {
    let (mesh, _) = Mesh::from_stl(&files::test_mesh("solid_header")?, LengthUnit::Millimetre)?;
    let mut points: Vec<nalgebra::Point3<f64>> = mesh.points().to_vec();
    let count = points.len();
    let push = |point: &mut nalgebra::Point3<f64>, by: [f64; 3]| *point += nalgebra::Vector3::from(by) * 1e-5;
    push(&mut points[65_535 % count], [21_074.0, 185.0, 8546.0]);
    points.iter_mut().filter(|p| p.y > 2304e-5).for_each(|p| p.x += 21_504e-5);
    push(&mut points[2304 % count], [-20_703.0, 22_272.0, 21_507.0]);
    let about = |axis: nalgebra::Unit<nalgebra::Vector3<f64>>, degrees: f64| {
        nalgebra::Rotation3::from_axis_angle(&axis, degrees.to_radians())
    };
    let turn = about(nalgebra::Vector3::x_axis(), 110.96) * about(nalgebra::Vector3::z_axis(), 10.19);
    for point in &mut points {
        *point = turn * *point;
    }
    points[11_072 % count] = points[11_051 % count];
    for point in &mut points {
        point.y /= 256.0;
    }
    let mesh = Mesh::from_facets(points, mesh.facets().to_vec())?;
    let (low, high) = mesh.bounds();
    for plane in planes(&mesh, low.x, high.x, 6, true) {
        united_with_few_corners(&mesh, plane);
    }
    Ok(())
}

/// A rod sheared, flattened and turned out of its plane: 153 corners became 240 000 of them, minutes a part; found by the
/// fuzz target `sections`.
#[test]
fn flat_outlines_turned_out_of_their_plane_end() -> Tested {
    let (mesh, _) = Mesh::from_stl(&files::test_mesh("pin")?, LengthUnit::Millimetre)?;
    let turn = nalgebra::Rotation3::from_axis_angle(&nalgebra::Vector3::z_axis(), (-0.01_f64).to_radians());
    let flattened = |p: &nalgebra::Point3<f64>| {
        let mut p = nalgebra::Point3::new(p.x, p.y * -22_103.0 / 256.0, p.z);
        p.x += if p.y > 0.00357 { 0.25191 } else { 0.0 };
        p.z -= if p.y > 0.26371 { 0.00203 } else { 0.0 };
        turn * p
    };
    let points: Vec<_> = mesh.points().iter().map(flattened).collect();
    let mesh = Mesh::from_facets(points, mesh.facets().to_vec())?;
    let (low, high) = mesh.bounds();
    for plane in planes(&mesh, low.x, high.x, 20, true) {
        united_with_few_corners(&mesh, plane);
    }
    Ok(())
}

/// A union does not care how far the outlines are drawn out or sheared; only where rounding leaves no width are they left
/// as they are.
#[test]
fn drawn_out_and_sheared_alike() -> Tested {
    let block = |place: [f64; 3]| Solid::block([0.04, 0.02, 0.01]).moved(&motion([0.0; 3], place));
    let both = block([0.0; 3]).with(&block([0.0, 0.012, 0.004])).mesh()?;
    let area = 2.0 * 0.02 * 0.01 - 0.008 * 0.006;
    for (factor, shear) in [(1.0, 0.0), (1e3, 0.0), (1e-3, 0.0), (1e6, 0.0), (1.0, 300.0), (1e3, -70.0)] {
        let bent = |p: &nalgebra::Point3<f64>| nalgebra::Point3::new(p.x, factor * (p.y + shear * p.z), p.z);
        let mesh = Mesh::from_facets(both.points().iter().map(bent).collect(), both.facets().to_vec())?;
        let united = &sections(&mesh, &[0.013], true)[0];
        assert_eq!(united.loops.len(), 1, "drawn out {factor}, sheared {shear}");
        // Corners are rounded to 1e-16 of the length, which is as many times the width.
        assert_relative_eq!(united.properties.area, factor * area, max_relative = 1e-8);
    }
    let line = |p: &nalgebra::Point3<f64>| nalgebra::Point3::new(p.x, p.y, 1e-9 * p.z);
    let mesh = Mesh::from_facets(both.points().iter().map(line).collect(), both.facets().to_vec())?;
    assert_eq!(sections(&mesh, &[0.013], true)[0].loops.len(), 2);
    Ok(())
}

/// The union of a cut has the area that its loops wind round, and slivers where sides cross by rounding, but only some.
fn united_with_few_corners(mesh: &Mesh, plane: f64) {
    let (raw, united) = (&sections(mesh, &[plane], false)[0], &sections(mesh, &[plane], true)[0]);
    let corners = |section: &Section| section.loops.iter().map(Vec::len).sum::<usize>();
    assert!(corners(united) < 10 * corners(raw), "{} of {} at {plane}", corners(united), corners(raw));
    assert_relative_eq!(united.properties.area, wound_area(&raw.loops), max_relative = 2e-3, epsilon = 1e-9);
}

/// Area where the loops wind round more than zero times, by 100 000 lines: the midpoint rule's error is the lines' distance
/// times the outline's rise and fall.
fn wound_area(loops: &[Loop]) -> f64 {
    const LINES: usize = 100_000;
    let heights = || loops.iter().flatten().map(|p| p.y);
    let (low, high) = heights().fold((f64::INFINITY, f64::NEG_INFINITY), |(l, h), y| (l.min(y), h.max(y)));
    let step = (high - low) / LINES as f64;
    let mut length = 0.0;
    for line in 0..LINES {
        let at = low + (line as f64 + 0.5) * step;
        let mut met: Vec<(f64, i32)> = Vec::new();
        for ring in loops {
            for (k, a) in ring.iter().enumerate() {
                let b = ring[(k + 1) % ring.len()];
                if (a.y > at) != (b.y > at) {
                    met.push((a.x + (b.x - a.x) * (at - a.y) / (b.y - a.y), if a.y > at { 1 } else { -1 }));
                }
            }
        }
        met.sort_by(|a, b| a.0.total_cmp(&b.0));
        let mut winding = 0;
        for pair in met.windows(2) {
            winding += pair[0].1;
            if winding > 0 {
                length += pair[1].0 - pair[0].0;
            }
        }
    }
    length * step
}

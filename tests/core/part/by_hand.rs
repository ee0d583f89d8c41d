//! Bores named by hand instead of found.

use layload_core::LengthUnit;
use layload_core::mesh::{Body, Mesh, bodies};
use layload_core::part::{Eye, GivenBore, GivenRod, PartError, Rod, find_rod};
use nalgebra::{Point3, Vector3};

use super::truth::unit;
use super::{Tested, made};
use crate::mesh::files;

fn given(small: [f64; 4], big: [f64; 4], axis: Option<[f64; 3]>) -> GivenRod {
    let bore =
        |[x, y, z, diameter]: [f64; 4]| GivenBore { center: Point3::new(x, y, z) * 1e-3, diameter: diameter * 1e-3 };
    GivenRod { small_end: Some(bore(small)), big_end: Some(bore(big)), pin_axis: axis.map(Vector3::from) }
}

fn read(name: &str) -> Result<Vec<Body>, Box<dyn std::error::Error>> {
    Ok(bodies(Mesh::from_stl(&files::test_mesh(name)?, LengthUnit::Millimetre)?.0)?)
}

#[test]
fn what_is_said_is_taken() -> Tested {
    // A block that recognition refuses: holes of 10 mm, 50 mm apart.
    let block = read("block_two_holes")?;
    let (low, high) = block[0].mesh.bounds();
    let middle = nalgebra::center(&low, &high).coords * 1e3;
    let [small, big] = [-25.0, 25.0].map(|x| [middle.x + x, middle.y, middle.z, 10.0]);
    let rod = find_rod(block, &given(small, big, Some([0.0, 0.0, 2.0])))?;
    // What is said is where to measure; the measure is the mesh's, whose corners are rounded to single precision.
    approx::assert_relative_eq!(rod.center_distance, 0.05, max_relative = 1e-6);
    approx::assert_relative_eq!(rod.small_end.bore.diameter(), 0.01, max_relative = 1e-6);
    assert!((rod.small_end.bore.axis - Vector3::z()).norm() < 1e-6);
    // The depth is that of the block.
    approx::assert_relative_eq!(rod.big_end.depth(), (high - low).z, max_relative = 1e-9);
    Ok(())
}

/// A bore given by hand from what a rod's eye was found with: a point of its axis and its diameter.
fn of_eye(eye: &Eye, along: f64) -> GivenBore {
    GivenBore { center: eye.bore.center + eye.bore.axis * along, diameter: eye.bore.diameter() }
}

/// Whether two rods are one to the last bit.
fn same(a: &Rod, b: &Rod) -> bool {
    let ends = [(&a.small_end, &b.small_end), (&a.big_end, &b.big_end)];
    let eyes = ends.into_iter().all(|(a, b)| a.bore == b.bore && a.center == b.center && a.half == b.half);
    eyes && a.frame == b.frame && a.center_distance == b.center_distance && a.mesh.points() == b.mesh.points()
}

/// Every rod there is, both bores and each alone named by a point anywhere on the axis and a diameter a little off.
#[test]
fn what_is_named_is_what_is_found() -> Tested {
    let mut count = 0;
    for (name, value) in files::truths()?.as_object().ok_or("no files")? {
        if value["expected"] != "rod" {
            continue;
        }
        let bodies = bodies(Mesh::from_stl(&files::bytes(name)?, unit(value))?.0)?;
        let found = find_rod(bodies.clone(), &GivenRod::default())?;
        let depth = found.small_end.depth();
        for along in [0.0, 0.5 * depth, -3.0 * depth] {
            let mut small = of_eye(&found.small_end, along);
            let big = of_eye(&found.big_end, -along);
            small.diameter *= 1.02;
            let axis = Some(-found.small_end.bore.axis * 3.0);
            for given in [
                GivenRod { small_end: Some(small), big_end: Some(big), pin_axis: axis },
                GivenRod { small_end: Some(small), big_end: Some(big), pin_axis: None },
                GivenRod { small_end: Some(small), ..GivenRod::default() },
                GivenRod { big_end: Some(big), ..GivenRod::default() },
            ] {
                let named = find_rod(bodies.clone(), &given).map_err(|error| format!("{name}: {error}"))?;
                assert!(same(&named, &found), "{name}, {along} along, {given:?}");
            }
        }
        count += 1;
    }
    assert!(count >= 19, "{count}");
    Ok(())
}

#[test]
fn a_half_bore_named_is_a_half_bore() -> Tested {
    let found = find_rod(read("half_bore_no_cap")?, &GivenRod::default())?;
    assert!(found.big_end.half);
    let big = of_eye(&found.big_end, 0.003);
    let given = GivenRod {
        small_end: Some(of_eye(&found.small_end, 0.0)),
        big_end: Some(big),
        pin_axis: Some(found.big_end.bore.axis),
    };
    assert!(same(&find_rod(read("half_bore_no_cap")?, &given)?, &found));
    Ok(())
}

/// A seat that recognition would not let lead does so when it is named.
#[test]
fn the_seat_that_is_named_carries() -> Tested {
    let found = find_rod(read("counterbored")?, &GivenRod::default())?;
    let [bore, counterbore] = [0, 1].map(|seat: usize| found.small_end.bore.seats[seat]);
    let small = GivenBore { diameter: 2.0 * counterbore.radius, ..of_eye(&found.small_end, 0.0) };
    let given = GivenRod { small_end: Some(small), ..GivenRod::default() };
    let named = find_rod(read("counterbored")?, &given)?;
    assert_eq!(named.small_end.radius(), counterbore.radius);
    // Its own middle is where the load acts: here from face to face 14 mm, of which the counterbore has 3.
    let shift = (named.small_end.bore.center - found.small_end.bore.center).norm();
    approx::assert_relative_eq!(shift, f64::midpoint(bore.depth(), counterbore.depth()), max_relative = 1e-6);
    Ok(())
}

#[test]
fn a_filled_bore_is_refused() -> Tested {
    let rod = made::one_shell()?;
    let plugged = made::read(&rod)?;
    let given = given([5.0, -4.0, 7.0, 9.0], [91.933, 19.294, 7.0, 24.0], Some([0.0, 0.0, 1.0]));
    let error = find_rod(plugged, &given).err();
    assert!(matches!(error, Some(PartError::GivenDoesNotFit { .. })), "no wall of 9 mm: {error:?}");
    Ok(())
}

#[test]
fn by_hand_and_found_are_the_same() -> Tested {
    let truth = &files::truths()?["tests/meshes/solid_header.stl"];
    let [small, big] = ["small", "big"].map(|end| {
        let [x, y, z] = files::triple(&truth[format!("{end}_center_mm")]);
        [x, y, z, files::number(&truth[format!("{end}_bore_diameter_mm")])]
    });
    let found = find_rod(read("solid_header")?, &GivenRod::default())?;
    let named = find_rod(read("solid_header")?, &given(small, big, Some([0.0, 0.0, 1.0])))?;
    // What is asked of recognition.
    assert!((found.center_distance - named.center_distance).abs() < 5e-5);
    assert!((found.frame.rows() - named.frame.rows()).norm() < 1e-3);
    for (ours, said) in [(&found.small_end, &named.small_end), (&found.big_end, &named.big_end)] {
        assert!((ours.depth() - said.depth()).abs() < 1e-5);
        assert!((ours.radius() - said.radius()).abs() < 5e-5);
    }
    Ok(())
}

fn refused(given: &GivenRod) -> Result<bool, Box<dyn std::error::Error>> {
    Ok(matches!(find_rod(read("solid_header")?, given), Err(PartError::GivenDoesNotFit { .. })))
}

#[test]
fn what_does_not_fit_is_refused() -> Tested {
    let axis = Some([0.0, 0.0, 1.0]);
    let (small, big) = ([5.0, -4.0, 7.0, 13.0], [91.933, 19.294, 7.0, 24.0]);
    assert!(!refused(&given(small, big, axis))?);
    for bad in [[500.0, -4.0, 7.0, 13.0], [5.0, -4.0, 7.0, 0.0], [5.0, -4.0, 7.0, -13.0], big] {
        assert!(refused(&given(bad, big, axis))?, "{bad:?}");
        assert!(refused(&given(big, bad, axis))?, "{bad:?}");
    }
    assert!(refused(&given(small, big, Some([0.0; 3])))?, "axis of no length");
    assert!(refused(&given(small, big, Some([86.933, 23.294, 0.0])))?, "axis along the rod");
    Ok(())
}

#[test]
fn the_length_of_the_axis_does_not_matter() -> Tested {
    let (small, big) = ([5.0, -4.0, 7.0, 13.0], [91.933, 19.294, 7.0, 24.0]);
    let unit = find_rod(read("solid_header")?, &given(small, big, Some([0.0, 0.0, 1.0])))?;
    for length in [1e-200, 1e-13, 1e200] {
        let rod = find_rod(read("solid_header")?, &given(small, big, Some([0.0, 0.0, length])))?;
        assert_eq!(rod.frame, unit.frame, "{length}");
    }
    Ok(())
}

#[test]
fn diameters_that_cannot_be() -> Tested {
    let axis = Some([0.0, 0.0, 1.0]);
    let (small, big) = ([5.0, -4.0, 7.0, 13.0], [91.933, 19.294, 7.0, 24.0]);
    for diameter in [f64::NAN, f64::INFINITY, 400.0] {
        let bad = [5.0, -4.0, 7.0, diameter];
        assert!(refused(&given(bad, big, axis))?, "{diameter}");
    }
    assert!(refused(&given([f64::NAN, -4.0, 7.0, 13.0], big, axis))?);
    assert!(refused(&given(small, big, Some([f64::NAN, 0.0, 1.0])))?);
    assert!(refused(&given(small, big, Some([0.0, 0.0, f64::INFINITY])))?);
    // Nor is an axis of no direction passed over when the bores are to be found.
    for axis in [[0.0; 3], [f64::NAN, 0.0, 1.0]] {
        let given = GivenRod { pin_axis: Some(Vector3::from(axis)), ..GivenRod::default() };
        assert!(refused(&given)?, "{axis:?}");
    }
    Ok(())
}

//! A piston named by hand instead of found.

use layload_core::LengthUnit;
use layload_core::mesh::{Body, Mesh, bodies};
use layload_core::part::{GivenBore, GivenGroove, GivenPiston, PartError, find_piston};
use nalgebra::{Point3, Vector3};

use super::Tested;
use crate::mesh::files;

fn read(name: &str) -> Result<Vec<Body>, Box<dyn std::error::Error>> {
    Ok(bodies(Mesh::from_stl(&files::test_mesh(name)?, LengthUnit::Millimetre)?.0)?)
}

fn named() -> GivenPiston {
    let bore =
        |z: f64, diameter: f64| Some(GivenBore { center: Point3::new(0.0, 0.0, z) * 1e-3, diameter: diameter * 1e-3 });
    GivenPiston {
        crown_direction: Some(Vector3::z() * 3.0),
        body: bore(5.0, 33.7),
        pin_bore: bore(0.0, 10.0),
        pin_axis: Some(Vector3::x()),
        grooves: Some(vec![
            GivenGroove { below_crown: 4e-3, width: 1.5e-3, depth: 1.7e-3 },
            GivenGroove { below_crown: 8e-3, width: 1.5e-3, depth: 1.7e-3 },
        ]),
    }
}

#[test]
fn by_hand_and_found_are_the_same() -> Tested {
    let (found, said) =
        (find_piston(read("piston")?, &GivenPiston::default())?, find_piston(read("piston")?, &named())?);
    // What is asked of recognition: 0.05 mm.
    assert!((found.compression_height - said.compression_height).abs() < 5e-5);
    assert!((found.frame.rows() - said.frame.rows()).norm() < 2e-3);
    assert_eq!(found.pin.bosses.len(), said.pin.bosses.len());
    for (a, b) in found.grooves.iter().zip(&said.grooves) {
        assert!((a.from - b.from).abs() < 5e-5 && (a.to - b.to).abs() < 5e-5, "{a:?} {b:?}");
    }
    Ok(())
}

#[test]
fn what_cannot_be_seen_can_be_said() -> Tested {
    // Closed at both ends: its crown cannot be told, but named it is taken.
    assert!(matches!(find_piston(read("plug")?, &GivenPiston::default()), Err(PartError::NotAPiston { .. })));
    let given = GivenPiston { crown_direction: Some(-Vector3::z()), ..GivenPiston::default() };
    let piston = find_piston(read("plug")?, &given)?;
    // Built 34 mm long with its bore at 15 mm; the crown is the lower end.
    assert!((piston.compression_height - 15e-3).abs() < 5e-5, "{}", piston.compression_height);
    Ok(())
}

#[test]
fn what_does_not_fit_is_refused() -> Tested {
    let refused = |change: &dyn Fn(&mut GivenPiston)| -> Result<bool, Box<dyn std::error::Error>> {
        let mut given = named();
        change(&mut given);
        Ok(matches!(find_piston(read("piston")?, &given), Err(PartError::GivenDoesNotFit { .. })))
    };
    assert!(!refused(&|_| {})?);
    assert!(refused(&|g| g.crown_direction = Some(Vector3::zeros()))?);
    assert!(refused(&|g| g.crown_direction = Some(Vector3::new(f64::NAN, 0.0, 1.0)))?);
    assert!(refused(&|g| g.pin_axis = Some(Vector3::z()))?, "pin along the cylinder");
    for diameter in [0.0, -5.0, f64::NAN, 1e3] {
        assert!(refused(&|g| g.body = g.body.map(|b| GivenBore { diameter, ..b }))?, "body {diameter}");
        assert!(refused(&|g| g.pin_bore = g.pin_bore.map(|b| GivenBore { diameter, ..b }))?, "pin {diameter}");
    }
    for change in [
        GivenGroove { below_crown: -1e-3, width: 1.5e-3, depth: 1.7e-3 },
        GivenGroove { below_crown: 4e-3, width: 0.0, depth: 1.7e-3 },
        GivenGroove { below_crown: 4e-3, width: 1.5e-3, depth: 20e-3 },
        GivenGroove { below_crown: f64::NAN, width: 1.5e-3, depth: 1.7e-3 },
    ] {
        assert!(refused(&|g| g.grooves = Some(vec![change]))?, "{change:?}");
    }
    Ok(())
}

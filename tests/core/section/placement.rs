//! Planes are placed within the stretch asked for, in rising order, denser where the area changes.

use layload_core::LengthUnit;
use layload_core::mesh::Mesh;
use layload_core::section::planes;

use super::Tested;
use crate::mesh::files;
use crate::mesh::shapes::{Region, Solid};

#[test]
fn as_many_as_asked_for_in_rising_order() -> Tested {
    let (mesh, _) = Mesh::from_stl(&files::bytes("samples/thin_web_rod.stl")?, LengthUnit::Millimetre)?;
    let (low, high) = mesh.bounds();
    for count in [20, 51, 200, 777] {
        let found = planes(&mesh, low.x, high.x, count, false);
        assert!(found.len().abs_diff(count) <= 1, "{} planes instead of {count}", found.len());
        assert!(found.is_sorted_by(|a, b| a < b), "planes coincide");
        assert!(found.iter().all(|&x| low.x < x && x < high.x));
    }
    Ok(())
}

#[test]
fn a_prism_is_cut_evenly() -> Tested {
    let mesh = Solid::prism(&Region::rectangle(0.02, 0.01), 0.0, 0.1).mesh()?;
    let found = planes(&mesh, 0.0, 0.1, 100, false);
    let gaps: Vec<f64> = found.windows(2).map(|pair| pair[1] - pair[0]).collect();
    assert!(gaps.iter().all(|&gap| gap < 0.1 / 50.0 + 1e-12), "{gaps:?}");
    Ok(())
}

#[test]
fn steps_are_cut_more_densely() -> Tested {
    let bar = Solid::prism(&Region::rectangle(0.02, 0.01), 0.0, 0.05).with(&Solid::prism(
        &Region::rectangle(0.01, 0.005),
        0.05,
        0.1,
    ));
    let found = planes(&bar.mesh()?, 0.0, 0.1, 100, false);
    let near = found.iter().filter(|&&x| (x - 0.05).abs() < 0.002).count();
    let elsewhere = found.iter().filter(|&&x| (x - 0.02).abs() < 0.002).count();
    assert!(near > 3 * elsewhere, "{near} near the step, {elsewhere} in the plain part");
    Ok(())
}

#[test]
fn beside_the_part() -> Tested {
    let mesh = Solid::block([0.03, 0.02, 0.01]).mesh()?;
    let found = planes(&mesh, 1.0, 2.0, 40, true);
    assert!(!found.is_empty() && found.iter().all(|&x| 1.0 < x && x < 2.0));
    Ok(())
}

//! Units of the coordinates.

use layload_core::LengthUnit;
use layload_core::fitting_units;
use layload_core::mesh::Mesh;

use super::shapes::Solid;
use super::{Tested, stl};

#[test]
fn a_block_in_each_unit() -> Tested {
    // 1 inch is 25.4 mm exactly (ISO 80000-3).
    let sides = [
        (LengthUnit::Millimetre, 0.001),
        (LengthUnit::Centimetre, 0.01),
        (LengthUnit::Inch, 0.0254),
        (LengthUnit::Metre, 1.0),
    ];
    for (unit, side) in sides {
        let (mesh, _) = Mesh::from_stl(&stl::binary(&Solid::block([2.0; 3])), unit)?;
        let (low, high) = mesh.bounds();
        // Rounding of one multiplication.
        approx::assert_relative_eq!((high - low).x, 2.0 * side, max_relative = 1e-15);
    }
    Ok(())
}

#[test]
fn words_are_those_of_the_job_file() -> Tested {
    for unit in [LengthUnit::Millimetre, LengthUnit::Centimetre, LengthUnit::Inch, LengthUnit::Metre] {
        assert_eq!(serde_json::to_value(unit)?, unit.word());
    }
    Ok(())
}

#[test]
fn rods_of_small_engines_in_each_unit() {
    // Greatest lengths from 25 to 400 mm: in centimetres 2.5 to 40, in inches 1 to 16, in metres 0.025 to 0.4. Longer than
    // 16 units may be a short part in millimetres.
    let millimetres = |length: f64| fitting_units(length) == [LengthUnit::Millimetre];
    for length_mm in [25.0, 60.0, 125.0, 250.0, 400.0] {
        assert!(millimetres(length_mm));
        for unit in [LengthUnit::Centimetre, LengthUnit::Inch, LengthUnit::Metre] {
            let length = length_mm / (unit.metres() * 1e3);
            assert!(fitting_units(length).contains(&unit) || millimetres(length), "{length_mm} mm in {}", unit.word());
        }
    }
    assert_eq!(fitting_units(0.125), [LengthUnit::Metre]);
    assert_eq!(fitting_units(1.0), [LengthUnit::Inch]);
    assert_eq!(fitting_units(5.0), [LengthUnit::Centimetre, LengthUnit::Inch]);
    assert_eq!(fitting_units(1e-3), []);
}

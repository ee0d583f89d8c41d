//! Units of the coordinates.

use layload_core::mesh::{LengthUnit, Mesh, likely_unit};

use super::shapes::Solid;
use super::{Tested, stl};

#[test]
fn a_block_in_each_unit() -> Tested {
    // 1 inch is 25.4 mm exactly (ISO 80000-3).
    for (unit, side) in [(LengthUnit::Millimetre, 0.001), (LengthUnit::Inch, 0.0254), (LengthUnit::Metre, 1.0)] {
        let (mesh, _) = Mesh::from_stl(&stl::binary(&Solid::block([2.0; 3])), unit)?;
        let (low, high) = mesh.bounds();
        // Rounding of one multiplication.
        approx::assert_relative_eq!((high - low).x, 2.0 * side, max_relative = 1e-15);
    }
    Ok(())
}

#[test]
fn words_are_those_of_the_job_file() -> Tested {
    for unit in [LengthUnit::Millimetre, LengthUnit::Inch, LengthUnit::Metre] {
        assert_eq!(serde_json::to_value(unit)?, unit.word());
    }
    Ok(())
}

#[test]
fn rods_of_small_engines_in_each_unit() {
    // Greatest extents from 25 to 400 mm. In inches that is 1 to 16, in metres 0.025 to 0.4.
    for extent_mm in [25.0, 60.0, 125.0, 250.0, 400.0] {
        assert_eq!(likely_unit(extent_mm), LengthUnit::Millimetre, "{extent_mm}");
        assert_eq!(likely_unit(extent_mm / 25.4), LengthUnit::Inch, "{extent_mm}");
        assert_eq!(likely_unit(extent_mm / 1000.0), LengthUnit::Metre, "{extent_mm}");
    }
}

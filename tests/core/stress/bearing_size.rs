//! C10: boundary dimensions of rolling bearings.

use approx::assert_relative_eq;
use layload_core::stress::{BearingSize, bearing_designations};

type Tested = Result<(), Box<dyn std::error::Error>>;

#[test]
fn suffixes_and_spaces_do_not_matter() {
    assert_eq!(BearingSize::of("6204-2RS"), BearingSize::of(" 6204 "));
    for unknown in ["6300", "", "620", "62041"] {
        assert_eq!(BearingSize::of(unknown), None, "{unknown}");
    }
}

#[test]
fn bore_follows_the_designation() -> Tested {
    // ISO 15's bore numbers: 00 to 03 are 10, 12, 15 and 17 mm, from 04 on five times the number.
    let mut count = 0;
    for name in bearing_designations() {
        let number: usize = name[2..].parse()?;
        let expected = [10.0, 12.0, 15.0, 17.0].get(number).copied().unwrap_or(5.0 * number as f64);
        let size = BearingSize::of(name).ok_or(name)?;
        assert_relative_eq!(size.bore * 1e3, expected, max_relative = 1e-12);
        assert!(size.width < size.outside && size.bore < size.outside);
        let inner = size.outer_ring_inner_radius();
        assert!(2.0 * inner > size.bore && 2.0 * inner < size.outside);
        count += 1;
    }
    assert_eq!(count, 20);
    Ok(())
}

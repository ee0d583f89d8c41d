//! A clamped cap whose plastic creeps.

use approx::assert_relative_eq;
use layload_core::life::Findley;
use layload_core::stress::Clamp;

type Tested = Result<(), Box<dyn std::error::Error>>;

/// Two M5 steel studs over 20 mm of nylon (invented).
const CAP: Clamp = Clamp { stud_stiffness: 2.9e8, area: 1.6e-4, length: 0.02, modulus: 2.0e9 };

#[test]
fn closed_forms() -> Tested {
    assert_relative_eq!(CAP.relaxed_preload(3000.0, 0.0, |_| 0.0)?, 3000.0, max_relative = 1e-12);
    // Creep in proportion to stress, n times the elastic strain: F = F_0 (1/k + l/AE) / (1/k + (1 + n) l/AE).
    let (stud, plastic) = (1.0 / 2.9e8, 0.02 / (1.6e-4 * 2.0e9));
    let expected = 3000.0 * (stud + plastic) / (stud + 1.7 * plastic);
    assert_relative_eq!(CAP.relaxed_preload(3000.0, 0.0, |s| 0.7 * s / 2.0e9)?, expected, max_relative = 1e-12);
    // Heat alone: dF = growth / (1/k + l/AE).
    let more = 3000.0 + 20e-6 / (stud + plastic);
    assert_relative_eq!(CAP.relaxed_preload(3000.0, 20e-6, |_| 0.0)?, more, max_relative = 1e-12);
    assert_relative_eq!(CAP.relaxed_preload(3000.0, -1e-3, |_| 0.0)?, 0.0);
    Ok(())
}

#[test]
fn fades_with_time() -> Tested {
    let law = Findley::new(4e-4, 12e6, 0.22, 110e3, 296.15)?;
    let mut last = 3000.0;
    for hours in [1.0, 10.0, 100.0, 1000.0] {
        let left = CAP.relaxed_preload(3000.0, 0.0, |s| law.strain(s, hours * 3600.0, 340.0).unwrap_or(f64::NAN))?;
        assert!(left > 0.0 && left < last, "{hours} h: {left}");
        last = left;
    }
    Ok(())
}

#[test]
fn bad_numbers_are_refused() {
    for bad in [0.0, -1.0, f64::NAN, f64::INFINITY] {
        assert!(Clamp { stud_stiffness: bad, ..CAP }.relaxed_preload(1.0, 0.0, |_| 0.0).is_err());
        assert!(Clamp { area: bad, ..CAP }.relaxed_preload(1.0, 0.0, |_| 0.0).is_err());
        assert!(Clamp { length: bad, ..CAP }.relaxed_preload(1.0, 0.0, |_| 0.0).is_err());
        assert!(Clamp { modulus: bad, ..CAP }.relaxed_preload(1.0, 0.0, |_| 0.0).is_err());
    }
    assert!(CAP.relaxed_preload(-1.0, 0.0, |_| 0.0).is_err());
    assert!(CAP.relaxed_preload(1.0, f64::NAN, |_| 0.0).is_err());
}

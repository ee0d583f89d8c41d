//! The critical distance of printed plastics, from the rows of the evidence base.

use layload_core::material::CRITICAL_DISTANCE;

const NOTCHED: &str = include_str!("../../../core/src/material/evidence/holes_notches.csv");
const PLAIN: &str = include_str!("../../../core/src/material/evidence/fatigue.csv");

/// Value of a row, MPa.
fn value(text: &str, id: &str) -> f64 {
    let mut reader = csv::Reader::from_reader(text.as_bytes());
    let headers = reader.headers().unwrap().clone();
    let column = headers.iter().position(|name| name == "value").unwrap();
    let row = reader.records().map(Result::unwrap).find(|row| &row[0] == id).unwrap();
    row[column].parse().unwrap()
}

/// Stress at half of `length` below a notch of root radius `radius` (both mm) over what a crack as deep would have at 1 mm
/// (Creager and Paris 1967).
fn at_half(length: f64, radius: f64) -> f64 {
    (length / 2.0 + radius) / libm::pow(length + radius, 1.5)
}

/// The length at which two notches of equal depth, at their fatigue strengths, have one stress at half of it.
fn length(of: (f64, f64), other: (f64, f64)) -> f64 {
    let wanted = of.1 / other.1;
    let (mut low, mut high) = (1e-3, 20.0);
    for _ in 0..200 {
        let middle = f64::sqrt(low * high);
        // The blunter of both bears more, the less so the longer the length.
        if at_half(middle, other.0) / at_half(middle, of.0) > wanted { low = middle } else { high = middle }
    }
    low
}

/// V notches taken as cracks, U notches of 1 and 3 mm; fully reversed and pulled alone. The length in use is below all four.
#[test]
fn the_length_in_use_is_below_what_tests_give() {
    let of = |id| value(NOTCHED, id);
    let lengths = [
        length((1.0, of("hn002")), (0.0, of("hn001"))),
        length((3.0, of("hn003")), (1.0, of("hn002"))),
        length((1.0, of("hn005")), (0.0, of("hn004"))),
        length((3.0, of("hn006")), (1.0, of("hn005"))),
    ];
    println!("critical distances, mm: {lengths:.2?}");
    let least = lengths.iter().copied().fold(f64::INFINITY, f64::min);
    assert!(CRITICAL_DISTANCE * 1e3 <= least, "{lengths:?}");
    // Rounded down, not made up: within a fifth of the least.
    assert!(CRITICAL_DISTANCE * 1e3 > 0.8 * least, "{lengths:?}");
    // Plain bars bear more than any notched ones.
    for (plain, notched) in [("fa009", "hn003"), ("fa013", "hn006")] {
        assert!(value(PLAIN, plain) > of(notched));
    }
}

//! Counts equal to those of a general library, the package `rainflow` 3.2.0 of the Python index; see `tests/reference/rainflow`.

use serde::Deserialize;

use super::{Tested, counted};

#[derive(Deserialize)]
struct Case {
    name: String,
    history: Vec<f64>,
    cycles: Vec<[f64; 3]>,
}

#[test]
fn equal_to_the_general_library() -> Tested {
    let cases: Vec<Case> = serde_json::from_str(include_str!("../../reference/rainflow/counts.json"))?;
    assert_eq!(cases.len(), 4);
    for case in cases {
        let mut got: Vec<[f64; 3]> = counted(&case.history)?.iter().map(|c| [c.range, c.mean, c.count]).collect();
        got.sort_by(|a, b| a.partial_cmp(b).unwrap_or(std::cmp::Ordering::Equal));
        // Multiples of an eighth throughout: exact.
        assert_eq!(got, case.cycles, "{}", case.name);
    }
    Ok(())
}

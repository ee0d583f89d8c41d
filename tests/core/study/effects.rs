use std::f64::consts::PI;

use layload_core::study::{InputValue, StudyPlan, first_and_total};

/// Ishigami & Homma's function with a = 7, b = 0.1 on three even inputs from -pi to pi (1990): the indices of first order
/// are 0.3139, 0.4424 and 0, of total order 0.5576, 0.4424 and 0.2437 (Saltelli et al., Global Sensitivity Analysis, 2008;
/// also from its closed form, worked out here).
#[test]
fn ishigami() {
    let names = ["rpm", "infill_percent", "piston_pin_c"];
    let inputs: String =
        names.map(|name| format!("[[inputs]]\nname = \"{name}\"\nlow = -{PI}\nhigh = {PI}\n")).concat();
    let text = format!("job = \"j\"\nmeshes = [\"a\"]\nsampling = \"sobol\"\ncases = 40960\nseed = 1\n{inputs}");
    let plan = StudyPlan::from_toml(&text).unwrap();
    let value = |case: usize| {
        let x: Vec<f64> =
            plan.case(case).iter().map(|v| if let InputValue::Number(x) = v { *x } else { 0.0 }).collect();
        let (sine, fourth) = (libm::sin(x[1]), x[2] * x[2] * x[2] * x[2]);
        Some(libm::sin(x[0]) * (1.0 + 0.1 * fourth) + 7.0 * sine * sine)
    };
    let values: Vec<Option<f64>> = (0..plan.count()).map(value).collect();
    let (first, total) = first_and_total(3, &values).unwrap();
    let (a, b) = (7.0_f64, 0.1_f64);
    let fourth = PI * PI * PI * PI;
    let own = 0.5 * (1.0 + b * fourth / 5.0) * (1.0 + b * fourth / 5.0);
    let second = a * a / 8.0;
    let together = 8.0 * b * b * fourth * fourth / 225.0;
    let whole = own + second + together;
    // 8192 rows of a scrambled sequence: errors of the order of 1 / 8192 times some tens.
    for (k, (one, all)) in [(own, own + together), (second, second), (0.0, together)].into_iter().enumerate() {
        assert!((first[k] - one / whole).abs() < 0.01, "{k} {first:?}");
        assert!((total[k] - all / whole).abs() < 0.01, "{k} {total:?}");
    }
}

#[test]
fn what_never_varies_has_no_indices_and_failed_cases_drop_their_block() {
    assert!(first_and_total(2, &[Some(1.0); 40]).is_none());
    assert!(first_and_total(2, &[]).is_none());
    let mut values: Vec<Option<f64>> = (0..400).map(|k| Some(f64::from(k % 7))).collect();
    let all = first_and_total(2, &values[..396]).unwrap();
    values[398] = None;
    assert_eq!(first_and_total(2, &values).unwrap(), all);
}

use layload_core::study::{InputValue, StudyError, StudyPlan};

pub(super) fn plan(sampling: &str, cases: usize, inputs: &str) -> Result<StudyPlan, StudyError> {
    StudyPlan::from_toml(&format!(
        "job = \"j.toml\"\nmeshes = [\"a.stl\"]\nsampling = \"{sampling}\"\ncases = {cases}\nseed = 3\n{inputs}"
    ))
}

pub(super) const TWO: &str = "[[inputs]]\nname = \"rpm\"\nlow = 1000.0\nhigh = 3000.0\n[[inputs]]\nname = \"infill_percent\"\nlow = 20.0\nhigh = 100.0\n";

fn number(value: &InputValue) -> f64 {
    match value {
        InputValue::Number(number) => *number,
        InputValue::Word(word) => panic!("{word}"),
    }
}

#[test]
fn a_matrix_has_every_level_with_every_other() {
    let inputs = "[[inputs]]\nname = \"rpm\"\nlow = 1000.0\nhigh = 3000.0\nlevels = 3\n\
                  [[inputs]]\nname = \"material\"\nwords = [\"PLA\", \"PEEK\"]\n";
    let plan = plan("matrix", 1, inputs).unwrap();
    assert_eq!(plan.count(), 6);
    let cases: Vec<(f64, InputValue)> = (0..6).map(|k| (number(&plan.case(k)[0]), plan.case(k)[1].clone())).collect();
    for rpm in [1000.0, 2000.0, 3000.0] {
        for word in ["PLA", "PEEK"] {
            assert!(cases.contains(&(rpm, InputValue::Word(word.into()))), "{rpm} {word}");
        }
    }
}

/// Each of n equal strata of each input holds one case: the definition of a Latin hypercube.
#[test]
fn a_latin_hypercube_has_one_case_in_every_stratum() {
    for count in [2, 7, 64, 1000] {
        let plan = plan("latin-hypercube", count, TWO).unwrap();
        for (input, (low, high)) in [(0, (1000.0, 3000.0)), (1, (20.0, 100.0))] {
            let mut strata: Vec<usize> = (0..count)
                .map(|k| ((number(&plan.case(k)[input]) - low) / (high - low) * count as f64) as usize)
                .collect();
            strata.sort_unstable();
            assert_eq!(strata, (0..count).collect::<Vec<_>>(), "{count}");
        }
    }
}

/// Scrambled nets keep the property of Sobol's sequence that 2^m rows put one in each of 2^m strata of every input.
#[test]
fn sobol_rows_fill_the_strata() {
    let plan = plan("sobol", 64 * 4, TWO).unwrap();
    assert_eq!(plan.count(), 256);
    for input in 0..2 {
        let (low, high) = [(1000.0, 3000.0), (20.0, 100.0)][input];
        let mut strata: Vec<usize> =
            (0..64).map(|row| ((number(&plan.case(4 * row)[input]) - low) / (high - low) * 64.0) as usize).collect();
        strata.sort_unstable();
        assert_eq!(strata, (0..64).collect::<Vec<_>>());
    }
}

/// Saltelli's blocks: two rows, then the first with one input of the second.
#[test]
fn sobol_cases_come_in_blocks() {
    let plan = plan("sobol", 40, TWO).unwrap();
    for block in 0..10 {
        let [a, b, first, second] = [0, 1, 2, 3].map(|k| plan.case(4 * block + k));
        assert_eq!((&first[0], &first[1]), (&b[0], &a[1]));
        assert_eq!((&second[0], &second[1]), (&a[0], &b[1]));
        assert_ne!(a[0], b[0]);
    }
}

#[test]
fn slips_are_refused() {
    let of = |inputs: &str| plan("matrix", 10, inputs).unwrap_err();
    assert!(matches!(of("[[inputs]]\nname = \"rpm\"\nlow = 3.0\nhigh = 1.0\n"), StudyError::Input { name: "rpm", .. }));
    assert!(matches!(of("[[inputs]]\nname = \"rpm\"\nwords = [\"fast\"]\n"), StudyError::Input { .. }));
    assert!(matches!(of("[[inputs]]\nname = \"material\"\nvalues = [1.0]\n"), StudyError::Input { .. }));
    assert!(matches!(of("[[inputs]]\nname = \"rpm\"\n"), StudyError::Input { .. }));
    assert!(matches!(of("[[inputs]]\nname = \"charm\"\nlow = 1.0\nhigh = 2.0\n"), StudyError::Format { .. }));
    assert!(matches!(of(&TWO.replace("infill_percent", "rpm")), StudyError::Twice { name: "rpm" }));
    assert!(matches!(plan("latin-hypercube", 1, TWO), Err(StudyError::Cases { count: 1, .. })));
    assert!(matches!(plan("latin-hypercube", 99_999_999, TWO), Err(StudyError::Cases { .. })));
    let huge = "[[inputs]]\nname = \"rpm\"\nlow = 1.0\nhigh = 2.0\nlevels = 10000\n".to_string()
        + "[[inputs]]\nname = \"piston_pin_c\"\nlow = 1.0\nhigh = 2.0\nlevels = 10000\n";
    assert!(matches!(of(&huge), StudyError::Cases { .. }));
}

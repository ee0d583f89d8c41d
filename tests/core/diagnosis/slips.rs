//! Bad input: places off the part, times beyond the duty, words that mean nothing, looks that do not go together.

use layload_core::diagnosis::{DiagnosisError, Look};
use layload_core::{Error, SeenAt, SeenBreak};

use super::{Case, seen};

fn refused(case: &Case, seen: &SeenBreak) -> DiagnosisError {
    match case.told(seen) {
        Err(Error::Diagnosis(error)) => error,
        other => panic!("{other:?}"),
    }
}

fn at(point: [f64; 3]) -> SeenBreak {
    SeenBreak { at: Some(SeenAt::Point(point)), ..SeenBreak::default() }
}

#[test]
fn a_point_off_the_part_is_refused_with_the_nearest_on_it() {
    for case in [Case::new("plain_rod", "bench_single"), Case::new("flat_crown_piston", "bench_piston")] {
        let error = refused(&case, &at([1e3, 0.0, 0.0]));
        let DiagnosisError::OffThePart { nearest_mm, away_mm, .. } = error else { panic!("{error:?}") };
        assert!(away_mm > 500.0);
        // The point that the help names is one that is taken.
        case.told(&at(nearest_mm)).unwrap();
        assert!(matches!(refused(&case, &at([f64::NAN, 0.0, 0.0])), DiagnosisError::Implausible { .. }));
    }
    // The middle of a bore is air.
    let case = Case::new("plain_rod", "bench_single");
    let bore = case.part.part.bores().remove(0);
    assert!(matches!(refused(&case, &at(bore.center_mm)), DiagnosisError::OffThePart { .. }));
}

/// Every place that a check names by its coordinates lies in the region that its words name.
#[test]
fn points_that_a_check_names_are_in_their_region() {
    for (mesh, job) in
        [("plain_rod", "bench_single"), ("bearing_rod", "bench_bearings"), ("flat_crown_piston", "bench_piston")]
    {
        let case = Case::new(mesh, job);
        let question = layload_core::Question { job: &case.job, card_text: None, pressure_text: None };
        let report = layload_core::quick_look(&case.part, &question, &mut ()).unwrap();
        let regions = case.part.part.regions();
        let mut seen = 0;
        // A cut through the walls of a piston goes through its belt too.
        for mode in report.modes.iter().filter(|mode| !mode.place.starts_with("wall")) {
            let (Some(point), Some(region)) =
                (mode.center_mm, layload_core::diagnosis::region_of(&mode.place, regions))
            else {
                continue;
            };
            // What a check names of a whole eye or a cut may be the middle of its air.
            let Ok(told) = case.told(&at(point)) else { continue };
            let place = told.place.unwrap();
            assert_eq!(place.region, region, "{mesh}: {} at {point:?}", mode.place);
            seen += 1;
        }
        assert!(seen >= 1, "{mesh}: {seen}");
    }
}

#[test]
fn words_that_mean_no_place_are_refused_with_those_that_do() {
    let case = Case::new("plain_rod", "bench_single");
    for (words, near) in [("shanck", Some("shank")), ("smal end", Some("small end")), ("xylophone", None)] {
        let error = refused(&case, &seen("", words, 0.0, 0.0));
        let DiagnosisError::UnknownPlace { near: found, .. } = &error else { panic!("{error:?}") };
        assert_eq!(found.as_deref(), near, "{words}");
        assert!(error.help().contains("big end") && error.help().contains("x,y,z"));
    }
    // A crown is no place of a rod.
    assert!(matches!(refused(&case, &seen("", "crown", 0.0, 0.0)), DiagnosisError::UnknownPlace { .. }));
}

#[test]
fn numbers_that_cannot_be_are_refused() {
    let case = Case::new("plain_rod", "bench_single");
    let usual = SeenBreak::default();
    for bad in [
        SeenBreak { rpm: Some(0.0), ..usual.clone() },
        SeenBreak { rpm: Some(f64::NAN), ..usual.clone() },
        SeenBreak { seconds: Some(-1.0), ..usual.clone() },
        SeenBreak { throttle: Some(1.5), ..usual.clone() },
        SeenBreak { measured_c: Some(1e4), ..usual.clone() },
    ] {
        assert!(matches!(refused(&case, &bad), DiagnosisError::Implausible { .. }), "{bad:?}");
    }
    // Two hours are wanted.
    let beyond = SeenBreak { seconds: Some(2.5e3 * 3600.0), ..usual.clone() };
    assert!(matches!(refused(&case, &beyond), DiagnosisError::BeyondDuty { .. }));
    case.told(&SeenBreak { seconds: Some(1e-3), ..usual }).unwrap();
}

/// Every look is found by its name and by each of its other words, and no word means two looks.
#[test]
fn words_of_looks_are_clear() {
    let mut all: Vec<&str> = Vec::new();
    for look in Look::ALL {
        for word in look.also().iter().copied().chain([look.name()]) {
            assert_eq!(Look::named(&word.to_uppercase()), Ok(look), "{word}");
            all.push(word);
        }
        assert!(look.also().len() >= 4 && !look.told().is_empty() && !look.how().is_empty());
    }
    let plain: std::collections::BTreeSet<String> = all.iter().map(|word| word.replace('-', " ")).collect();
    // Only the name itself may stand among its other words once more.
    assert!(plain.len() + Look::ALL.len() >= all.len());
    let error = Look::named("strech marks of a tiger").unwrap_err();
    assert!(matches!(&error, DiagnosisError::UnknownLook { .. }) && error.help().contains("flat-between-layers"));
}

/// Looks that no mode has together are told as such, and nothing is sure of them.
#[test]
fn looks_that_do_not_go_together_say_so() {
    let case = Case::new("plain_rod", "bench_single");
    let told = case.told(&seen("studs slack, egg shaped, banana, hit the head", "", 4000.0, 1800.0)).unwrap();
    assert!(
        told.contradictions.iter().any(|said| said.contains("No failure mode has both")),
        "{:?}",
        told.contradictions
    );
    assert!(told.causes[0].probability < 0.9, "{:?}", told.causes[0]);
    let alike = case.told(&seen("flat face, beach marks", "", 4000.0, 1800.0)).unwrap();
    assert!(!alike.contradictions.iter().any(|said| said.contains("No failure mode has both")));
}

/// Without looks the answer is what the model expects of the run.
#[test]
fn nothing_seen_changes_nothing() {
    let told = Case::new("plain_rod", "bench_single").told(&SeenBreak::default()).unwrap();
    assert!(told.causes.iter().all(|cause| (cause.probability - cause.before).abs() < 1e-12));
    assert!(told.causes.windows(2).all(|pair| pair[0].probability >= pair[1].probability));
}

/// What is named first is where it is; the rest tells it more closely.
#[test]
fn the_first_region_of_a_place_counts() {
    let rod = Case::new("plain_rod", "bench_single").part.part.regions();
    for (words, region) in [
        ("shank, 14.3 mm from small-end centre", Some("shank")),
        ("big-end eye, joint of its cap", Some("big end")),
        ("Little end, toward the shank", Some("small end")),
        ("whole part", None),
    ] {
        assert_eq!(layload_core::diagnosis::region_of(words, rod), region, "{words}");
    }
}

use layload_core::job::Job;
use layload_core::study::{Responses, StudyPlan};
use layload_core::{CheckRequest, FieldRequest, Question, Study, check_with, load, quick_look};

const PLAIN: &[u8] = include_bytes!("../../../samples/plain_rod.stl");

fn study(job: &Job, inputs: &str) -> Study {
    let text = format!("job = \"j\"\nmeshes = [\"a\"]\nquick = true\nsampling = \"matrix\"\n{inputs}");
    let part = load(PLAIN, job, &mut ()).unwrap();
    let question = Question { job, card_text: None, pressure_text: None };
    Study::new(StudyPlan::from_toml(&text).unwrap(), &[part], &question, &mut ()).unwrap()
}

/// A case is the check of the same job.
#[test]
fn cases_are_checks() {
    let job = Job::from_toml(include_str!("../../../samples/bench_single.toml")).unwrap();
    let inputs = "[[inputs]]\nname = \"reciprocating_mass_g\"\nvalues = [30.0, 50.0]\n\
                  [[inputs]]\nname = \"build_direction\"\nwords = [\"flat\", \"on-edge\", \"upright\"]\n\
                  [[inputs]]\nname = \"infill_percent\"\nvalues = [30.0]\n\
                  [[inputs]]\nname = \"material\"\nwords = [\"PEEK\", \"PA12-CF15\"]\n";
    let study = study(&job, inputs);
    let results = study.run(&(0..study.plan().count()).collect::<Vec<_>>());
    assert_eq!(results.len(), 12);
    for result in [&results[0], &results[5], &results[11]] {
        let mut changed = job.clone();
        let text = |k: usize| format!("{:?}", result.inputs[k]);
        changed.engine.reciprocating_mass_g = Some(if text(0).contains("30") { 30.0 } else { 50.0 });
        changed.print.infill_percent = Some(30.0);
        let pose = if text(1).contains("flat") {
            "flat"
        } else if text(1).contains("edge") {
            "on-edge"
        } else {
            "upright"
        };
        let direction = Job::from_toml(&format!("[print]\nbuild_direction = \"{pose}\"")).unwrap();
        changed.print.build_direction = direction.print.build_direction;
        changed.material.name = Some(if text(3).contains("PEEK") { "PEEK" } else { "PA12-CF15" }.into());
        let question = Question { job: &changed, card_text: None, pressure_text: None };
        let checked = quick_look(PLAIN, &question, &mut ()).unwrap();
        let found = result.outcome.as_ref().unwrap();
        assert_eq!(found.margin, checked.verdict.margin);
        assert_eq!(found.life_b10_s, checked.life.b10_s);
        assert_eq!(found.mass_g, checked.mesh.mass_g);
    }
}

/// Any order, one at a time or all at once: the same numbers.
#[test]
fn the_order_of_asking_changes_nothing() {
    let job = Job::from_toml(include_str!("../../../samples/bench_single.toml")).unwrap();
    let inputs = "[[inputs]]\nname = \"thickness_factor\"\nvalues = [0.9, 1.1]\n\
                  [[inputs]]\nname = \"strength_factor\"\nvalues = [0.8, 1.0, 1.2]\n";
    let once = study(&job, inputs).run(&[0, 1, 2, 3, 4, 5]);
    let other = study(&job, inputs);
    for case in [5, 0, 3, 1, 4, 2] {
        assert_eq!(other.run(&[case])[0], once[case]);
    }
    let margin = |case: usize| once[case].outcome.as_ref().unwrap().margin;
    assert!(margin(0) < margin(1) && margin(1) < margin(2) && margin(1) < margin(4));
}

#[test]
fn a_case_that_cannot_be_says_why() {
    let job = Job::from_toml(include_str!("../../../samples/bench_single.toml")).unwrap();
    let study = study(&job, "[[inputs]]\nname = \"compression_ratio\"\nvalues = [6.0, 0.5]\n");
    let results = study.run(&[0, 1]);
    assert!(results[0].outcome.is_ok());
    assert!(results[1].outcome.as_ref().unwrap_err().contains("compression ratio"));
}

/// Solved cases have the margin of a check of their job; the others are corrected by the field of the mesh, exactly at its job.
#[test]
fn a_tenth_is_solved_and_shows_how_far_off_the_rest_is() {
    let job = Job::from_toml(include_str!("../../../samples/bench_single.toml")).unwrap();
    let text = "job = \"j\"\nmeshes = [\"a\"]\nsampling = \"matrix\"\ncells = 9000\nsolved_every = 2\n\
                [[inputs]]\nname = \"thickness_factor\"\nvalues = [1.0, 1.2]\n\
                [[inputs]]\nname = \"strength_factor\"\nvalues = [1.0, 1.3]\n";
    let part = load(PLAIN, &job, &mut ()).unwrap();
    let question = Question { job: &job, card_text: None, pressure_text: None };
    let plan = StudyPlan::from_toml(text).unwrap();
    let study = Study::new(plan, std::slice::from_ref(&part), &question, &mut ()).unwrap();
    let results = study.run(&[0, 1, 2, 3]);
    let numbers: Vec<_> = results.iter().map(|result| result.outcome.clone().unwrap()).collect();
    let request = CheckRequest { facets: false, field: Some(FieldRequest { cells: 9_000 }) };
    let checked = check_with(&part, &question, &request, &mut ()).unwrap().report;
    assert_eq!(numbers[0].solved_margin, Some(checked.verdict.margin));
    assert!((numbers[0].margin / checked.verdict.margin - 1.0).abs() < 1e-9, "{}", numbers[0].margin);
    assert!(numbers[1].solved_margin.is_none() && numbers[2].solved_margin.is_some());
    assert!(numbers[1].margin > numbers[0].margin && numbers[2].margin > numbers[0].margin);
    let responses: Vec<_> = numbers
        .iter()
        .map(|n| {
            let (margin, life_b10_s, mass_g) = (n.margin, n.life_b10_s, n.mass_g);
            Some(Responses { margin, life_b10_s, mass_g, solved_margin: n.solved_margin })
        })
        .collect();
    let correction = study.effects(&responses).correction.unwrap();
    assert_eq!(correction.solved, 2);
    assert!(correction.low > 0.8 && correction.high < 1.25, "{correction:?}");
}

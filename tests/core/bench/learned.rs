use layload_core::bench::{BenchEntry, RunOutcome};
use layload_core::engine::DutyStep;
use layload_core::job::Job;
use layload_core::material::{library, visit_values};
use layload_core::{CheckRequest, FieldRequest, LoadedPart, LoggedRun, Question, check_with, learn, load, quick_look};

const PLAIN: &[u8] = include_bytes!("../../../samples/plain_rod.stl");

fn job() -> Job {
    Job::from_toml(include_str!("../../../samples/bench_single.toml")).unwrap()
}

fn question(job: &Job) -> Question<'_> {
    Question { job, card_text: None, pressure_text: None }
}

fn run(rpm: f64, seconds: f64, outcome: RunOutcome) -> BenchEntry {
    BenchEntry {
        family: "rods".into(),
        outcome,
        steps: vec![DutyStep { rpm, throttle: 1.0, seconds }],
        sound_s: None,
        temperature_c: None,
        place: None,
        how: None,
        mode: None,
        seen: Vec::new(),
        mesh: None,
        job: None,
        date: None,
        note: None,
    }
}

/// Life that half reach at open throttle and a steady speed, s.
fn half(part: &LoadedPart, rpm: f64) -> f64 {
    let mut job = job();
    job.duty.steps = Some(vec![DutyStep { rpm, throttle: 1.0, seconds: 60.0 }]);
    quick_look(part, &question(&job), &mut ()).unwrap().life.b50_s
}

#[test]
fn runs_as_the_model_has_them_leave_its_middle_and_narrow_it() {
    let job = job();
    let part = load(PLAIN, &job, &mut ()).unwrap();
    let life = half(&part, 6500.0);
    let entries: Vec<BenchEntry> = [0.5, 1.0, 2.0].map(|f| run(6500.0, f * life, RunOutcome::Failed)).to_vec();
    let runs: Vec<LoggedRun<'_>> =
        entries.iter().map(|entry| LoggedRun { entry, part: &part, question: question(&job) }).collect();
    let (report, card) = learn(&part, &question(&job), "rods", &runs, None, &mut ()).unwrap();
    assert!(!report.disagrees && report.chance > 0.3, "{}", report.chance);
    assert!((report.after.strength - 1.0).abs() < 0.1, "{:?}", report.after);
    let wide = |f: &layload_core::report::FactorsReport| f.strength_range[1] / f.strength_range[0];
    assert!(wide(&report.after) < wide(&report.before));
    assert!(report.life_after.margin_factor < report.life_before.margin_factor);
    // The card that knows it gives what the report says of the part.
    let text = card.to_toml().unwrap();
    let mut knowing = job.clone();
    knowing.material.name = None;
    knowing.material.card_file = Some("learned".into());
    let ask = Question { job: &knowing, card_text: Some(&text), pressure_text: None };
    assert_eq!(quick_look(&part, &ask, &mut ()).unwrap().verdict.margin, report.life_after.margin);
}

#[test]
fn early_failures_shorten_what_is_promised_and_long_survivors_lengthen_it() {
    let job = job();
    let part = load(PLAIN, &job, &mut ()).unwrap();
    let life = half(&part, 6500.0);
    let learned = |entry: BenchEntry| {
        let runs = [LoggedRun { entry: &entry, part: &part, question: question(&job) }];
        learn(&part, &question(&job), "rods", &runs, None, &mut ()).unwrap().0
    };
    let early = learned(run(6500.0, life / 50.0, RunOutcome::Failed));
    let long = learned(run(6500.0, life * 50.0, RunOutcome::Survived));
    assert!(early.life_after.margin < early.life_before.margin && early.life_after.b50_s < early.life_before.b50_s);
    assert!(long.life_after.margin > long.life_before.margin && long.life_after.b50_s > long.life_before.b50_s);
}

/// A card known to a few per cent, and parts that break a thousand times too early: no accident. The pin's pressure is kept
/// away: one part in a thousand would fail by it at the first load, and that would explain any early failure. On the card of the
/// family, most of it memory, the same runs are within chance, and the report says how much they move it.
#[test]
fn a_log_beyond_chance_is_said_to_be() {
    let mut card = library::card("PA12-CF15").unwrap();
    visit_values(&mut card, |_, value| value.spread = Some(0.02));
    card.temperature.retention.spread = Some(0.02);
    card.strength.bearing_pressure_mpa.value *= 1.5;
    let text = card.to_toml().unwrap();
    let mut job = job();
    let part = load(PLAIN, &job, &mut ()).unwrap();
    for early in [1e-3, 1e-9] {
        let entry = run(5000.0, half(&part, 5000.0) * early, RunOutcome::Failed);
        let learned = |job: &Job, card_text: Option<&str>| {
            let question = Question { job, card_text, pressure_text: None };
            let runs = vec![LoggedRun { entry: &entry, part: &part, question }; 4];
            learn(&part, &question, "rods", &runs, None, &mut ()).unwrap().0
        };
        job.material.name = Some("PA12-CF15".into());
        job.material.card_file = None;
        let open = learned(&job, None);
        assert!(early < 1e-6 || !open.disagrees, "{}", open.chance);
        job.material.name = None;
        job.material.card_file = Some("known".into());
        let known = learned(&job, Some(&text));
        assert!(known.disagrees, "{}", known.chance);
        assert!(known.findings.iter().any(|said| said.contains("beyond chance")));
    }
}

#[test]
fn a_log_without_the_family_is_refused() {
    let job = job();
    let part = load(PLAIN, &job, &mut ()).unwrap();
    assert!(learn(&part, &question(&job), "rods", &[], None, &mut ()).is_err());
}

/// With a field, before and after are checks, and a run is held against the part's raised sections: a part that its field makes
/// weaker is expected to fail earlier.
#[test]
fn a_log_is_learned_from_by_the_field_too() {
    let job = job();
    let part = load(PLAIN, &job, &mut ()).unwrap();
    let field = Some(FieldRequest { cells: 9_000 });
    let entry = run(6500.0, 600.0, RunOutcome::Survived);
    let runs = [LoggedRun { entry: &entry, part: &part, question: question(&job) }];
    let (solved, _) = learn(&part, &question(&job), "rods", &runs, field, &mut ()).unwrap();
    let (quick, _) = learn(&part, &question(&job), "rods", &runs, None, &mut ()).unwrap();
    let checked = check_with(&part, &question(&job), &CheckRequest { facets: false, field }, &mut ()).unwrap().report;
    assert_eq!(solved.life_before.margin, checked.verdict.margin);
    assert_eq!(solved.life_before.state, checked.verdict.state);
    assert!(solved.life_before.margin < quick.life_before.margin);
    assert!(solved.entries[0].b50_before_s < quick.entries[0].b50_before_s);
    // To have lived where death was likelier teaches more.
    assert!(solved.after.strength > quick.after.strength);
}

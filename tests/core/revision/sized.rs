use layload_core::job::{BuildDirection, NamedPose};
use layload_core::report::{CandidateReport, NumbersBy, Varied};
use layload_core::{CheckRequest, FieldRequest, SizeRequest, State, check_with, quick_look, size};

use super::{PLAIN, job, question, stretched};

const STOUT: &[u8] = include_bytes!("../../../samples/stout_rod.stl");

fn request(varied: &[Varied]) -> SizeRequest {
    SizeRequest {
        factors: (0.6, 2.0),
        varied: varied.to_vec(),
        materials: Vec::new(),
        directions: Vec::new(),
        walls: Vec::new(),
        field: None,
    }
}

/// What the section model says of a thicker rod is what a check says of the thicker mesh.
#[test]
fn a_size_found_holds_when_its_mesh_is_checked() {
    let mut job = job();
    job.duty.wanted_life_h = Some(20.0);
    let report = size(PLAIN, &question(&job), &request(&[Varied::Whole]), &mut ()).unwrap();
    assert!(report.reached && !report.as_it_is.reaches, "{}", report.answer);
    let found = &report.candidates[report.lightest.unwrap()];
    let factor = found.thickness_factors.unwrap()[0];
    assert!(factor > 1.0 && factor < 2.0, "{factor}");
    let checked = quick_look(&stretched(PLAIN, factor as f32), &question(&job), &mut ()).unwrap();
    // Corners of the written mesh are rounded to single precision.
    assert!((checked.verdict.margin / found.margin - 1.0).abs() < 1e-4, "{} {}", checked.verdict.margin, found.margin);
    assert!((checked.mesh.mass_g / found.mass_g - 1.0).abs() < 1e-4);
    assert!((checked.life.b10_s / found.life_b10_s - 1.0).abs() < 1e-3);
    assert_eq!(checked.verdict.governing_mode, found.governing_mode);
    // The least: a little thinner does not reach it.
    let thinner = quick_look(&stretched(PLAIN, 0.98 * factor as f32), &question(&job), &mut ()).unwrap();
    assert!(thinner.verdict.state == State::Fails && checked.verdict.margin >= 1.0 - 1e-4);
}

#[test]
fn the_mesh_as_it_is_has_the_margin_of_a_check() {
    let job = job();
    let report = size(PLAIN, &question(&job), &request(&[Varied::Shank]), &mut ()).unwrap();
    let checked = quick_look(PLAIN, &question(&job), &mut ()).unwrap();
    assert_eq!(report.as_it_is.margin, checked.verdict.margin);
    assert_eq!(report.as_it_is.life_b10_s, checked.life.b10_s);
    assert_eq!(report.as_it_is.mass_g, checked.mesh.mass_g);
}

#[test]
fn sized_apart_is_no_heavier_than_sized_as_one() {
    let mut job = job();
    job.duty.wanted_life_h = Some(20.0);
    let report = size(PLAIN, &question(&job), &request(&[Varied::Whole, Varied::Each]), &mut ()).unwrap();
    let of = |varied| report.candidates.iter().find(|c| c.varied == Some(varied)).unwrap();
    let (whole, each) = (of(Varied::Whole), of(Varied::Each));
    assert!(whole.reaches && each.reaches);
    assert!(each.mass_g < whole.mass_g, "{} {}", each.mass_g, whole.mass_g);
}

/// An eye that fails is not helped by a thicker shank.
#[test]
fn what_cannot_reach_it_is_said() {
    let mut job = job();
    job.duty.wanted_life_h = Some(20.0);
    let report = size(PLAIN, &question(&job), &request(&[Varied::Shank]), &mut ()).unwrap();
    assert!(!report.reached && report.lightest.is_none() && report.quickest.is_none());
    assert!(report.answer.starts_with("By sections no size reaches"), "{}", report.answer);
    assert!(report.candidates.iter().all(|c| !c.pareto && c.margin < 1.0));
}

#[test]
fn none_of_the_pareto_set_is_beaten_and_all_others_are() {
    let mut job = job();
    job.print.infill_percent = Some(40.0);
    let request = SizeRequest {
        materials: vec!["PEEK".into()],
        directions: vec![BuildDirection::Named(NamedPose::OnEdge)],
        walls: vec![2, 8],
        ..request(&[Varied::Whole])
    };
    let report = size(PLAIN, &question(&job), &request, &mut ()).unwrap();
    let reaching: Vec<&CandidateReport> = report.candidates.iter().filter(|c| c.reaches).collect();
    assert!(reaching.len() > 3);
    let beats = |a: &CandidateReport, b: &CandidateReport| {
        let no_worse = a.mass_g <= b.mass_g && a.life_b10_s >= b.life_b10_s && a.print_time_s <= b.print_time_s;
        no_worse && (a.mass_g, a.life_b10_s, a.print_time_s) != (b.mass_g, b.life_b10_s, b.print_time_s)
    };
    for own in &reaching {
        assert_eq!(own.pareto, !reaching.iter().any(|other| beats(other, own)), "{own:?}");
    }
    assert!(report.candidates[report.lightest.unwrap()].pareto);
}

#[test]
fn a_crown_is_sized_too() {
    let piston: &[u8] = include_bytes!("../../../samples/thin_crown_piston.stl");
    let job = layload_core::job::Job::from_toml(include_str!("../../../samples/bench_piston.toml")).unwrap();
    let report = size(piston, &question(&job), &request(&[]), &mut ()).unwrap();
    let checked = quick_look(piston, &question(&job), &mut ()).unwrap();
    assert!((report.as_it_is.margin / checked.verdict.margin - 1.0).abs() < 1e-12);
    assert!(report.candidates.iter().all(|c| c.crown_mm.is_some() && c.thickness_mm.is_none()));
    // A rod's parts are none of a piston.
    let refused = size(piston, &question(&job), &request(&[Varied::Shank]), &mut ());
    assert!(matches!(refused, Err(layload_core::Error::NotVaried { .. })));
}

#[test]
fn ranges_that_make_no_sense_are_refused() {
    let job = job();
    for factors in [(1.0, 1.0), (2.0, 1.0), (0.0, 1.0), (f64::NAN, 2.0), (1.0, 100.0)] {
        let request = SizeRequest { factors, ..request(&[Varied::Whole]) };
        let refused = size(PLAIN, &question(&job), &request, &mut ());
        assert!(matches!(refused, Err(layload_core::Error::FactorRange { .. })), "{factors:?}");
    }
}

/// Cells of a field that is solved many times here: its numbers are held against each other, not against the truth.
const CELLS: FieldRequest = FieldRequest { cells: 9_000 };

fn solved(part: &[u8], job: &layload_core::job::Job) -> layload_core::report::Report {
    check_with(part, &question(job), &CheckRequest { facets: false, field: Some(CELLS) }, &mut ()).unwrap().report
}

/// What an answer names has the margin of a check of that very part.
#[test]
fn what_an_answer_names_is_solved() {
    let mut job = job();
    job.duty.wanted_life_h = Some(0.1);
    let request = SizeRequest { field: Some(CELLS), ..request(&[Varied::Whole, Varied::BigEnd]) };
    let report = size(STOUT, &question(&job), &request, &mut ()).unwrap();
    let now = solved(STOUT, &job);
    assert_eq!(report.as_it_is.by, NumbersBy::Field);
    assert_eq!(report.as_it_is.margin, now.verdict.margin);
    assert_eq!(report.as_it_is.governing_place, now.verdict.governing_place);
    let found = &report.candidates[report.lightest.unwrap()];
    assert!(found.by == NumbersBy::Field && found.state.holds() == Some(true), "{}", report.answer);
    assert!(found.margin < 1.1, "not the least: {}", found.margin);
    let factors = found.thickness_factors.unwrap();
    if factors[0] == factors[2] {
        let made = solved(&stretched(STOUT, factors[0] as f32), &job);
        // Corners of the written mesh are rounded to single precision, which may move a cell's cut.
        assert!((made.verdict.margin / found.margin - 1.0).abs() < 0.01, "{} {}", made.verdict.margin, found.margin);
    }
    // Nothing lighter that was solved reaches it.
    let lighter = report.candidates.iter().filter(|c| c.mass_g < found.mass_g && c.by == NumbersBy::Field);
    assert!(lighter.clone().all(|c| !c.reaches));
}

/// A crown's mesh cannot be made from the part: its numbers are told as corrected.
#[test]
fn a_crown_is_told_as_corrected() {
    let piston: &[u8] = include_bytes!("../../../samples/flat_crown_piston.stl");
    let job = layload_core::job::Job::from_toml(include_str!("../../../samples/bench_piston.toml")).unwrap();
    let request = SizeRequest { field: Some(CELLS), ..request(&[]) };
    let report = size(piston, &question(&job), &request, &mut ()).unwrap();
    assert_eq!(report.as_it_is.margin, solved(piston, &job).verdict.margin);
    assert!(report.candidates.iter().any(|c| c.by == NumbersBy::CorrectedSections));
    assert!(report.candidates.iter().all(|c| c.crown_factor == Some(1.0) || c.by != NumbersBy::Field));
}

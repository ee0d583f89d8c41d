//! Different questions about one rod give the same answers where they overlap.

use layload_core::job::Job;
use layload_core::{CheckRequest, SpeedRange, WallRequest, quick_look, record, sweep, walls};

use super::{PLAIN, job, question};

#[test]
fn a_point_of_a_sweep_is_a_check_at_that_speed() {
    let mut job = job();
    // One step, so that its speed is the whole duty's.
    job.duty.steps.as_mut().unwrap().truncate(1);
    let swept = sweep(PLAIN, &question(&job), &SpeedRange::new(4000.0, 6500.0, 3).unwrap(), None, &mut ()).unwrap();
    assert_eq!(swept.sweep.iter().map(|point| point.rpm).collect::<Vec<_>>(), [4000.0, 5250.0, 6500.0]);
    for point in &swept.sweep {
        job.duty.steps.as_mut().unwrap()[0].rpm = point.rpm;
        let checked = quick_look(PLAIN, &question(&job), &mut ()).unwrap();
        // One is looked for from another start than the other; the search ends within 1e-6.
        let same = |a: f64, b: f64| (a / b - 1.0).abs() < 1e-6;
        assert!(same(point.margin, checked.verdict.margin), "{} rpm: {}", point.rpm, point.margin);
        assert!(same(point.life_b10_s, checked.life.b10_s), "{} rpm: {}", point.rpm, point.life_b10_s);
        assert_eq!(point.governing_mode, checked.verdict.governing_mode);
    }
}

#[test]
fn a_record_holds_the_report_of_a_check_and_colours_every_facet() {
    let job = job();
    let checked = quick_look(PLAIN, &question(&job), &mut ()).unwrap();
    let request = CheckRequest { facets: true, ..CheckRequest::QUICK };
    let recorded = record(PLAIN, &question(&job), &request, &mut ()).unwrap();
    assert_eq!(serde_json::to_string(&recorded.report).unwrap(), serde_json::to_string(&checked).unwrap());
    // A layer plane has two normals, so the margin of the direction that was checked is among those of its neighbours.
    let margins: Vec<f64> = recorded.directions.iter().map(|direction| direction.margin).collect();
    let (least, most) = margins.iter().fold((f64::INFINITY, 0.0_f64), |(a, b), m| (a.min(*m), b.max(*m)));
    assert!(least <= checked.verdict.margin && checked.verdict.margin <= most * 1.02, "{least} to {most}");
    let used = recorded.facets.unwrap();
    assert_eq!(used.values.len(), checked.mesh.facet_count);
    assert!(used.values.iter().flatten().all(|value| value.is_finite() && *value >= 0.0));
}

#[test]
fn thin_walls_need_no_engine_and_are_the_same_with_one() {
    let loaded = job();
    let bare = Job { print: loaded.print.clone(), ..Job::default() };
    let request = WallRequest { least_mm: Some(4.0), every_facet: true };
    let with = walls(PLAIN, &question(&loaded), &request, &mut ()).unwrap().report;
    let without = walls(PLAIN, &question(&bare), &request, &mut ()).unwrap().report;
    assert!(with.stress_looked_at && !without.stress_looked_at);
    assert_eq!(with.thickness_mm, without.thickness_mm);
    assert_eq!(with.area_steps.len(), without.area_steps.len());
    let values = without.thickness_mm.unwrap();
    assert_eq!(values.len(), without.facet_count);
    let least = values.iter().flatten().fold(f64::INFINITY, |least, value| least.min(*value));
    assert_eq!(without.least_thickness_mm, Some(least));
    for region in &without.thin_regions {
        assert!(region.least_thickness_mm < region.limit_mm, "{region:?}");
        assert!(region.facets.iter().all(|&facet| values[facet as usize].is_some()));
    }
}

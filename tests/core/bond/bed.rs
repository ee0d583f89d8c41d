//! The bed cools the layers next to it and no others.

use layload_core::job::Job;
use layload_core::report::Report;
use layload_core::{Question, quick_look};

type Found<T> = Result<T, Box<dyn std::error::Error>>;

/// The bench rod printed standing on one of its ends.
fn standing(build: &str, bed_c: f64) -> Found<Report> {
    let settings = format!("[print]\nbed_c = {bed_c:.1}");
    let text =
        include_str!("../../../samples/bench_single.toml").replace("\"flat\"", build).replace("[print]", &settings);
    let job = Job::from_toml(&text)?;
    let question = Question { job: &job, card_text: None, pressure_text: None };
    Ok(quick_look(include_bytes!("../../../samples/plain_rod.stl").as_slice(), &question, &mut ())?)
}

#[test]
fn a_colder_bed_weakens_no_place_away_from_it() -> Found<()> {
    for (build, on_bed) in [("[0.0, 1.0, 0.0]", "small-end"), ("[0.0, -1.0, 0.0]", "big-end")] {
        let [cold, warm] = [standing(build, 25.0)?, standing(build, 110.0)?];
        let mut compared = 0;
        for a in cold.modes.iter().filter(|found| !found.place.contains(on_bed)) {
            let Some(b) = warm.modes.iter().find(|b| (b.mode, &b.place) == (a.mode, &a.place)) else { continue };
            println!("{build} {:?} {} {} {}", a.mode, a.place, a.margin, b.margin);
            // Followed to 40 layers down: 8 mm of the rod's 126. The other end is as it was.
            assert!((a.margin / b.margin - 1.0).abs() < 1e-6, "{:?} {}", a.mode, a.place);
            compared += 1;
        }
        assert!(compared > 0, "{build}: nothing to compare");
    }
    Ok(())
}

#[test]
fn no_place_of_the_sections_is_weaker_than_the_least_that_is_told() -> Found<()> {
    for build in ["[0.0, 1.0, 0.0]", "[0.0, -1.0, 0.0]", "\"on-edge\"", "\"flat\""] {
        // The card as the print leaves it at its weakest, without a weld to follow.
        let report = standing(build, 25.0)?;
        let least = report.print.bond.as_ref().ok_or("no bond")?.least_factor;
        let mut card = layload_core::material::library::card("PA12-CF15")?;
        card.weld = None;
        for value in [&mut card.strength.layer_mpa, &mut card.strength.layer_shear_mpa] {
            value.value *= least;
        }
        let text = include_str!("../../../samples/bench_single.toml").replace("\"flat\"", build);
        let mut job = Job::from_toml(&text)?;
        (job.material.name, job.material.card_file) = (None, Some("the card as printed".into()));
        let card = card.to_toml()?;
        let question = Question { job: &job, card_text: Some(&card), pressure_text: None };
        let even = quick_look(include_bytes!("../../../samples/plain_rod.stl").as_slice(), &question, &mut ())?;
        println!("{build} least {least:.3}: {} against {}", report.verdict.margin, even.verdict.margin);
        // A layer that bonds better takes less of the damage, which moves the fatigue line between its two bounds a little.
        assert!(report.verdict.governing_margin >= even.verdict.governing_margin * (1.0 - 1e-3), "{build}");
    }
    Ok(())
}

//! Everything that a host hands over as text beside a mesh (job, card, pressure table, parted by a line of `====`), through
//! the whole check of one small rod.
#![no_main]

use std::sync::OnceLock;

use layload_core::job::Job;
use layload_core::{LoadedPart, Question, load, quick_look};
use libfuzzer_sys::fuzz_target;

fn rod() -> &'static LoadedPart {
    static ROD: OnceLock<LoadedPart> = OnceLock::new();
    ROD.get_or_init(|| {
        let job = Job::from_toml("").expect("an empty job");
        load(include_bytes!("../../meshes/solid_header.stl"), &job, &mut ()).expect("a rod")
    })
}

fuzz_target!(|text: &str| {
    let mut parts = text.splitn(3, "\n====\n");
    let Ok(mut job) = Job::from_toml(parts.next().unwrap_or_default()) else { return };
    // A case must not take minutes.
    job.model.stations = job.model.stations.map(|count| count.min(40)).or(Some(20));
    let question = Question { job: &job, card_text: parts.next(), pressure_text: parts.next() };
    match quick_look(rod(), &question, &mut ()) {
        Ok(report) => {
            assert!(!report.verdict.margin.is_nan() && !report.verdict.life_s.is_nan());
            assert!(report.life.b1_s <= report.life.b10_s && report.life.b10_s <= report.life.b50_s);
        }
        Err(error) => {
            let _ = (error.to_string(), error.help());
        }
    }
});

//! Bores of plastic that run on their pins.

mod effects;

use approx::assert_relative_eq;
use layload_core::job::Job;
use layload_core::journal::{JournalValues, Lubrication, PinPath, Sink, Sliding};
use layload_core::report::{JournalReport, Report};
use layload_core::verdict::{Mode, State};
use layload_core::{Question, quick_look};

pub(crate) type Found<T> = Result<T, Box<dyn std::error::Error>>;
pub(crate) type Tested = Found<()>;

/// The bench rod with its big end on the pin as said.
pub(crate) fn looked(runs: &str) -> Found<Report> {
    let text = include_str!("../../../samples/bench_single.toml").replace("\"bearing\"", &format!("\"{runs}\""));
    let job = Job::from_toml(&text)?;
    let question = Question { job: &job, card_text: None, pressure_text: None };
    Ok(quick_look(include_bytes!("../../../samples/plain_rod.stl").as_slice(), &question, &mut ())?)
}

fn margin(report: &Report, mode: Mode) -> Option<f64> {
    report.modes.iter().find(|found| found.mode == mode).map(|found| found.margin)
}

fn big(report: &Report) -> Option<JournalReport> {
    report.rod.as_ref()?.eyes.iter().find(|eye| eye.role == "big-end")?.journal
}

#[test]
fn a_plain_plastic_big_end_at_speed_fails_and_is_told_what_to_do() -> Tested {
    for runs in ["dry", "greased", "oiled"] {
        let report = looked(runs)?;
        assert_eq!(report.verdict.state, State::Fails, "{runs}");
        assert!(margin(&report, Mode::JournalHeat).ok_or("no mode")? < 1.0, "{runs}");
        assert!(Mode::JournalHeat.happens().contains("bearing or a bush"));
    }
    for runs in ["bearing", "bush"] {
        let report = looked(runs)?;
        assert_eq!(margin(&report, Mode::JournalHeat), None, "{runs}");
        assert_eq!(margin(&report, Mode::JournalWear), None, "{runs}");
        assert!(big(&report).is_none());
    }
    Ok(())
}

#[test]
fn oil_is_better_than_grease_and_that_than_nothing() -> Tested {
    let mut before = [0.0; 2];
    for runs in ["dry", "greased", "oiled"] {
        let report = looked(runs)?;
        let now = [Mode::JournalHeat, Mode::JournalWear].map(|mode| margin(&report, mode).unwrap_or(0.0));
        assert!(now[0] > before[0] && now[1] > before[1], "{runs} {now:?}");
        before = now;
    }
    Ok(())
}

#[test]
fn what_is_told_hangs_together() -> Tested {
    let report = looked("oiled")?;
    let told = big(&report).ok_or("not told")?;
    let values = JournalValues::of("PA12-CF15", Lubrication::Oiled);
    // Depth by hand: k p v t, in mm of Pa m/s over two hours.
    let by_hand = values.wear * told.pressure_speed_mpa_m_s * 1e6 * 7200.0 * 1e3;
    assert_relative_eq!(told.worn_mm, by_hand, max_relative = 1e-12);
    // The crank pin of 20 to 24 mm turns 50 to 83 times a second under a few hundred newtons.
    assert!((1.0..60.0).contains(&told.pressure_speed_mpa_m_s), "{told:?}");
    assert!(told.rise_k > 0.0 && told.heat_w > 0.0);
    let wear = margin(&report, Mode::JournalWear).ok_or("no mode")?;
    assert_relative_eq!(wear, (told.worn_out_mm / told.worn_mm).min(99.0), max_relative = 1e-12);
    Ok(())
}

/// A steady load on a pin that turns evenly, by hand.
#[test]
fn steady_load_and_speed() {
    let sliding = Sliding::default().with(-300.0, 2.0, 4.0).with(100.0, -1.0, 1.0);
    assert_relative_eq!(sliding.force_speed(), (600.0 * 4.0 + 100.0) / 5.0);
    assert_relative_eq!(sliding.force(), 260.0);
    assert_relative_eq!(sliding.pressure_speed(2e-4), 500.0 / 2e-4);
    assert_relative_eq!(Sliding::default().force_speed(), 0.0);
}

/// A cooled sink adds its film to the bar's own resistance.
#[test]
fn sinks() {
    let held = PinPath { radius: 0.01, length: 0.02, sink: Sink::Held };
    let cooled = PinPath { sink: Sink::Cooled { area: 0.01, film: 100.0 }, ..held };
    assert_relative_eq!(cooled.rise_per_watt() - held.rise_per_watt(), 1.0, max_relative = 1e-12);
}

#[test]
fn a_ring_does_not_go_with_a_pin_in_the_plastic() -> Tested {
    for runs in ["dry", "oiled", "greased"] {
        let text = include_str!("../../../samples/bench_bearings.toml")
            .replace("[part.small_end.ring]", &format!("[part.small_end]\nruns = \"{runs}\"\n[part.small_end.ring]"));
        let job = Job::from_toml(&text)?;
        let question = Question { job: &job, card_text: None, pressure_text: None };
        let said = quick_look(include_bytes!("../../../samples/bearing_rod.stl").as_slice(), &question, &mut ());
        let error = said.err().ok_or("accepted")?.to_string();
        assert!(error.contains("runs in the plastic"), "{error}");
    }
    Ok(())
}

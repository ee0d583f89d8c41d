//! Simulated breaks: parts whose bond, beads, loads and heat differ from the inputs, some of them grossly, run until the first mode
//! ends them; what is seen of it is drawn from the table of signs with every number of it changed at random.

use std::collections::{BTreeMap, BTreeSet};

use layload_core::diagnosis::{Expected, Look, Scatter, Seen, SeenPlace, causes, chance, region_of};
use layload_core::job::Job;
use layload_core::material::library;
use layload_core::report::{ModeReport, Report};
use layload_core::{Mode, Question, quick_look};
use libm::{exp, log};
use rand_pcg::Pcg64;
use rand_pcg::rand_core::{Rng, SeedableRng};

use super::Case;

/// Draws of one seed.
struct Draws(Pcg64);

impl Draws {
    fn share(&mut self) -> f64 {
        (self.0.next_u64() >> 11) as f64 / (1u64 << 53) as f64
    }

    /// A normal draw (Box and Muller).
    fn normal(&mut self) -> f64 {
        let (a, b) = (1.0 - self.share(), self.share());
        (-2.0 * log(a)).sqrt() * libm::cos(core::f64::consts::TAU * b)
    }
}

/// Logarithms of what is wrong with the inputs of one part: what one cause makes weaker, all modes of that kind share.
struct Wrong {
    bond: f64,
    beads: f64,
    pressed: f64,
    heat: f64,
    journal: f64,
    load: f64,
}

impl Wrong {
    fn drawn(draws: &mut Draws, known: f64) -> Self {
        let mut one = |deviation: f64| {
            // One input in twelve is far off.
            let wide = if draws.share() < 1.0 / 12.0 { 0.7 } else { deviation };
            wide * draws.normal()
        };
        Self {
            bond: one(known),
            beads: one(known),
            pressed: one(known),
            heat: one(0.25),
            journal: one(0.6),
            load: one(0.1),
        }
    }

    fn of(&self, mode: Mode) -> f64 {
        let own = match mode {
            Mode::FatigueAcrossLayers | Mode::CreepRuptureAcrossLayers | Mode::OverloadAcrossLayers => self.bond,
            Mode::FatigueInLayerPlane | Mode::CreepRuptureInLayerPlane | Mode::OverloadInLayerPlane => self.beads,
            Mode::JournalHeat | Mode::JournalWear => return self.journal,
            mode if mode.asks_for_strength() => self.pressed,
            _ => return self.heat,
        };
        own - self.load
    }
}

/// When a mode ends such a part, s; none where it does not.
fn ends(mode: &ModeReport, wrong: &Wrong, wanted: f64, draws: &mut Draws, (strength, life): (f64, f64)) -> Option<f64> {
    let ln10 = core::f64::consts::LN_10;
    let adds_up = match mode.mode {
        Mode::JournalWear => Some(1.0),
        Mode::LooseRing | Mode::OpenJoint => Some(4.0),
        Mode::HeadContact => Some(8.0),
        mode_of if mode_of.counts_time() => {
            let life = mode.life_b10_s.filter(|life| *life > 0.0 && *life < 1e14)?;
            let power = log(life / wanted) / log(mode.margin);
            Some(if power.is_finite() { power.clamp(2.0, 40.0) } else { 10.0 })
        }
        _ => None,
    };
    // From the margin, at which 10 % fail, to that of this print.
    let scatter = match adds_up {
        _ if !mode.mode.asks_for_strength() => 0.0,
        Some(power) => libm::hypot(strength, life / power),
        None => strength,
    };
    let ln_factor = log(mode.margin.max(1e-3)) + ln10 * scatter * (1.2816 + draws.normal()) + wrong.of(mode.mode);
    match adds_up {
        Some(power) => Some(wanted * exp(power * ln_factor)),
        None if ln_factor > 0.0 => None,
        None => {
            let (middle, deviation) = match mode.mode {
                Mode::SplitByRing => (60.0, 2.5),
                Mode::Softening | Mode::SelfHeating | Mode::Seizure | Mode::JournalHeat => (300.0, 1.2),
                _ => (20.0, 1.5),
            };
            Some(middle * exp(deviation * draws.normal()))
        }
    }
}

/// Looks of a break, as somebody tells them: each number of the table is off by a factor on its odds of some 1.6.
fn looks(mode: Mode, draws: &mut Draws) -> Vec<Look> {
    let mut list = Vec::new();
    for look in Look::ALL {
        let share = chance(look, Some(mode));
        let odds = share / (1.0 - share) * exp(0.5 * draws.normal());
        let told = 0.4 + 0.4 * draws.share();
        if draws.share() < told * odds / (1.0 + odds) {
            list.push(look);
        }
    }
    list
}

/// A run at one speed as a check has it; the wanted life is its time, s, where that is given.
fn run(case: &Case, rpm: f64, seconds: Option<f64>) -> (Job, Report) {
    let mut job = case.job.clone();
    job.duty.steps = Some(vec![layload_core::DutyStep { rpm, throttle: 1.0, seconds: 60.0 }]);
    if let Some(seconds) = seconds {
        job.duty.wanted_life_h = Some(seconds / 3600.0);
    }
    let question = Question { job: &job, card_text: None, pressure_text: None };
    let report = quick_look(&case.part, &question, &mut ()).unwrap();
    (job, report)
}

/// A time as people tell it: 1, 2 or 5 times a power of ten.
fn told_time(seconds: f64) -> f64 {
    let near = |time: &f64| log(time / seconds).abs();
    let times = (0..7).flat_map(|k| [1.0, 2.0, 5.0].map(|first| first * libm::pow(10.0, f64::from(k))));
    times.min_by(|a, b| near(a).total_cmp(&near(b))).unwrap()
}

/// Breaks of each part and speed.
const EACH: usize = 60;

/// Probability told of the first cause, that of the second, whether the first was it, whether it was among the first two.
type Answer = (f64, f64, bool, bool);

/// Breaks of one part at one speed as they are read; the modes that they are of are added to a set.
fn answers_of(case: &Case, rpm: f64, draws: &mut Draws, modes: &mut BTreeSet<Mode>) -> Vec<Answer> {
    let regions = case.part.part.regions();
    let (job, report) = run(case, rpm, None);
    let card = library::card(job.material.name.as_deref().unwrap()).unwrap();
    let scatter = Scatter { strength: card.strength.scatter_log10.value, life: card.fatigue.scatter_log10.value };
    let known = libm::hypot(log(report.uncertainty.margin_factor), 0.15);
    let wanted = report.verdict.wanted_life_s;
    let mut looked: BTreeMap<u64, Vec<Expected>> = BTreeMap::new();
    let mut answers = Vec::new();
    for _ in 0..40 * EACH {
        let wrong = Wrong::drawn(draws, known);
        let all = report.modes.iter().filter_map(|mode| {
            ends(mode, &wrong, wanted, draws, (scatter.strength, scatter.life)).map(|seconds| (mode, seconds))
        });
        let first = all.min_by(|a, b| a.1.total_cmp(&b.1));
        // A bench gives up after some hundred hours.
        let Some((mode, seconds)) = first.filter(|(_, seconds)| *seconds < 3.6e5) else { continue };
        let seconds = told_time(seconds.max(1.0));
        let expected = looked.entry(seconds as u64).or_insert_with(|| {
            let (_, report) = run(case, rpm, Some(seconds));
            Expected::all(&report, scatter, regions)
        });
        let region = region_of(&mode.place, regions).filter(|_| draws.share() < 0.7);
        let place = region.map(|region| SeenPlace::named(region, regions).unwrap());
        let told = causes(expected, &Seen { looks: looks(mode.mode, draws), place, seconds: Some(seconds) }, regions);
        modes.insert(mode.mode);
        let right = told[0].mode == Some(mode.mode);
        answers.push((told[0].probability, told[1].probability, right, right || told[1].mode == Some(mode.mode)));
        if answers.len() == EACH {
            break;
        }
    }
    assert!(answers.len() > EACH / 2, "only {} of {} at {rpm} rpm break", answers.len(), job.title.unwrap_or_default());
    answers
}

/// Share of answers of which something holds.
fn share(answers: &[Answer], holds: impl Fn(&Answer) -> bool) -> f64 {
    answers.iter().filter(|answer| holds(answer)).count() as f64 / answers.len() as f64
}

#[test]
fn the_true_mode_comes_first_and_probabilities_are_what_they_say() {
    let mut dry = Case::new("plain_rod", "bench_single");
    dry.job.part.big_end.runs = Some(layload_core::job::Runs::Dry);
    let cases = [
        (Case::new("plain_rod", "bench_single"), vec![5000.0, 7000.0, 10_000.0]),
        (Case::upright(), vec![3500.0, 5500.0]),
        (Case::new("bushed_rod", "bench_bushed"), vec![6000.0]),
        (Case::new("split_rod", "bench_split"), vec![6000.0]),
        (dry, vec![4000.0]),
    ];
    let mut draws = Draws(Pcg64::seed_from_u64(20_260_504));
    let (mut answers, mut modes) = (Vec::new(), BTreeSet::new());
    for (case, speeds) in &cases {
        for rpm in speeds {
            answers.extend(answers_of(case, *rpm, &mut draws, &mut modes));
        }
    }
    let clear: Vec<Answer> = answers.iter().copied().filter(|(a, b, ..)| a - b > 0.1).collect();
    let (right, among) = (share(&clear, |answer| answer.2), share(&answers, |answer| answer.3));
    println!(
        "{} breaks, {} modes, {} clear: first {right:.3}, among two {among:.3}",
        answers.len(),
        modes.len(),
        clear.len()
    );
    assert!(modes.len() >= 8, "{modes:?}");
    assert!(clear.len() * 10 >= answers.len() * 7, "{} of {} are clear", clear.len(), answers.len());
    assert!(right >= 0.8 && among >= 0.85, "{right} {among}");
    // Reliability: what is told and what came out differ by no more than three standard deviations of so few, and a little as the
    // table that looks were drawn from is not the one that they are read by.
    for (low, high) in [(0.0, 0.5), (0.5, 0.7), (0.7, 0.9), (0.9, 1.01)] {
        let bin: Vec<Answer> = answers.iter().copied().filter(|(a, ..)| (low..high).contains(a)).collect();
        assert!(bin.len() >= 20, "{low} to {high}: {}", bin.len());
        let told = bin.iter().map(|(a, ..)| a).sum::<f64>() / bin.len() as f64;
        let came = share(&bin, |answer| answer.2);
        let deviation = (told * (1.0 - told) / bin.len() as f64).sqrt();
        println!("{low:.1} to {high:.1}: {} breaks, told {told:.3}, came {came:.3}", bin.len());
        assert!((told - came).abs() < 3.0 * deviation + 0.05, "{low} to {high}: told {told}, came {came}");
    }
}

//! Simulated practice: truths drawn from what is believed, ladders planned, parts run and broken, beliefs updated, by script.

use std::collections::BTreeMap;

use layload_core::ladder::{Believed, Climb, Practice, Wear, seeded};

use super::{Bench, EXPONENT};

/// Truths.
const TRUTHS: usize = 100;

/// Parts spent on each.
const PARTS: usize = 5;

#[test]
fn five_parts_narrow_the_band_and_it_holds_the_truth() {
    let bench = Bench::new(1.0);
    let (believed, wear) = (bench.believed(), bench.wear());
    let practice = Practice { levels: &bench.levels, wear: &wear, rules: &bench.rules, prior: &bench.prior };
    let margin = |known: &Believed| known.margin(bench.rules.margin, bench.rules.exponent);
    let prior = margin(&believed);
    let mut known_logs: BTreeMap<Vec<Option<usize>>, (Believed, Climb)> = BTreeMap::new();
    known_logs.insert(Vec::new(), (believed.clone(), Climb::plan(&wear, &believed, &bench.rules)));
    let (mut held, mut narrowed, mut broken) = (0, Vec::new(), 0);
    for truth in 0..TRUTHS {
        let mut draws = seeded(1000 + truth as u64);
        let (strength, life) = practice.truth(&mut draws);
        let mut log = Vec::new();
        for _ in 0..PARTS {
            let (known, climb) = known_logs[&log].clone();
            let broke = practice.run(&climb, (strength, life), &mut draws);
            broken += usize::from(broke.is_some());
            log.push(broke);
            known_logs.entry(log.clone()).or_insert_with(|| {
                let then = climb.after(&wear, &known, broke);
                let next = Climb::plan(&wear, &then, &bench.rules);
                (then, next)
            });
        }
        let band = margin(&known_logs[&log].0);
        held += usize::from(band.holds(bench.rules.margin * libm::exp(strength + life / EXPONENT)));
        narrowed.push(band.narrower_than(&prior));
    }
    narrowed.sort_by(f64::total_cmp);
    let (least, middle) = (narrowed[TRUTHS / 20], narrowed[TRUTHS / 2]);
    println!(
        "the band holds the truth in {held} of {TRUTHS}; narrower {middle:.2} times (1 in 20 less than {least:.2}); {broken} broken"
    );
    assert!((80..=95).contains(&held), "{held}");
    assert!(middle >= 2.0, "{middle}");
}

/// Parts broken until one lives the wanted life at the duty. The ladder: planned, each break learned from, the next revision as much
/// stronger as it takes for the margin to be 1 at the lower end of what is then believed, no more than half. Straight at it: run at
/// the duty; after a break the next revision is a tenth stronger, as builders do (common practice).
#[test]
fn the_ladder_breaks_fewer_parts_than_running_straight_at_it() {
    const MOST: usize = 12;
    let mut bench = Bench::new(0.8);
    // To live the wanted life is all that is wanted here.
    bench.rules.top = bench.rules.duty;
    let (believed, wear) = (bench.believed(), bench.wear());
    let practice = Practice { levels: &bench.levels, wear: &wear, rules: &bench.rules, prior: &bench.prior };
    let straight = Climb { steps: bench.climb().steps.into_iter().rev().take(1).collect(), reaches: true };
    let straight = {
        let mut all = straight;
        for step in &mut all.steps {
            step.taken.seconds = bench.rules.wanted;
        }
        all
    };
    let (mut by_ladder, mut by_force, mut fast) = (0, 0, [0, 0]);
    for truth in 0..TRUTHS {
        let mut draws = seeded(5000 + truth as u64);
        let (strength, life) = practice.truth(&mut draws);
        // Straight at it.
        let mut stronger = 0.0;
        for _ in 0..MOST {
            if practice.run(&straight, (strength + stronger, life), &mut draws).is_none() {
                break;
            }
            by_force += 1;
            fast[1] += 1;
            stronger += libm::log(1.1);
        }
        // By the ladder. What is made stronger moves truth and belief alike.
        let (mut known, mut stronger) = (believed.clone(), 0.0);
        for _ in 0..MOST {
            let moved = known.stronger(stronger);
            let wear = Wear::new(&bench.levels, &moved);
            let climb = Climb::plan(&wear, &moved, &bench.rules);
            let broke = practice.run(&climb, (strength + stronger, life), &mut draws);
            let Some(step) = broke else { break };
            by_ladder += 1;
            fast[0] += usize::from(climb.steps[step].taken.level == bench.rules.duty);
            let then = climb.after(&wear, &moved, broke);
            known = then.stronger(-stronger);
            let low = then.margin(bench.rules.margin, bench.rules.exponent).low;
            stronger += libm::log((1.0f64 / low).clamp(1.0, 1.5));
        }
    }
    let mean = |count: usize| count as f64 / TRUTHS as f64;
    println!(
        "parts broken until one lives: {:.2} by the ladder ({:.2} of them at full duty), {:.2} straight at it",
        mean(by_ladder),
        mean(fast[0]),
        mean(by_force)
    );
    assert!(by_ladder < by_force, "{by_ladder} {by_force}");
    assert!(fast[0] * 2 < fast[1], "{fast:?}");
}

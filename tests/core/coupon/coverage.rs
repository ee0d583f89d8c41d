//! Ranges that say "nine in ten" hold the true value nine times in ten.

use layload_core::coupon::regression::Regression;
use layload_core::life::normal_quantile;
use rand_pcg::Pcg64;
use rand_pcg::rand_core::Rng;

fn normal(random: &mut Pcg64) -> f64 {
    normal_quantile(((random.next_u64() >> 11) as f64 + 0.5) / (1u64 << 53) as f64).unwrap()
}

const SERIES: usize = 2000;

/// How often the ranges of slope and deviation hold, over series of 12 tests at four stresses.
fn held(stop: f64) -> (f64, f64, f64) {
    let (a, b, s) = (3.0, -9.0, 0.3);
    let mut random = Pcg64::new(20_260_501, 7);
    let (mut slope, mut deviation, mut bias, mut series) = (0, 0, 0.0, 0);
    while series < SERIES {
        let (mut rows, mut y, mut outs) = (Vec::new(), Vec::new(), Vec::new());
        for stress in [-0.2, -0.25, -0.3, -0.35_f64] {
            for _ in 0..3 {
                let life = a + b * stress + s * normal(&mut random);
                rows.push(vec![1.0, stress]);
                y.push(life.min(stop));
                outs.push(life > stop);
            }
        }
        let Some(fit) = Regression::new(&rows, &y, &outs) else { continue };
        series += 1;
        let (low, high) = fit.range(1, 0.9);
        slope += usize::from((low..=high).contains(&b));
        let (low, high) = fit.deviation_range(0.9);
        deviation += usize::from((low..=high).contains(&s));
        bias += fit.coefficients[1] - b;
    }
    let share = |count: usize| count as f64 / SERIES as f64;
    (share(slope), share(deviation), bias / SERIES as f64)
}

/// Exact theory: the share is 0.9 but for the chance of 2000 draws, whose standard deviation is 0.0067; three of them.
#[test]
fn without_run_outs() {
    let (slope, deviation, bias) = held(f64::INFINITY);
    assert!((slope - 0.9).abs() < 0.02, "{slope}");
    assert!((deviation - 0.9).abs() < 0.02, "{deviation}");
    assert!(bias.abs() < 0.15, "{bias}");
}

/// About one test in six stopped: the ranges rest on the likelihood's curvature, which holds for many tests; with twelve
/// they may be off by some per cent.
#[test]
fn with_run_outs() {
    let (slope, deviation, bias) = held(5.9);
    assert!((0.86..=0.94).contains(&slope), "{slope}");
    assert!((0.84..=0.95).contains(&deviation), "{deviation}");
    // Against exponents of 9: a slip in how run-outs count shows as one or more.
    assert!(bias.abs() < 0.4, "{bias}");
}

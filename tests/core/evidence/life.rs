//! Counting, lines, rupture, creep and scatter.

use layload_core::coupon::regression::Regression;
use layload_core::life::{
    CreepStep, Findley, GAS_CONSTANT_J_MOL_K, KineticStrength, LogNormalLife, RainflowScratch, RollingElement,
    StressLife, basic_rating_life, rainflow,
};
use libm::{exp, log, log10, pow, sinh};

use super::Rows;
use super::row::{Measure, Row, Source, Word};
use crate::life::E1049_HISTORY;

pub(super) fn rows() -> Rows {
    let mut rows = counting()?;
    rows.extend(line()?);
    rows.extend(bearing()?);
    rows.extend(rupture()?);
    rows.extend(creep()?);
    rows.extend(scatter()?);
    Ok(rows)
}

fn counting() -> Rows {
    let astm = Source { id: "C1", word: Word::Standard, name: "ASTM E1049-85, example of 5.4.4" };
    let mut cycles = Vec::new();
    rainflow(&E1049_HISTORY, &mut RainflowScratch::default(), |cycle| cycles.push(cycle))?;
    let counted = |range: f64| cycles.iter().filter(|c| (c.range - range).abs() < 0.5).map(|c| c.count).sum::<f64>();
    let named = [(3.0, 0.5), (4.0, 1.5), (6.0, 0.5), (8.0, 1.0), (9.0, 0.5)];
    let exact = "halves, counted";
    let mut rows: Vec<Row> = named
        .iter()
        .map(|&(range, count)| astm.row(format!("cycles of range {range}"), count, counted(range), 0.0, exact))
        .collect();
    rows.push(astm.row("cycles of all ranges", 4.0, cycles.iter().map(|c| c.count).sum(), 0.0, exact));
    Ok(rows)
}

/// Strain amplitude and cycles of the strain-life example of ASTM E739-91.
const E739: [(f64, f64); 9] = [
    (0.016_36, 168.0),
    (0.016_09, 200.0),
    (0.006_75, 1000.0),
    (0.006_82, 1180.0),
    (0.001_79, 4730.0),
    (0.001_60, 8035.0),
    (0.001_65, 5254.0),
    (0.000_53, 28_617.0),
    (0.000_54, 32_650.0),
];

fn line() -> Rows {
    let astm = Source { id: "C2", word: Word::Memory, name: "ASTM E739-91, strain-life example; data from memory" };
    let rows: Vec<Vec<f64>> = E739.iter().map(|&(strain, _)| vec![1.0, log10(strain)]).collect();
    let lives: Vec<f64> = E739.iter().map(|&(_, cycles)| log10(cycles)).collect();
    let fit = Regression::new(&rows, &lives, &[false; E739.len()]).ok_or("the program has no line for the example")?;
    let (start, slope) = (fit.coefficients[0], fit.coefficients[1]);
    // The stress-life line takes its amplitude at a million cycles and its exponent; it is the same for strain.
    let program = StressLife::new(pow(10.0, (6.0 - start) / slope), -slope)?;
    let digits = "digits of the expected value";
    let at = |strain: f64| pow(10.0, -0.244_74 - 1.451_44 * log10(strain));
    Ok(vec![
        astm.row("constant A of log10 N = A + B log10 e, least squares", -0.244_74, start, 1e-5, digits)
            .by(Measure::Difference),
        astm.row("slope B", -1.451_44, slope, 1e-5, digits).by(Measure::Difference),
        astm.row("variance of log10 N about that line", 0.011_195, fit.deviation * fit.deviation, 1e-5, digits)
            .by(Measure::Difference),
        astm.row(
            "life at a strain of 0.005 on that line, cycles",
            at(0.005),
            program.cycles_to_failure(0.005),
            5e-5,
            digits,
        ),
    ])
}

fn bearing() -> Rows {
    let iso = Source { id: "C11", word: Word::ClosedForm, name: "ISO 281, basic rating life" };
    let balls = basic_rating_life(RollingElement::Ball, 10e3, 1e3)?;
    let rollers = basic_rating_life(RollingElement::Roller, 10e3, 1e3)?;
    let heavy = basic_rating_life(RollingElement::Ball, 1000.0, 2000.0)?;
    let rounding = "rounding of a power";
    Ok(vec![
        iso.row("balls, C/P = 10, turns", 1e9, balls, 1e-9, rounding),
        iso.row("balls, C/P = 1/2, turns", 125e3, heavy, 1e-9, rounding),
        iso.row("rollers, C/P = 10, turns", 1e6 * pow(10.0, 10.0 / 3.0), rollers, 1e-9, rounding),
    ])
}

fn rupture() -> Rows {
    let zhurkov =
        Source { id: "C20", word: Word::ClosedForm, name: "Zhurkov 1965, with Boltzmann's constant per molecule" };
    // Of the order of a polyamide (invented).
    let (attempt, barrier, volume) = (1e-13, 170e3, 1.6e-3);
    let law = KineticStrength::new(attempt, barrier, volume)?;
    let (boltzmann, avogadro) = (1.380_649e-23, 6.022_140_76e23);
    let mut pairs = Vec::new();
    for (stress, kelvin) in [(0.0, 300.0), (20e6, 300.0), (40e6, 350.0), (60e6, 400.0)] {
        let expected = attempt * exp((barrier - volume * stress) / avogadro / (boltzmann * kelvin));
        pairs.push((expected, law.time_to_failure_s(stress, kelvin)?));
    }
    let mut rows = vec![zhurkov.worst(
        "time to rupture at steady stress, 0 to 60 MPa, 300 to 400 K, worst, s",
        pairs,
        1e-6,
        "digits of the constants",
    )];
    let bailey = Source {
        id: "C20",
        word: Word::ClosedForm,
        name: "Bailey's integral of a ramp: R T / (g c) ln(1 + g c t0 / (R T))",
    };
    let thermal = GAS_CONSTANT_J_MOL_K * 330.0;
    let mut pairs = Vec::new();
    for rate in [1e4, 1e6, 1e8] {
        let spread = thermal / (volume * rate);
        let expected = spread * log(1.0 + attempt * exp(barrier / thermal) / spread);
        for steps in [1_u32, 7, 1000] {
            let step = 1.5 * expected / f64::from(steps);
            let history: Vec<f64> = (0..=steps).map(|n| f64::from(n) * step * rate).collect();
            pairs.push((expected, law.failure_time_s(&history, step, 330.0)?.ok_or("outlived the ramp")?));
        }
    }
    // Stress is linear between samples and its integral exact, so the number of samples does not matter.
    rows.push(bailey.worst(
        "time to rupture under ramps of 0.01 to 100 MPa/s, 1 to 1000 samples, worst, s",
        pairs,
        1e-6,
        "rounding under exponentials",
    ));
    Ok(rows)
}

fn creep() -> Rows {
    let findley = Source { id: "C21", word: Word::ClosedForm, name: "Findley, Lai & Onaran, with Arrhenius' shift" };
    // Of the order of a filled nylon (invented).
    let law = Findley::new(4e-4, 12e6, 0.22, 110e3, 296.15)?;
    let scale = |stress: f64| 4e-4 * sinh(stress / 12e6);
    let mut pairs = Vec::new();
    for (stress, hours, kelvin) in [(10e6, 1.0, 296.15), (25e6, 0.2, 340.0), (5e6, 1000.0, 380.0), (-15e6, 3.0, 320.0)]
    {
        let shift = exp(110e3 / GAS_CONSTANT_J_MOL_K * (1.0 / kelvin - 1.0 / 296.15));
        pairs.push((scale(stress) * pow(hours / shift, 0.22), law.strain(stress, hours * 3600.0, kelvin)?));
    }
    let (s1, s2, t1, t) = (8e6, 20e6, 2.0, 5.0);
    let step = |stress_pa, hours: f64| CreepStep { stress_pa, temperature_k: 296.15, seconds: hours * 3600.0 };
    let rest = scale(s1) * (pow(t, 0.22) - pow(t - t1, 0.22));
    let two = law.strain_after(&[step(s1, t1), step(s2, t - t1)])?;
    let recovered = law.strain_after(&[step(s1, t1), step(0.0, t - t1)])?;
    let rounding = "one closed form in another order of factors";
    Ok(vec![
        findley.worst("creep strain under one stress, four cases, worst", pairs, 1e-9, rounding),
        findley.row("after 2 h at 8 MPa and 3 h at 20 MPa", rest + scale(s2) * pow(t - t1, 0.22), two, 1e-9, rounding),
        findley.row("after 2 h at 8 MPa and 3 h at rest", rest, recovered, 1e-9, rounding),
    ])
}

fn scatter() -> Rows {
    let normal = Source {
        id: "C28",
        word: Word::ClosedForm,
        name: "B10 = B50 10^(-1.2816 s), any table of the normal distribution",
    };
    let mut rows = Vec::new();
    for s in [0.1, 0.35, 1.0] {
        let life = LogNormalLife::new(5e5, s)?;
        let reason = "half a unit in the last digit of 1.2816";
        rows.push(normal.row(
            format!("life that nine in ten reach, B50 500 000, s {s}"),
            5e5 * pow(10.0, -1.2816 * s),
            life.life_at(0.1)?,
            1.2e-4,
            reason,
        ));
    }
    // Normal numbers by Box and Muller (1958), which does not use the quantile under test, from a linear congruential
    // generator with Knuth's multiplier.
    let drawn = Source { id: "C28", word: Word::ClosedForm, name: "200 000 lives drawn by Box and Muller's method" };
    let mut state: u64 = 20_240_229;
    let mut uniform = || {
        state = state.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        (state >> 11) as f64 / (1_u64 << 53) as f64
    };
    let s = 0.35;
    let mut lives: Vec<f64> = (0..200_000)
        .map(|_| {
            let radius = (-2.0 * log(1.0 - uniform())).sqrt();
            1e6 * pow(10.0, s * radius * libm::cos(std::f64::consts::TAU * uniform()))
        })
        .collect();
    lives.sort_by(f64::total_cmp);
    let got = LogNormalLife::new(1e6, s)?.life_at(0.1)?;
    let reason = "three times the spread of the draws' own tenth, s ln(10) 1.71 / sqrt(200 000)";
    rows.push(drawn.row("the tenth of them, s 0.35", lives[20_000], got, 0.01, reason));
    Ok(rows)
}

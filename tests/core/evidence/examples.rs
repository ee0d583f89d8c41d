//! Examples that others worked out and printed, from their input to their answer.

use layload_core::engine::SliderCrank;
use layload_core::life::{
    GAS_CONSTANT_J_MOL_K, KineticStrength, LogNormalLife, MeanStress, RainflowScratch, StressLife, damage_of_cycles,
    rainflow_repeating,
};
use layload_core::load::{PistonBasis, PistonMass};

use super::Rows;
use super::row::{Measure, Row, Source, Word};

pub(super) fn rows() -> Rows {
    let mut rows = fatigue()?;
    rows.extend(rod_motion()?);
    rows.extend(piston_pin()?);
    rows.extend(creep_rupture()?);
    rows.extend(bearings()?);
    Ok(rows)
}

/// A block of stresses to the number of its repeats: counting, mean stress, stress-life line, sum of damage.
fn fatigue() -> Rows {
    let source = Source {
        id: "E1",
        word: Word::Published,
        name: "Shigley's Mechanical Engineering Design, 9th ed., example on cumulative damage, pages 322 to 324",
    };
    // Stresses of the block, ultimate strength and endurance limit in kpsi.
    let block = [80.0, 40.0, 60.0, -40.0, -20.0, -60.0];
    let (ultimate, endurance, share) = (151.0, 67.5, 0.795);
    let mut cycles = Vec::new();
    rainflow_repeating(&block, &mut RainflowScratch::default(), |cycle| cycles.push(cycle))?;
    cycles.sort_by(|a, b| b.range.total_cmp(&a.range).then(b.mean.total_cmp(&a.mean)));
    let exact = "whole numbers";
    let mut rows: Vec<Row> = Vec::new();
    let named = [("largest", 70.0, 10.0), ("upper small", 10.0, 50.0), ("lower small", 10.0, -30.0)];
    for (cycle, (name, amplitude, mean)) in cycles.iter().zip(named) {
        rows.push(source.row(format!("amplitude of the {name} cycle, kpsi"), amplitude, cycle.amplitude(), 0.0, exact));
        rows.push(source.row(format!("mean of the {name} cycle, kpsi"), mean, cycle.mean, 0.0, exact));
    }
    // The line of the book: a N^b through 0.795 of the ultimate at a thousand cycles and the limit at a million.
    let exponent = 3.0 / libm::log10(share * ultimate / endurance);
    let line = StressLife::new(endurance, exponent)?;
    let damage = damage_of_cycles(cycles.iter().copied(), MeanStress::Gerber, &line, ultimate);
    rows.push(source.row(
        "repeats of the block until failure",
        619e3,
        1.0 / damage,
        0.01,
        "the book rounds strength to 70.3 and its exponent to three digits, which the power of twelve makes 0.9 %",
    ));
    Ok(rows)
}

/// Motion of a connecting rod at one crank angle, which the book finds by drawing it.
fn rod_motion() -> Rows {
    let source = Source {
        id: "E5",
        word: Word::Published,
        name: "Khurmi & Gupta, Theory of Machines, example 15.1: crank 200 mm, rod 700 mm, 120 rad/s, 30° past the inner dead centre",
    };
    let (throw, rod, speed) = (0.200, 0.700, 120.0);
    let state = SliderCrank::new(throw, rod, 0.0)?.at(30_f64.to_radians(), speed);
    let middle = state.rod_point_acceleration_m_s2(rod / 2.0, 0.0);
    let reason = "lengths measured on a drawing to a millimetre or two of some hundred";
    Ok(vec![
        source.row("speed of the piston, m/s", 15.24, state.piston_velocity_m_s.abs(), 0.025, reason),
        source.row("its acceleration, m/s²", 2880.0, state.piston_acceleration_m_s2.abs(), 0.025, reason),
        source.row(
            "acceleration of the middle of the rod, m/s²",
            2779.2,
            libm::hypot(middle[0], middle[1]),
            0.025,
            reason,
        ),
        source.row("turning of the rod, rad/s", 29.66, state.rod_angular_velocity_rad_s.abs(), 0.025, reason),
        source.row(
            "its angular acceleration, rad/s²",
            1913.14,
            state.rod_angular_acceleration_rad_s2.abs(),
            0.025,
            reason,
        ),
    ])
}

/// Forces at one crank angle of a petrol engine.
fn piston_pin() -> Rows {
    let source = Source {
        id: "E2",
        word: Word::Memory,
        name: "Khurmi & Gupta, Theory of Machines, ch. 15, petrol engine of 80 mm bore; input confirmed, answers recalled",
    };
    let (throw, rod, bore, mass, pressure) = (0.050, 0.200, 0.080, 1.0, 0.7e6);
    let speed = 1800.0 * core::f64::consts::PI / 30.0;
    // 33 degrees, which the book measures on a drawing for a piston 10 mm below its top.
    let angle = 33_f64.to_radians();
    let crank = SliderCrank::new(throw, rod, 0.0)?;
    let area = core::f64::consts::PI / 4.0 * bore * bore;
    // Two samples: the second lies at the angle.
    let basis = PistonBasis::new(PistonMass::new(vec![], &[mass], &[], 0.0), &crank, vec![pressure; 2], area, angle);
    let force = basis.at(1, speed);
    let reason = "two terms of the acceleration in the book, the exact one here, and an angle to whole degrees";
    let pin = force.gas + mass * force.acceleration;
    let still = (force.gas / (mass * -basis.acceleration(1, 1.0))).sqrt() * 30.0 / core::f64::consts::PI;
    Ok(vec![
        source.row("net load on the piston pin, N", 1849.0, pin, 0.01, reason),
        source.row("thrust in the rod, N", 1866.3, libm::hypot(pin, force.wall), 0.01, reason),
        source.row("side thrust on the cylinder, N", 254.0, force.wall.abs(), 0.01, reason),
        source.row("speed at which they vanish, rpm", 2612.0, still, 0.01, reason),
        source.row(
            "drop of the piston at that angle, mm",
            10.0,
            1e3 * crank.at(angle, 1.0).piston_drop_m,
            0.02,
            "half a degree either way",
        ),
    ])
}

/// Rupture under a load that lasts, at one temperature from tests at others.
fn creep_rupture() -> Rows {
    let source = Source {
        id: "E3",
        word: Word::Published,
        name: "Callister, Materials Science and Engineering, design example on the rupture of S-590 alloy at 140 MPa",
    };
    // A parameter T (20 + log10 t) that depends on stress alone is Zhurkov's law with an attempt time of 1e-20 h and
    // a barrier of ln 10 R times the parameter.
    let (parameter, stress_pa, hour) = (24.0e3, 140e6, 3600.0);
    let barrier = core::f64::consts::LN_10 * GAS_CONSTANT_J_MOL_K * parameter;
    let law = KineticStrength::new(1e-20 * hour, barrier + 50e3, 50e3 / stress_pa)?;
    let steady = law.time_to_failure_s(stress_pa, 1073.0)? / hour;
    // The same load as a history, by Bailey's integral.
    let history = vec![stress_pa; 400];
    let summed = law.failure_time_s(&history, hour, 1073.0)?.ok_or("outlived the history")? / hour;
    let reason = "the book's answer has three digits";
    Ok(vec![
        source.row("time to rupture at 800 °C, h", 233.0, steady, 2e-3, reason),
        source.row("the same by summing the damage of every hour, h", 233.0, summed, 2e-3, reason),
    ])
}

/// Millions of turns until 23 deep-groove ball bearings failed.
const BEARING_LIVES: [f64; 23] = [
    17.88, 28.92, 33.0, 41.52, 42.12, 45.6, 48.4, 51.84, 51.96, 54.12, 55.56, 67.8, 68.64, 68.64, 68.88, 84.12, 93.12,
    98.64, 105.12, 105.84, 127.92, 128.04, 173.4,
];

/// What the log-normal law says of the first tenth, against the tenth counted.
fn bearings() -> Rows {
    let source = Source {
        id: "E4",
        word: Word::Published,
        name: "Lieblein & Zelen 1956, J. Res. Nat. Bur. Standards 57, 273: 23 bearings, data carried by the package surpyval 0.25 (PyPI)",
    };
    let logs: Vec<f64> = BEARING_LIVES.iter().map(|life| libm::log10(*life)).collect();
    let count = logs.len() as f64;
    let mean = logs.iter().sum::<f64>() / count;
    let variance = logs.iter().map(|log| (log - mean) * (log - mean)).sum::<f64>() / (count - 1.0);
    let life = LogNormalLife::new(libm::pow(10.0, mean), variance.sqrt())?;
    // Benard's median ranks (i - 0.3) / (n + 0.4), linear between two lives.
    let counted = |share: f64| {
        let rank = share * (count + 0.4) + 0.3;
        let below = rank.floor() as usize;
        BEARING_LIVES[below - 1] + (rank - below as f64) * (BEARING_LIVES[below] - BEARING_LIVES[below - 1])
    };
    let reason = "standard error of a quantile of 23 log-normal lives, 1.7 s / sqrt(23) decades at the tenth";
    let error = libm::pow(10.0, 1.71 * variance.sqrt() / count.sqrt()) - 1.0;
    let error_of_half = libm::pow(10.0, 1.25 * variance.sqrt() / count.sqrt()) - 1.0;
    Ok(vec![
        source.row("life that nine in ten reach, million turns", counted(0.1), life.life_at(0.1)?, error, reason),
        source
            .row(
                "life that half reach, million turns",
                counted(0.5),
                life.life_at(0.5)?,
                error_of_half,
                "the same, 1.25 s / sqrt(23) decades at the median",
            )
            .by(Measure::Share),
    ])
}

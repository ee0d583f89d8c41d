//! Motion of the crank and the gas above the piston.

use std::f64::consts::PI;

use layload_core::engine::{Cylinder, SliderCrank};
use libm::{cos, pow, sin};

use super::Rows;
use super::row::{Measure, Row, Source, Word};
use crate::engine::otto::{GAMMA, otto};

pub(super) fn rows() -> Rows {
    let mut rows = dead_centres()?;
    rows.push(every_angle()?);
    rows.extend(air_standard()?);
    Ok(rows)
}

fn dead_centres() -> Rows {
    let source = Source { id: "C3", word: Word::ClosedForm, name: "r w² (1 ± r/L), Taylor; Heywood" };
    let crank = SliderCrank::new(0.020, 0.090, 0.0)?;
    let at = |angle| crank.at(angle, 1e4 * PI / 30.0).piston_acceleration_m_s2;
    let reason = "the expected value has nine digits";
    let what = |name: &str| format!("acceleration at {name} dead centre, 20 mm throw, 90 mm rod, 10 000 rpm, m/s²");
    Ok(vec![
        source.row(what("top"), -26_806.33, at(0.0), 1e-6, reason),
        source.row(what("bottom"), 17_058.58, at(PI), 1e-6, reason),
    ])
}

fn every_angle() -> Result<Row, Box<dyn std::error::Error>> {
    let source = Source {
        id: "C4",
        word: Word::ClosedForm,
        name: "second difference of eighth order of the position by geometry",
    };
    let (r, l, step): (f64, f64, f64) = (0.020, 0.090, 0.02);
    let place = |t: f64| r * cos(t) + (l * l - r * r * sin(t) * sin(t)).sqrt();
    let crank = SliderCrank::new(r, l, 0.0)?;
    let mut worst = 0.0_f64;
    for degree in 0..360 {
        let t = f64::from(degree).to_radians();
        let pair = |n: f64| place(t + n * step) + place(t - n * step);
        let second = (8.0 / 5.0 * pair(1.0) - pair(2.0) / 5.0 + 8.0 / 315.0 * pair(3.0)
            - pair(4.0) / 560.0
            - 205.0 / 72.0 * place(t))
            / (step * step);
        worst = worst.max((crank.at(t, 1.0).piston_acceleration_m_s2 - second).abs() / r);
    }
    let what = "piston acceleration at 360 angles, greatest miss over r w²";
    Ok(source.row(what, 0.0, worst, 1e-6, "error of the differences, below 1e-9").by(Measure::Difference))
}

fn air_standard() -> Rows {
    let source =
        Source { id: "C23", word: Word::ClosedForm, name: "air-standard Otto cycle, any text of thermodynamics" };
    let reason = "heat is nearly, not quite, instant";
    let mut rows = Vec::new();
    for ratio in [4.0, 8.0, 11.0] {
        let cylinder = Cylinder::new(SliderCrank::new(0.020, 0.090, 0.0)?, 0.040, ratio)?;
        // Ten samples a degree, so that the trapezoid of the work is not what is tested.
        let run = otto().run(&cylinder, 1.0, 7200)?;
        let efficiency = run.trace.indicated_work_j(&cylinder) / run.heat_j;
        let ideal = 1.0 - pow(ratio, 1.0 - GAMMA);
        rows.push(source.row(format!("efficiency at a compression ratio of {ratio}"), ideal, efficiency, 0.01, reason));
        // Compression at constant entropy, then heat at constant volume.
        let peak = 1e5 * pow(ratio, GAMMA) + (GAMMA - 1.0) * run.heat_j / cylinder.clearance_volume_m3();
        let got = run.trace.peak().pressure_pa;
        rows.push(source.row(format!("peak pressure at {ratio}, bar"), peak / 1e5, got / 1e5, 0.01, reason));
    }
    Ok(rows)
}

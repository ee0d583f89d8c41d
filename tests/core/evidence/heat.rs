//! Conduction, fins, gas films and heat from hysteresis.

use std::f64::consts::{PI, TAU};

use layload_core::heat::{
    ChainEnd, CrownStep, Film, Fin, FinCooling, FinMaterial, FinStation, SoftenedDepth, SteadyHeat, StepPace, Wall,
    WallLayer, hohenberg, hysteresis_heat, woschni,
};
use layload_core::journal::{JournalValues, Lubrication, PinPath, Sink};
use libm::{cosh, erfc, exp, pow};

use super::Rows;
use super::row::{Measure, Row, Source, Word};
use crate::heat::crown_fact::softened;

pub(super) fn rows() -> Rows {
    let mut rows = half_space()?;
    rows.push(fin()?);
    rows.push(hysteresis());
    rows.extend(films());
    rows.extend(crown()?);
    rows.extend(journal());
    Ok(rows)
}

/// A bore that slides on its pin.
fn journal() -> Vec<Row> {
    let neale = Source {
        id: "J01",
        word: Word::Published,
        name: "Neale, The Tribology Handbook, rubbing bearing materials, thermoplastic with filler (table)",
    };
    let limit = |card: &str| JournalValues::of(card, Lubrication::Dry).limit * 1e-6;
    let bar =
        Source { id: "J02", word: Word::ClosedForm, name: "Incropera, plane wall with even heat, both faces held" };
    let (radius, length): (f64, f64) = (0.010, 0.012);
    // The parabola q x (L - x) / (2 k A L), mean of many points.
    let mean = (0..1000).map(|k| (f64::from(k) + 0.5) / 1000.0).map(|x| 0.5 * x * (1.0 - x)).sum::<f64>() / 1000.0;
    let expected = mean * length / (45.0 * PI * radius * radius);
    let got = PinPath { radius, length, sink: Sink::Held }.rise_per_watt();
    let within = "the ends of a printed range";
    vec![
        Row {
            measure: Measure::Excess,
            ..neale.row("most dry pressure times speed of PA, MPa m/s", 0.11, limit("PA6-CF20"), 0.0, within)
        },
        Row {
            measure: Measure::Shortfall,
            ..neale.row("least dry pressure times speed of PLA, MPa m/s", 0.035, limit("PLA"), 1e-9, within)
        },
        bar.row("rise of a bore over its pin's ends, K/W", expected, got, 1e-5, "a sum over a thousand points"),
    ]
}

const CONDUCTIVITY: f64 = 0.25;
const CAPACITY: f64 = 1.9e6;

/// Temperatures by depth of a thick wall after some time, from 300 K.
fn heated(gas: Film, seconds: f64) -> Result<Vec<(f64, f64)>, Box<dyn std::error::Error>> {
    let layer = WallLayer { thickness: 8e-3, conductivity: CONDUCTIVITY, volumetric_heat: CAPACITY, cells: 320 };
    let wall = Wall::new(&[layer], &[])?;
    let mut run = wall.start(300.0)?;
    let back = Film { coefficient: 0.0, temperature: 300.0 };
    let mut watch = SoftenedDepth::new(0, 5000.0, &[])?;
    wall.run(&mut run, &CrownStep { seconds, gas, back }, StepPace::usual(seconds), &mut watch, |_, _| {})?;
    Ok(wall.depths().iter().copied().zip(run.temperatures).collect())
}

fn half_space() -> Rows {
    let reason = "the bound of the list of checks for the numeric wall";
    let flux_source = Source { id: "C12", word: Word::ClosedForm, name: "Carslaw & Jaeger 2.9, constant flux" };
    // A flux q is a film of h from q/h kelvin away: with so weak a film it does not feel the face.
    let (flux, seconds): (f64, f64) = (2e4, 2.0);
    let found = heated(Film { coefficient: 1e-3, temperature: flux / 1e-3 }, seconds)?;
    let reach = 2.0 * (CONDUCTIVITY / CAPACITY * seconds).sqrt();
    let rise = |depth: f64| {
        let y = depth / reach;
        flux / CONDUCTIVITY * reach * (exp(-y * y) / PI.sqrt() - y * erfc(y))
    };
    let mut rows = vec![flux_source.row(
        "rise of the face after 2 s of 20 kW/m², K",
        2.0 * flux / CONDUCTIVITY * (CONDUCTIVITY / CAPACITY * seconds / PI).sqrt(),
        found[0].1 - 300.0,
        0.01,
        reason,
    )];
    for index in [10, 30] {
        let (depth, kelvin) = found[index];
        rows.push(flux_source.row(
            format!("rise {:.2} mm deep, K", 1e3 * depth),
            rise(depth),
            kelvin - 300.0,
            0.01,
            reason,
        ));
    }
    let film_source = Source { id: "C13", word: Word::ClosedForm, name: "Carslaw & Jaeger 2.7, convection" };
    let film = 250.0;
    for seconds in [0.05, 0.5, 4.0] {
        let found = heated(Film { coefficient: film, temperature: 1200.0 }, seconds)?;
        let root = (CONDUCTIVITY / CAPACITY * seconds).sqrt();
        let share = film * root / CONDUCTIVITY;
        let expected = 900.0 * (1.0 - exp(share * share) * erfc(share));
        let what = format!("rise of the face after {seconds} s under gas of 1200 K, K");
        rows.push(film_source.row(what, expected, found[0].1 - 300.0, 0.01, reason));
    }
    Ok(rows)
}

fn fin() -> Result<Row, Box<dyn std::error::Error>> {
    let incropera = Source { id: "C18", word: Word::ClosedForm, name: "Incropera, fin with adiabatic tip" };
    let (length, area, perimeter, film, k): (f64, f64, f64, f64, f64) = (0.08, 2.4e-4, 0.064, 40.0, 0.45);
    let m = (film * perimeter / (k * area)).sqrt();
    let stations = 401;
    let place = |i: usize| length * i as f64 / (stations - 1) as f64;
    let cuts: Vec<FinStation> = (0..stations).map(|i| FinStation { position: place(i), area, perimeter }).collect();
    let fin = Fin::new(&cuts, FinMaterial { conductivity: k, volumetric_heat: 1.8e6 })?;
    let ends = [ChainEnd::Held(400.0), ChainEnd::Insulated];
    let cooling = FinCooling { film_coefficient: film, air_temperature: 330.0, ends };
    let SteadyHeat::Settled { temperatures, .. } = fin.steady(&cooling, |_, _| 0.0, 500.0)? else {
        return Err("the fin does not settle".into());
    };
    let miss = |(i, t): (usize, &f64)| (t - 330.0) / 70.0 - cosh(m * (length - place(i))) / cosh(m * length);
    let worst = temperatures.iter().enumerate().map(miss).fold(0.0, |worst: f64, miss| worst.max(miss.abs()));
    let what = "excess along a fin of 401 stations, worst miss over that of its base";
    Ok(incropera.row(what, 0.0, worst, 1e-3, "the bound of the list of checks").by(Measure::Difference))
}

fn hysteresis() -> Row {
    let ferry = Source {
        id: "C19",
        word: Word::ClosedForm,
        name: "Ferry, area of the ellipse of stress and strain, integrated",
    };
    let (frequency, storage, loss, strain) = (50.0, 1.8e9, 0.12e9, 0.004);
    let steps = 100_000;
    let mut area = 0.0;
    for i in 0..steps {
        let turn = TAU * (f64::from(i) + 0.5) / f64::from(steps);
        let stress = strain * (storage * libm::sin(turn) + loss * libm::cos(turn));
        area += stress * strain * libm::cos(turn) * TAU / f64::from(steps);
    }
    let got = hysteresis_heat(frequency, loss, strain);
    ferry.row(
        "heat at 50 Hz, 0.4 % strain, 0.12 GPa loss modulus, W/m³",
        frequency * area,
        got,
        1e-9,
        "sum of 100 000 steps",
    )
}

fn films() -> Vec<Row> {
    // The program's own formula a second time, with another library's powers: it finds a slip in writing, no wrong formula.
    let hohenberg_again =
        Source { id: "C22", word: Word::ClosedForm, name: "Hohenberg 1979, the same formula worked out in Python" };
    // Pressure, temperature, volume, mean piston speed, film coefficient.
    let cases = [
        (1e5, 400.0, 1e-4, 5.0, 90.795_293_106),
        (28e5, 2200.0, 1.6e-5, 7.67, 973.955_996_317),
        (6e5, 1500.0, 6e-5, 12.0, 417.852_122_627),
    ];
    let mut rows: Vec<Row> = cases
        .iter()
        .map(|&(p, t, v, c, expected)| {
            let what = format!("gas film at {} bar, {t} K, {c} m/s, W/(m² K)", p / 1e5);
            hohenberg_again.row(what, expected, hohenberg(p, t, v, c), 1e-6, "digits of the expected value")
        })
        .collect();
    let paper = Source { id: "C22", word: Word::ClosedForm, name: "Woschni 1967 in the units of the paper" };
    let pairs =
        [(1e5, 400.0, 0.052, 10.0), (28e5, 2200.0, 0.052, 30.0), (6e5, 1500.0, 0.1, 25.0)].map(|(p, t, bore, w)| {
            // kcal/(m² h K) and kp/cm²: 1 kcal/h = 1.163 W, 1 kp/cm² = 98 066.5 Pa.
            let old = 110.0 * pow(bore, -0.2) * pow(p / 98_066.5, 0.8) * pow(t, -0.53) * pow(w, 0.8);
            (1.163 * old, woschni(p, t, bore, w))
        });
    rows.push(paper.worst(
        "gas film at three states, worst, W/(m² K)",
        pairs,
        2e-3,
        "the SI factor is rounded to four digits",
    ));
    let woschni_again =
        Source { id: "C22", word: Word::ClosedForm, name: "Woschni 1967 in SI, the same formula worked out in Python" };
    let got = woschni(28e5, 2200.0, 0.052, 30.0);
    rows.push(woschni_again.row(
        "gas film at 28 bar, 2200 K, 30 m/s, W/(m² K)",
        866.988_689_353,
        got,
        1e-6,
        "digits of the expected value",
    ));
    rows
}

fn crown() -> Rows {
    let fact = Source { id: "C26", word: Word::CommonPractice, name: "trade fact, no source" };
    let mut rows = Vec::new();
    for throttle in [0.3, 1.0] {
        // The outer fifth of a millimetre and the outer millimetre.
        let [skin, pla] = softened("PLA", throttle)?.map(|time| time.unwrap_or(f64::INFINITY));
        let [nylon_skin, nylon] = softened("PA12-CF15", throttle)?.map(|time| time.unwrap_or(300.0));
        let at = format!("at throttle {throttle}");
        let what = format!("a millimetre of a fired PLA crown is soft {at}, s");
        let reason = "within about ten seconds: no later than twice that";
        rows.push(fact.row(what, 10.0, pla, 1.0, reason).by(Measure::Excess));
        let reason = "far sooner: a multiple";
        let what = format!("the same millimetre in PA12-CF15 over that, {at}");
        rows.push(fact.row(what, 2.0, nylon / pla, 0.0, reason).by(Measure::Shortfall));
        let what = format!("its skin of 0.2 mm in PA12-CF15 over that in PLA, {at}");
        rows.push(fact.row(what, 4.0, nylon_skin / skin, 0.0, reason).by(Measure::Shortfall));
    }
    Ok(rows)
}

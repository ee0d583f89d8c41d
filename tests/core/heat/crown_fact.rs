//! C26: a fired PLA crown against the same crown in PA12-CF15.

use layload_core::engine::{Cylinder, DEFAULT_SAMPLES, GasCycle, SliderCrank};
use layload_core::heat::{CrownStep, Film, GasFilm, SoftenedDepth, StepPace, Wall, WallLayer};
use layload_core::material::{MoistureState, library};

/// A crown of 5 mm, printed flat, in a four-stroke single of our own: 52 mm by 46 mm, 7.5 to 1, 3000 rpm.
const CROWN: f64 = 5e-3;

/// When the outer millimetre and the outer fifth of a millimetre are soft, s.
pub(crate) fn softened(material: &str, throttle: f64) -> Result<[Option<f64>; 2], Box<dyn std::error::Error>> {
    let crank = SliderCrank::new(0.023, 0.092, 0.0)?;
    let cylinder = Cylinder::new(crank, 0.052, 7.5)?;
    let run = GasCycle::four_stroke().run(&cylinder, throttle, DEFAULT_SAMPLES)?;
    let speed = 3000.0 * std::f64::consts::PI / 30.0;
    let gas = GasFilm::by_hohenberg(&run.trace, &run.temperature, &cylinder, speed)?.mean();
    // Crankcase air, memory; it hardly matters within a minute.
    let back = Film { coefficient: 80.0, temperature: 320.0 };
    let card = library::card(material)?;
    let state = card.at(296.15, MoistureState::Dry);
    let layer = WallLayer {
        thickness: CROWN,
        conductivity: state.layer_conductivity,
        volumetric_heat: state.volumetric_heat(),
        cells: 200,
    };
    let wall = Wall::new(&[layer], &[])?;
    let mut watch = SoftenedDepth::new(0, card.temperature.softening_c.value + 273.15, &[2e-4, 1e-3])?;
    let mut state = wall.start(296.15)?;
    wall.run(
        &mut state,
        &CrownStep { seconds: 300.0, gas, back },
        StepPace { first: 1e-3, growth: 1.05, longest: 0.1 },
        &mut watch,
        |_, _| {},
    )?;
    println!("{material}, throttle {throttle}: {gas:?}, depth (m) and time (s): {:?}", watch.marks());
    Ok([watch.marks()[0].1, watch.marks()[1].1])
}

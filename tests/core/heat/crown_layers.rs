//! Walls of several layers.

use approx::assert_relative_eq;
use layload_core::heat::{CrownStep, Film, HeatError, Joint, SoftenedDepth, StepPace, Wall, WallLayer};

use super::Tested;

const PLASTIC: WallLayer = WallLayer { thickness: 4e-3, conductivity: 0.3, volumetric_heat: 1.6e6, cells: 60 };
const PLATE: WallLayer = WallLayer { thickness: 1e-3, conductivity: 160.0, volumetric_heat: 2.4e6, cells: 4 };
const GAS: Film = Film { coefficient: 250.0, temperature: 1200.0 };
const BACK: Film = Film { coefficient: 150.0, temperature: 340.0 };

#[test]
fn steady_profile_is_that_of_resistances_in_series() -> Tested {
    let joint = 2000.0;
    let wall = Wall::new(&[PLATE, PLASTIC], &[Joint::Conductance(joint)])?;
    let found = wall.steady(GAS, BACK)?;
    let resistances = [1.0 / 250.0, 1e-3 / 160.0, 1.0 / joint, 4e-3 / 0.3, 1.0 / 150.0];
    let flux = (1200.0 - 340.0) / resistances.iter().sum::<f64>();
    let mut expected = 1200.0;
    let plate = wall.layer(0).ok_or("plate")?;
    let plastic = wall.layer(1).ok_or("plastic")?;
    for (resistance, point) in resistances.into_iter().zip([plate.start, plate.end - 1, plastic.start, plastic.end - 1])
    {
        expected -= flux * resistance;
        // Straight lines are exact in finite volumes.
        assert_relative_eq!(found[point], expected, max_relative = 1e-9);
    }
    // A perfect joint shares its point.
    let joined = Wall::new(&[PLATE, PLASTIC], &[Joint::Perfect])?;
    assert_eq!(joined.depths().len(), wall.depths().len() - 1);
    let (a, b) = (joined.layer(0).ok_or("plate")?, joined.layer(1).ok_or("plastic")?);
    assert_eq!(a.end - 1, b.start);
    Ok(())
}

#[test]
fn layers_of_one_stuff_are_one_layer() -> Tested {
    let half = WallLayer { thickness: 2e-3, cells: 30, ..PLASTIC };
    let (one, two) = (Wall::new(&[PLASTIC], &[])?, Wall::new(&[half, half], &[Joint::Perfect])?);
    let temperatures = |wall: &Wall| -> Result<Vec<f64>, HeatError> {
        let mut run = wall.start(320.0)?;
        let step = CrownStep { seconds: 5.0, gas: GAS, back: BACK };
        let mut watch = SoftenedDepth::new(0, 5000.0, &[])?;
        wall.run(&mut run, &step, StepPace::usual(5.0), &mut watch, |_, _| {})?;
        Ok(run.temperatures)
    };
    for (a, b) in temperatures(&one)?.iter().zip(&temperatures(&two)?) {
        assert_relative_eq!(*a, *b, max_relative = 1e-12);
    }
    Ok(())
}

#[test]
fn plate_slows_the_plastic() -> Tested {
    let soft_at = |layers: &[WallLayer], joints: &[Joint]| -> Result<Option<f64>, HeatError> {
        let wall = Wall::new(layers, joints)?;
        let mut watch = SoftenedDepth::new(layers.len() - 1, 433.0, &[1e-3])?;
        let mut run = wall.start(320.0)?;
        let step = CrownStep { seconds: 120.0, gas: GAS, back: BACK };
        wall.run(&mut run, &step, StepPace::usual(120.0), &mut watch, |_, _| {})?;
        Ok(watch.marks()[0].1)
    };
    let bare = soft_at(&[PLASTIC], &[])?.ok_or("bare")?;
    let covered = soft_at(&[PLATE, PLASTIC], &[Joint::Conductance(2000.0)])?.ok_or("covered")?;
    assert!(covered > bare + 1.0, "{bare} {covered}");
    Ok(())
}

#[test]
fn bad_walls_are_refused() -> Tested {
    assert!(matches!(Wall::new(&[], &[]), Err(HeatError::Count { count: 0, .. })));
    assert!(matches!(Wall::new(&[PLATE, PLASTIC], &[]), Err(HeatError::Count { what: "joints", .. })));
    let empty = WallLayer { cells: 0, ..PLASTIC };
    assert!(Wall::new(&[PLASTIC, empty], &[Joint::Perfect]).is_err());
    let endless = WallLayer { cells: usize::MAX, ..PLASTIC };
    assert!(matches!(Wall::new(&[endless, endless], &[Joint::Perfect]), Err(HeatError::Count { .. })));
    for bad in [0.0, -1.0, f64::NAN, f64::INFINITY] {
        assert!(Wall::new(&[WallLayer { thickness: bad, ..PLASTIC }], &[]).is_err());
        assert!(Wall::new(&[PLATE, PLASTIC], &[Joint::Conductance(bad)]).is_err());
        let wall = Wall::new(&[PLASTIC], &[])?;
        assert!(wall.start(bad).is_err());
        assert!(wall.steady(Film { coefficient: f64::NAN, ..GAS }, BACK).is_err());
    }
    let wall = Wall::new(&[PLASTIC], &[])?;
    let off = |film: Film| Film { coefficient: 0.0, ..film };
    assert_eq!(wall.steady(off(GAS), off(BACK)), Err(HeatError::NoWayOut));
    let mut watch = SoftenedDepth::new(3, 400.0, &[])?;
    let mut run = wall.start(300.0)?;
    let step = CrownStep { seconds: 1.0, gas: GAS, back: BACK };
    assert!(wall.run(&mut run, &step, StepPace::usual(1.0), &mut watch, |_, _| {}).is_err());
    let crawl = StepPace::even(1e-12);
    let mut watch = SoftenedDepth::new(0, 400.0, &[])?;
    assert!(matches!(wall.run(&mut run, &step, crawl, &mut watch, |_, _| {}), Err(HeatError::Count { .. })));
    Ok(())
}

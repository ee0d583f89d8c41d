//! What a report leaves out, and whether that could turn its answer.

use layload_core::report::{Coverage, CoveredReport};

use super::{Found, Tested, looked};

fn of<'a>(effects: &'a [CoveredReport], name: &str) -> Found<&'a CoveredReport> {
    Ok(effects.iter().find(|effect| effect.effect == name).ok_or("not listed")?)
}

#[test]
fn every_effect_is_listed_and_those_not_checked_are_named() -> Tested {
    let report = looked("bearing")?;
    for effect in &report.effects {
        let named = report.verdict.unchecked.contains(&effect.effect);
        assert_eq!(named, effect.state == Coverage::NotChecked, "{}", effect.effect);
        assert!(effect.factor >= 1.0 && (effect.factor == 1.0) == (effect.state == Coverage::Checked), "{effect:?}");
        assert!(!effect.told.ends_with('.') && !effect.told.is_empty());
    }
    for name in
        ["blends and pockets", "seams", "bond of layers", "spread of peak pressure and knock", "bending resonance"]
    {
        of(&report.effects, name)?;
    }
    // A look at sections misses what the field sees.
    assert_eq!(of(&report.effects, "blends and pockets")?.state, Coverage::NotChecked);
    Ok(())
}

#[test]
fn an_effect_turns_what_its_factor_brings_below_one() {
    let effect = |state| CoveredReport { effect: "seams".into(), state, told: "told".into(), factor: 1.3 };
    assert!(effect(Coverage::NotChecked).could_turn(1.29) && !effect(Coverage::NotChecked).could_turn(1.31));
    assert!(!effect(Coverage::Bounded).could_turn(1.1) && !effect(Coverage::Checked).could_turn(1.1));
}

/// The frequency by hand from numbers that the report gives: least second moment of the shank, mass, length. The modulus along
/// a flat print is that of its beads and their crossing, so only its size is known here.
#[test]
fn the_rod_bends_where_a_beam_does() -> Tested {
    let report = looked("bearing")?;
    let told = &of(&report.effects, "bending resonance")?.told;
    let hertz: f64 = told.split(" Hz").next().and_then(|text| text.rsplit(' ').next()).ok_or("no number")?.parse()?;
    let rod = report.stations.iter().map(|station| station.second_moment_min_mm4);
    let least = rod.fold(f64::INFINITY, f64::min) * 1e-12;
    let (length, mass) = (0.090, report.mesh.mass_g * 1e-3);
    let with = |modulus: f64| 0.5 * std::f64::consts::PI / (length * length) * (modulus * least * length / mass).sqrt();
    // Between 0.5 and 8 GPa for PA12 with short fibre, conditioned and warm.
    assert!(hertz > with(0.5e9) && hertz < with(8e9), "{told}");
    Ok(())
}

/// The couple by hand: friction of an oiled pin (0.10), the greatest pin force and the bore's radius; the stress it makes in the
/// shank is the couple over the section's modulus.
#[test]
fn the_shank_is_bent_by_what_friction_turns() -> Tested {
    let report = looked("oiled")?;
    let effect = of(&report.effects, "friction of pins")?;
    let numbers: Vec<f64> = effect.told.split_whitespace().filter_map(|word| word.parse().ok()).collect::<Vec<f64>>();
    let [moment, bent, there] = numbers[..] else { return Err(effect.told.clone().into()) };
    let forces = &report.rod.as_ref().ok_or("no rod")?.forces;
    let ends = [(forces.small_end_push_n, 0), (forces.big_end_push_n, 1)];
    let couple = |(force, bore): (f64, usize)| 0.10 * force * report.part.bores[bore].diameter_mm / 2.0 * 1e-3;
    // The greatest force of a pin lies a little aside of the rod's axis.
    let least = ends.map(couple).into_iter().fold(0.0, f64::max);
    assert!(moment > 0.99 * least && moment < 1.05 * least, "{moment} {least}");
    assert!((effect.factor - 1.0 - bent / there).abs() < 0.05, "{effect:?}");
    assert_eq!(effect.state, Coverage::Bounded);
    // A rolling bearing turns with next to none; what is left is the bush of the other end.
    let rolling = looked("bearing")?;
    assert!(of(&rolling.effects, "friction of pins")?.factor < 1.0 + 0.9 * (effect.factor - 1.0));
    Ok(())
}

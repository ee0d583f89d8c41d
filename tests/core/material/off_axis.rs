//! C9: a bar pulled at an angle to its layers.

use approx::assert_relative_eq;
use layload_core::material::{Lay, LayerPlane, LayerStrength, MoistureState, library};
use nalgebra::Vector3;

/// Turning the stress and the build direction together changes nothing.
#[test]
fn does_not_depend_on_the_frame() {
    let card = library::card("PA12-CF15").expect("embedded card");
    let strength = LayerStrength::of(&card.at(293.15, MoistureState::Dry), Lay::Lines);
    let stress = nalgebra::Matrix3::new(10e6, 3e6, -1e6, 3e6, -4e6, 2e6, -1e6, 2e6, 6e6);
    let build = Vector3::new(0.3, -0.5, 0.81).normalize();
    let turn = nalgebra::Rotation3::from_euler_angles(0.7, -1.1, 2.3);
    let here = strength.use_of(&stress, &LayerPlane::new(build));
    let there = strength.use_of(&(turn * stress * turn.inverse()), &LayerPlane::new(turn * build));
    assert_relative_eq!(here.utilisation, there.utilisation, max_relative = 1e-12);
    assert_relative_eq!(here.layer_share, there.layer_share, max_relative = 1e-12);
}

/// Layers pull apart before beads tear in every card; pushed together they carry more than pulled apart.
#[test]
fn layers_are_the_weak_direction_and_mind_only_tension() {
    for name in library::names() {
        let card = library::card(name).expect("embedded card");
        let strength = LayerStrength::of(&card.at(293.15, MoistureState::Dry), Lay::Wall);
        let pull = Vector3::x() * Vector3::x().transpose() * 1e6;
        let across = strength.use_of(&pull, &LayerPlane::new(Vector3::x()));
        let within = strength.use_of(&pull, &LayerPlane::new(Vector3::z()));
        let pushed = strength.use_of(&-pull, &LayerPlane::new(Vector3::x()));
        assert!(across.utilisation > within.utilisation, "{name}");
        assert!(pushed.utilisation < across.utilisation, "{name}");
        assert!(across.layer_share > 0.99 && within.layer_share < 0.01, "{name}");
    }
}

/// Shear along the layers has no sign of its own: which way a point is loaded is told by its worst stress.
#[test]
fn shear_beside_a_push_is_no_pull() {
    let card = library::card("PA12-CF15").expect("embedded card");
    let strength = LayerStrength::of(&card.at(293.15, MoistureState::Dry), Lay::Lines);
    let plane = LayerPlane::new(Vector3::x());
    let stress =
        |normal: f64, shear: f64| nalgebra::Matrix3::new(normal, shear, 0.0, shear, 0.0, 0.0, 0.0, 0.0, 0.0) * 1e6;
    // A push with shear that at times is more than the push and at times less, one way round and the other.
    for turn in [1.0, -1.0] {
        let history = [(-10.0, 12.0), (-10.0, 9.0), (-8.0, 7.0)].map(|(n, s)| stress(n, turn * s));
        let uses = history.map(|stress| strength.use_of(&stress, &plane));
        let worst = uses.iter().enumerate().max_by(|a, b| a.1.utilisation.total_cmp(&b.1.utilisation)).expect("some").0;
        let signed: Vec<f64> =
            (0..3).map(|k| uses[k].signed(&uses[worst], history[k].component_mul(&history[worst]).sum())).collect();
        // One way of being loaded throughout: no cycle through nothing.
        assert!(signed.iter().all(|use_| use_.signum() == signed[0].signum()), "{signed:?}");
        // The shear of it lasts, the push does not.
        assert!(uses.iter().all(|use_| use_.lasting() > 0.0 && use_.lasting() < use_.utilisation), "{uses:?}");
    }
    let [sheared, pushed, pulled] =
        [stress(0.0, -5.0), stress(-5.0, 0.0), stress(5.0, 0.0)].map(|stress| strength.use_of(&stress, &plane));
    assert_relative_eq!(sheared.lasting(), sheared.utilisation);
    assert_relative_eq!(pulled.lasting(), pulled.utilisation);
    assert_relative_eq!(pushed.lasting(), 0.0);
    // Turned round, a shear is loaded the other way; a push alone is less than nothing.
    assert!(sheared.signed(&sheared, -1.0) < 0.0 && sheared.signed(&sheared, 1.0) > 0.0);
    assert!(pushed.signed(&pushed, 1.0) < 0.0);
}

/// Pressure closes a weld: it bears more shear the more it is pressed, up to a limit, and never less by being pulled less.
#[test]
fn pressure_helps_a_weld_bear_shear_and_not_without_end() {
    for name in library::names() {
        let card = library::card(name).expect("embedded card");
        let state = card.at(293.15, MoistureState::Dry);
        let strength = LayerStrength::of(&state, Lay::Lines);
        let plane = LayerPlane::new(Vector3::x());
        let used = |normal: f64, shear: f64| {
            let stress = nalgebra::Matrix3::new(normal, shear, 0.0, shear, 0.0, 0.0, 0.0, 0.0, 0.0);
            let used = strength.use_of(&stress, &plane);
            // The pressure's own use of the compression strength is no matter of sliding.
            let pushed = normal.min(0.0) / state.compression_strength;
            (used.utilisation * used.utilisation - pushed * pushed).sqrt()
        };
        let shear = state.layer_shear_strength;
        assert_relative_eq!(used(0.0, shear), 1.0, max_relative = 1e-12);
        let mut last = used(0.5 * state.layer_strength, shear);
        for share in [0.25, 0.0, -0.2, -0.5, -1.0, -2.0, -4.0] {
            let now = used(share * shear, shear);
            assert!(now <= last * (1.0 + 1e-12), "{name} at {share}: {now} after {last}");
            last = now;
        }
        // No more than Puck's credit for fracture on the plane itself: the root of 1 + 2 p.
        assert_relative_eq!(last, 1.0 / 1.4_f64.sqrt(), max_relative = 1e-9);
        // No jump where pull turns into pressure, and the same whichever way the shear goes.
        assert_relative_eq!(used(-1.0, shear), used(1.0, shear), max_relative = 1e-6);
        assert_relative_eq!(used(-3e6, shear), used(-3e6, -shear), max_relative = 1e-12);
    }
}

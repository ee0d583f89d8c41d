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

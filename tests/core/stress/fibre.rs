//! Bending stress at the corners of a section, and the shear in the middle of it.

use approx::assert_relative_eq;
use layload_core::load::SectionForce;
use layload_core::section::{AreaProperties, Loop};
use layload_core::stress::{extreme_fibres, web_shear_factor};
use nalgebra::Vector2;

fn rectangle(breadth: f64, height: f64, turned: f64) -> Loop {
    let (s, c) = (libm::sin(turned), libm::cos(turned));
    [(-1.0, -1.0), (1.0, -1.0), (1.0, 1.0), (-1.0, 1.0)]
        .iter()
        .map(|(y, z)| (y * breadth / 2.0, z * height / 2.0))
        .map(|(y, z)| Vector2::new(c * y - s * z, s * y + c * z))
        .collect()
}

/// M c / I on a rectangle, 6 M / (z b²) (Timoshenko). Closed form: 1e-12.
#[test]
fn rectangle_in_plain_bending() {
    let section = vec![rectangle(0.012, 0.006, 0.0)];
    let properties = AreaProperties::of(&section);
    let fibres = extreme_fibres(&section, &properties);
    let force = SectionForce { axial: 100.0, bending: 0.5, ..SectionForce::default() };
    let most = fibres.iter().map(|f| f.stress(&force)).fold(f64::MIN, f64::max);
    let expected = 100.0 / (0.012 * 0.006) + 6.0 * 0.5 / (0.006 * 0.012 * 0.012);
    assert_relative_eq!(most, expected, max_relative = 1e-12);
    let side = SectionForce { side_bending: 0.5, ..SectionForce::default() };
    let most = fibres.iter().map(|f| f.stress(&side)).fold(f64::MIN, f64::max);
    assert_relative_eq!(most, 6.0 * 0.5 / (0.012 * 0.006 * 0.006), max_relative = 1e-12);
}

/// Unsymmetric bending: turning section and moment together changes no stress.
#[test]
fn turned_section_in_turned_bending() {
    let turn = 0.6;
    let (s, c) = (libm::sin(turn), libm::cos(turn));
    let straight = vec![rectangle(0.012, 0.006, 0.0)];
    let turned = vec![rectangle(0.012, 0.006, turn)];
    let most = |section: &[Loop], force: &SectionForce| {
        let properties = AreaProperties::of(section);
        extreme_fibres(section, &properties).iter().map(|f| f.stress(force)).fold(f64::MIN, f64::max)
    };
    // The moment vector (side_bending, bending) in the (y, z) plane turns with the section.
    let plain = SectionForce { bending: 0.4, side_bending: 0.3, ..SectionForce::default() };
    let along = SectionForce { bending: s * 0.3 + c * 0.4, side_bending: c * 0.3 - s * 0.4, ..SectionForce::default() };
    assert_relative_eq!(most(&straight, &plain), most(&turned, &along), max_relative = 1e-9);
}

/// Greatest over mean shear: 3/2 on a rectangle, and A Q / (I b) on an I (Zhuravskii; Timoshenko). Closed form: 1e-12.
#[test]
fn shear_in_the_middle() {
    let bar = vec![rectangle(0.012, 0.006, 0.0)];
    assert_relative_eq!(web_shear_factor(&bar, &AreaProperties::of(&bar)), 1.5, max_relative = 1e-12);
    // I with its web along y: flanges 2 x 10 mm at both ends of a 12 mm deep, 3 mm thick web.
    let outline: Loop = [
        (-8.0, -5.0),
        (-6.0, -5.0),
        (-6.0, -1.5),
        (6.0, -1.5),
        (6.0, -5.0),
        (8.0, -5.0),
        (8.0, 5.0),
        (6.0, 5.0),
        (6.0, 1.5),
        (-6.0, 1.5),
        (-6.0, 5.0),
        (-8.0, 5.0),
    ]
    .iter()
    .map(|&(y, z)| Vector2::new(y * 1e-3, z * 1e-3))
    .collect();
    let section = vec![outline];
    let properties = AreaProperties::of(&section);
    let area = 2.0 * 20.0 + 36.0;
    let moment = 10.0 * (16.0_f64 * 16.0 * 16.0 - 12.0 * 12.0 * 12.0) / 12.0 + 3.0 * 12.0 * 12.0 * 12.0 / 12.0;
    let first = 20.0 * 7.0 + 3.0 * 6.0 * 3.0;
    assert_relative_eq!(properties.area, area * 1e-6, max_relative = 1e-12);
    assert_relative_eq!(properties.second_moment_z, moment * 1e-12, max_relative = 1e-12);
    assert_relative_eq!(web_shear_factor(&section, &properties), area * first / (moment * 3.0), max_relative = 1e-12);
}

//! Solid bands round a lighter inside.

use approx::assert_relative_eq;
use layload_core::print::{PrintSettings, makeup};
use layload_core::section::{AreaProperties, Loop, Section};
use nalgebra::{Vector2, Vector3};

const WALL: f64 = 3.0 * 0.4e-3;
const SKIN: f64 = 4.0 * 0.2e-3;

fn print(build: Vector3<f64>, infill: f64) -> PrintSettings {
    PrintSettings { build, bead_width: 0.4e-3, layer_height: 0.2e-3, walls: 3, skin_layers: 4, infill }
        .checked()
        .expect("sound settings")
}

fn ring(half_y: f64, half_z: f64, clockwise: bool) -> Loop {
    let mut ring: Loop = [(-1.0, -1.0), (1.0, -1.0), (1.0, 1.0), (-1.0, 1.0)]
        .iter()
        .map(|&(y, z)| Vector2::new(y * half_y, z * half_z))
        .collect();
    if clockwise {
        ring.reverse();
    }
    ring
}

fn section(loops: Vec<Loop>) -> Section {
    Section { position: 0.0, properties: AreaProperties::of(&loops), loops }
}

/// A bar lying flat has walls on its sides and skins above and below; one standing upright has walls all round.
///
/// The union of bands is computed on a grid of 64-bit integers by the polygon library, finer than floats: 1e-12.
#[test]
fn depth_of_the_bands_follows_the_build_direction() {
    let bar = section(vec![ring(0.008, 0.005, false)]);
    let flat = makeup(&bar, &print(Vector3::z(), 0.3));
    assert_relative_eq!(flat.infill_area, (0.016 - 2.0 * WALL) * (0.010 - 2.0 * SKIN), max_relative = 1e-12);
    let on_edge = makeup(&bar, &print(Vector3::y(), 0.3));
    assert_relative_eq!(on_edge.infill_area, (0.016 - 2.0 * SKIN) * (0.010 - 2.0 * WALL), max_relative = 1e-12);
    let upright = makeup(&bar, &print(Vector3::x(), 0.3));
    assert_relative_eq!(upright.infill_area, (0.016 - 2.0 * WALL) * (0.010 - 2.0 * WALL), max_relative = 1e-12);
    assert_relative_eq!(upright.solid_area + upright.infill_area, bar.properties.area, max_relative = 1e-12);
}

/// Stiffness of the inside falls with the square of its density (Gibson & Ashby 1997), so the section bends like its
/// bands plus that share of its inside.
#[test]
fn inside_counts_with_the_square_of_its_density() {
    let bar = section(vec![ring(0.008, 0.005, false)]);
    let settings = print(Vector3::x(), 0.4);
    let found = makeup(&bar, &settings);
    let (a, b) = (0.016 - 2.0 * WALL, 0.010 - 2.0 * WALL);
    let whole = 0.010 * 0.016_f64 * 0.016 * 0.016 / 12.0;
    let inside = b * a * a * a / 12.0;
    assert_relative_eq!(found.stiffness.second_moment_z, whole - inside * (1.0 - 0.16), max_relative = 1e-12);
    assert_relative_eq!(found.stiffness.area, 0.00016 - a * b * (1.0 - 0.16), max_relative = 1e-12);
    let density = (0.00016 - a * b * 0.6) / 0.00016;
    assert_relative_eq!(found.relative_density(&settings), density, max_relative = 1e-12);
}

#[test]
fn holes_have_walls_of_their_own() {
    let tube = section(vec![ring(0.008, 0.008, false), ring(0.003, 0.003, true)]);
    let found = makeup(&tube, &print(Vector3::x(), 0.3));
    let outer = 0.016 - 2.0 * WALL;
    let inner = 0.006 + 2.0 * WALL;
    assert_relative_eq!(found.infill_area, outer * outer - inner * inner, max_relative = 1e-12);
}

#[test]
fn thin_or_solid_sections_have_no_inside() {
    let thin = section(vec![ring(0.001, 0.005, false)]);
    assert!(makeup(&thin, &print(Vector3::z(), 0.3)).infill_area < 1e-12);
    let solid = section(vec![ring(0.008, 0.005, false)]);
    let found = makeup(&solid, &print(Vector3::z(), 1.0));
    assert_eq!(found.infill_area, 0.0);
    assert_eq!(found.stiffness, solid.properties);
}

/// A round bar's inside is that of its many-sided outline; the bands leave out corners within a thousandth of a bead,
/// 0.4 µm on the radius of 6.8 mm of the inside: less than 2 * 0.4e-6 / 6.8e-3 of the area.
#[test]
fn corners_no_print_shows_cost_nothing() {
    let round = |count: usize| -> Loop {
        let turn = |k: usize| std::f64::consts::TAU * k as f64 / count as f64;
        (0..count).map(|k| Vector2::new(0.008 * libm::cos(turn(k)), 0.008 * libm::sin(turn(k)))).collect()
    };
    let inside = std::f64::consts::PI * (0.008 - WALL) * (0.008 - WALL);
    for count in [1_000, 20_000] {
        let found = makeup(&section(vec![round(count)]), &print(Vector3::x(), 0.3));
        assert_relative_eq!(found.infill_area, inside, max_relative = 1.2e-4);
    }
}

/// Teeth and pinholes beyond counting are not followed: the section then counts as inside, which is the weaker.
#[test]
fn an_outline_too_jagged_to_follow_counts_as_inside() {
    let teeth = 20_000;
    let comb: Loop = (0..teeth)
        .flat_map(|k| {
            let at = 0.1 * f64::from(k) / f64::from(teeth);
            [Vector2::new(at, 0.001), Vector2::new(at + 2e-6, 0.02)]
        })
        .chain([Vector2::new(0.1, -0.02), Vector2::new(0.0, -0.02)])
        .rev()
        .collect();
    let mut pinholes = vec![ring(0.01, 0.01, false)];
    for k in 0..5_000 {
        let (y, z) = (f64::from(k % 100) * 1.9e-4 - 0.0095, f64::from(k / 100) * 3.8e-4 - 0.0095);
        pinholes.push(ring(1e-5, 1e-5, true).iter().map(|p| p + Vector2::new(y, z)).collect());
    }
    for loops in [vec![comb], pinholes] {
        let jagged = section(loops);
        let found = makeup(&jagged, &print(Vector3::x(), 0.3));
        assert!(found.untold);
        assert_eq!(found.infill_area, jagged.properties.area);
        assert_relative_eq!(found.stiffness.area, 0.09 * jagged.properties.area, max_relative = 1e-12);
    }
}

/// A knurled bar is followed: teeth of a tenth of a bead and less are left out where there are very many.
#[test]
fn fine_teeth_are_smoothed_over() {
    let count = 3_000;
    let knurled: Loop = (0..count)
        .map(|k| {
            let radius = if k % 2 == 0 { 0.008 } else { 0.00797 };
            let turn = std::f64::consts::TAU * f64::from(k) / f64::from(count);
            Vector2::new(radius * libm::cos(turn), radius * libm::sin(turn))
        })
        .collect();
    let found = makeup(&section(vec![knurled]), &print(Vector3::x(), 0.3));
    assert!(!found.untold);
    // Within the teeth's 30 µm and the 40 µm they may be smoothed by.
    let inside = |radius: f64| std::f64::consts::PI * (radius - WALL) * (radius - WALL);
    assert!((inside(0.00793)..=inside(0.00804)).contains(&found.infill_area), "{}", found.infill_area);
}

/// A print without walls and skins has all of it inside, to the last digit, and nothing untold.
#[test]
fn without_bands_all_is_inside() {
    let round: Loop = (0..5_000)
        .map(|k| std::f64::consts::TAU * f64::from(k) / 5_000.0)
        .map(|turn| Vector2::new(0.008 * libm::cos(turn), 0.008 * libm::sin(turn)))
        .collect();
    let bare = PrintSettings { walls: 0, skin_layers: 0, ..print(Vector3::x(), 0.3) };
    let bar = section(vec![round]);
    let found = makeup(&bar, &bare);
    assert_eq!((found.solid_area, found.infill_area, found.untold), (0.0, bar.properties.area, false));
}

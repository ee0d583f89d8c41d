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
/// The union of bands is computed on a grid of 32-bit integers by the polygon library: 1e-6.
#[test]
fn depth_of_the_bands_follows_the_build_direction() {
    let bar = section(vec![ring(0.008, 0.005, false)]);
    let flat = makeup(&bar, &print(Vector3::z(), 0.3));
    assert_relative_eq!(flat.infill_area, (0.016 - 2.0 * WALL) * (0.010 - 2.0 * SKIN), max_relative = 1e-6);
    let on_edge = makeup(&bar, &print(Vector3::y(), 0.3));
    assert_relative_eq!(on_edge.infill_area, (0.016 - 2.0 * SKIN) * (0.010 - 2.0 * WALL), max_relative = 1e-6);
    let upright = makeup(&bar, &print(Vector3::x(), 0.3));
    assert_relative_eq!(upright.infill_area, (0.016 - 2.0 * WALL) * (0.010 - 2.0 * WALL), max_relative = 1e-6);
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
    assert_relative_eq!(found.stiffness.second_moment_z, whole - inside * (1.0 - 0.16), max_relative = 1e-5);
    assert_relative_eq!(found.stiffness.area, 0.00016 - a * b * (1.0 - 0.16), max_relative = 1e-5);
    let density = (0.00016 - a * b * 0.6) / 0.00016;
    assert_relative_eq!(found.relative_density(&settings), density, max_relative = 1e-5);
}

#[test]
fn holes_have_walls_of_their_own() {
    let tube = section(vec![ring(0.008, 0.008, false), ring(0.003, 0.003, true)]);
    let found = makeup(&tube, &print(Vector3::x(), 0.3));
    let outer = 0.016 - 2.0 * WALL;
    let inner = 0.006 + 2.0 * WALL;
    assert_relative_eq!(found.infill_area, outer * outer - inner * inner, max_relative = 1e-6);
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

//! A part from three sides: what is drawn is there, what is covered is not.

use layload_core::drawing::{Drawing, Side, View, draw};
use layload_core::job::Job;
use layload_core::part::Rod;
use layload_core::{LoadedPart, load};

type Tested = Result<(), Box<dyn std::error::Error>>;

fn bytes(name: &str) -> std::io::Result<Vec<u8>> {
    std::fs::read(format!("{}/../{name}", env!("CARGO_MANIFEST_DIR")))
}

fn of(loaded: &LoadedPart) -> Drawing {
    draw(loaded.part.mesh(), loaded.part.frame(), loaded.part.sides())
}

fn drawn(sample: &str) -> Result<Drawing, Box<dyn std::error::Error>> {
    Ok(of(&load(&bytes(&format!("samples/{sample}"))?, &Job::default(), &mut ())?))
}

fn length(lines: &[Vec<[f64; 2]>], keep: impl Fn([f64; 2]) -> bool) -> f64 {
    let pieces = lines.iter().flat_map(|line| line.windows(2).map(|pair| (pair[0], pair[1])));
    pieces
        .filter(|(a, b)| keep([f64::midpoint(a[0], b[0]), f64::midpoint(a[1], b[1])]))
        .map(|(a, b)| libm::hypot(b[0] - a[0], b[1] - a[1]))
        .sum()
}

/// A view with its lower left corner at the origin.
fn size(view: &View) -> [f64; 2] {
    [view.high[0] - view.low[0], view.high[1] - view.low[1]]
}

/// The plain rod has bores of 13 and 24 mm, 90 mm apart, and is 14 mm thick (see `samples/mesh_maker`).
const BORES: [f64; 2] = [13.0, 24.0];
const APART: f64 = 90.0;
const THICK: f64 = 14.0;

#[test]
fn bores_are_round_where_one_looks_through_them() -> Tested {
    let part = load(&bytes("samples/plain_rod.stl")?, &Job::default(), &mut ())?;
    let rod = part.recognised::<Rod>().ok_or("the sample is a rod")?;
    let drawing = of(&part);
    let view = &drawing.views[0];
    assert_eq!(view.side, Side::AlongPins);
    for (eye, diameter) in [&rod.small_end, &rod.big_end].into_iter().zip(BORES) {
        let [x, y] = view.place(rod.frame.to_file_mm(&eye.center));
        let round = |p: [f64; 2]| (libm::hypot(p[0] - x, p[1] - y) - 0.5 * diameter).abs() < 0.06;
        let found = length(&view.outlines, round);
        // The polygon of the facets is a little shorter than the circle.
        assert!((found / (std::f64::consts::PI * diameter) - 1.0).abs() < 0.01, "{diameter} mm: {found} mm of lines");
    }
    assert!(size(view)[0] > APART + 0.5 * (BORES[0] + BORES[1]));
    Ok(())
}

#[test]
fn what_lies_behind_is_left_out() -> Tested {
    let drawing = drawn("plain_rod.stl")?;
    let view = &drawing.views[1];
    assert_eq!(view.side, Side::AcrossPins);
    let [across, thick] = size(view);
    assert!((thick - THICK).abs() < 1e-3, "{thick}");
    // The round outside of the eyes covers the bores: nothing is drawn inside the outline but edges of the shank, none of
    // them under an eye, and the rectangle itself is whole.
    let inside = |p: [f64; 2]| p[1] > view.low[1] + 0.3 && p[1] < view.high[1] - 0.3;
    let eye = |p: [f64; 2]| inside(p) && p[0] > view.low[0] + 0.3 && p[0] < view.low[0] + 0.5 * BORES[0];
    let lines: Vec<_> = view.outlines.iter().chain(&view.edges).cloned().collect();
    assert!(length(&lines, eye) < 1e-9, "{}", length(&lines, eye));
    let border = length(&lines, |p| !inside(p));
    let rectangle = 2.0 * across;
    // Top and bottom run the whole length, and the short sides are drawn too.
    assert!(border > 0.99 * rectangle, "{border} of {rectangle}");
    Ok(())
}

#[test]
fn places_of_the_file_have_their_place() -> Tested {
    for sample in ["plain_rod.stl", "flat_crown_piston.stl"] {
        let part = load(&bytes(&format!("samples/{sample}"))?, &Job::default(), &mut ())?;
        let drawing = of(&part);
        for view in &drawing.views {
            // Every line lies in the box, and the box has the size of the part along these axes.
            for point in view.outlines.iter().chain(&view.edges).flatten() {
                for ((value, low), high) in point.iter().zip(view.low).zip(view.high) {
                    assert!(*value > low - 1e-6 && *value < high + 1e-6);
                }
            }
            let along = |v: [f64; 3], w: [f64; 3]| v.iter().zip(w).map(|(a, b)| a * b).sum::<f64>();
            assert!(along(view.right, view.up).abs() < 1e-9 && (along(view.up, view.up) - 1.0).abs() < 1e-9);
            assert_eq!(view.place([0.0; 3]), [0.0; 2]);
            assert!((view.place(view.right)[0] - 1.0).abs() < 1e-9 && view.place(view.right)[1].abs() < 1e-9);
        }
    }
    Ok(())
}

#[test]
fn a_part_far_away_looks_the_same() -> Tested {
    let [near, far] = ["piston.stl", "piston_far.stl"].map(|name| {
        let stl = bytes(&format!("tests/meshes/{name}")).map_err(|e| e.to_string())?;
        Ok::<_, String>(of(&load(&stl, &Job::default(), &mut ()).map_err(|e| e.to_string())?))
    });
    let (near, far) = (near?, far?);
    for (near, far) in near.views.iter().zip(&far.views) {
        let total = |view: &View| length(&view.outlines, |_| true);
        assert!((size(near)[0] - size(far)[0]).abs() < 0.01);
        // Coordinates far from the origin have fewer digits, which moves the ends of covered lines by a cell or so.
        assert!((total(near) / total(far) - 1.0).abs() < 0.1, "{} {}", total(near), total(far));
    }
    Ok(())
}

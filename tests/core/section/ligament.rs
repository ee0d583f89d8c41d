//! The narrowest place of known shapes.

use approx::assert_relative_eq;
use core::f64::consts::PI;
use layload_core::LengthUnit;
use layload_core::mesh::Mesh;
use layload_core::section::{Ligament, narrowest};
use nalgebra::Vector2;

use super::{Tested, cut};
use crate::mesh::files;
use crate::mesh::shapes::{Region, Solid};

fn of(region: &Region) -> Result<Ligament, Box<dyn std::error::Error>> {
    let mesh = Solid::prism(region, 0.0, 0.03).mesh()?;
    Ok(narrowest(&cut(&mesh, 0.011)?.loops).ok_or("no ligament")?)
}

/// Tolerance where the walls face each other squarely: rounding.
const SQUARE: f64 = 1e-9;

#[test]
fn rectangle() -> Tested {
    let found = of(&Region::rectangle(0.02, 0.004))?;
    assert_relative_eq!(found.thickness, 0.004, max_relative = SQUARE);
    assert_relative_eq!(found.across.y.abs(), 1.0, max_relative = SQUARE);
    assert!(found.center.y.abs() < 1e-12);
    Ok(())
}

#[test]
fn i_section() -> Tested {
    let web = of(&Region::i_section(0.014, 0.022, 0.0015, 0.0035))?;
    assert_relative_eq!(web.thickness, 0.0015, max_relative = SQUARE);
    assert!(web.center.x.abs() < 1e-12 && web.center.y.abs() < 0.0075);
    let flange = of(&Region::i_section(0.014, 0.022, 0.005, 0.002))?;
    assert_relative_eq!(flange.thickness, 0.002, max_relative = SQUARE);
    Ok(())
}

#[test]
fn ring() -> Tested {
    let steps = 96;
    let found = of(&Region::annulus(0.012, 0.008, 0.0, steps))?;
    // Facets of both circles are parallel; the gap between them is the difference of radii times the cosine.
    assert_relative_eq!(found.thickness, 0.004 * libm::cos(PI / steps as f64), max_relative = SQUARE);
    Ok(())
}

#[test]
fn eccentric_ring() -> Tested {
    let (outer, inner, offset, steps) = (0.012, 0.008, 0.0031, 96);
    let found = of(&Region::annulus(outer, inner, offset, steps))?;
    let least = outer - inner - offset;
    // Facets take up to the sagitta of the outer circle away and add as much at the inner one; the place is known to half
    // a facet, over which the gap opens by no more than that.
    let sagitta = outer * (1.0 - libm::cos(PI / steps as f64));
    assert!((found.thickness - least).abs() < 2.0 * sagitta, "{} is not {least}", found.thickness);
    assert!(found.center.x > 0.0 && found.center.y.abs() < 0.1 * found.center.x);
    Ok(())
}

#[test]
fn nothing_to_measure() {
    assert!(narrowest(&[]).is_none());
    assert!(narrowest(&[vec![]]).is_none());
    assert!(narrowest(&[vec![Vector2::zeros(); 3]]).is_none());
}

#[test]
fn a_wall_between_two_holes() -> Tested {
    // A plate with two square windows, 0.8 mm between them and 3 mm round them.
    let window = |from: f64| {
        // Clockwise: a hole.
        [[from, 0.003], [from, 0.009], [from + 0.006, 0.009], [from + 0.006, 0.003]].map(Vector2::from).to_vec()
    };
    let plate = [[0.0, 0.0], [0.0188, 0.0], [0.0188, 0.012], [0.0, 0.012]].map(Vector2::from).to_vec();
    let found = narrowest(&[plate, window(0.003), window(0.0098)]).ok_or("no ligament")?;
    assert_relative_eq!(found.thickness, 0.0008, max_relative = SQUARE);
    assert_relative_eq!(found.center.x, 0.0094, max_relative = SQUARE);
    Ok(())
}

#[test]
fn air_between_two_parts_is_no_wall() -> Tested {
    let square =
        |from: f64| [[from, 0.0], [from + 0.01, 0.0], [from + 0.01, 0.01], [from, 0.01]].map(Vector2::from).to_vec();
    let found = narrowest(&[square(0.0), square(0.0101)]).ok_or("no ligament")?;
    assert_relative_eq!(found.thickness, 0.01, max_relative = SQUARE);
    Ok(())
}

#[test]
fn corners_do_not_count_as_thin() -> Tested {
    // A right triangle with a sharp corner of 30 degrees, which tapers to nothing.
    let triangle = [[0.0, 0.0], [0.02, 0.0], [0.0, 0.02 / 3.0_f64.sqrt()]].map(Vector2::from).to_vec();
    if let Some(found) = narrowest(&[triangle]) {
        assert!(found.thickness > 0.0);
    }
    // Corners of 90 degrees never.
    let found = of(&Region::rectangle(0.01, 0.01))?;
    assert_relative_eq!(found.thickness, 0.01, max_relative = SQUARE);
    Ok(())
}

#[test]
fn a_short_neck() -> Tested {
    // Two squares of 20 mm joined by a neck 1.2 mm thick and only 0.6 mm long.
    let (half, neck, reach) = (0.01, 0.0006, 0.0003);
    let outline = [
        [-reach - 0.02, -half],
        [-reach, -half],
        [-reach, -neck],
        [reach, -neck],
        [reach, -half],
        [reach + 0.02, -half],
        [reach + 0.02, half],
        [reach, half],
        [reach, neck],
        [-reach, neck],
        [-reach, half],
        [-reach - 0.02, half],
    ];
    let found = narrowest(&[outline.map(Vector2::from).to_vec()]).ok_or("no ligament")?;
    assert_relative_eq!(found.thickness, 2.0 * neck, max_relative = SQUARE);
    Ok(())
}

#[test]
fn between_round_notches() -> Tested {
    // A bar with two round notches of 4 mm radius opposite each other, 1 mm between their bottoms, in fine facets.
    let (radius, least, steps) = (0.004, 0.001, 40);
    let arc = |sign: f64| {
        (0..=steps).map(move |k| {
            let angle = PI * f64::from(k) / f64::from(steps);
            // Bottom notch runs left to right over its top, the upper one right to left under its bottom.
            Vector2::new(-sign * radius * libm::cos(angle), sign * (-least / 2.0 - radius + radius * libm::sin(angle)))
        })
    };
    let depth = -least / 2.0 - radius;
    let mut outline = vec![Vector2::new(-0.02, depth)];
    outline.extend(arc(1.0));
    outline.push(Vector2::new(0.02, depth));
    outline.push(Vector2::new(0.02, -depth));
    outline.extend(arc(-1.0));
    outline.push(Vector2::new(-0.02, -depth));
    let found = narrowest(&[outline]).ok_or("no ligament")?;
    // The bottoms of both notches are corners of the outline, so facets take nothing away.
    assert_relative_eq!(found.thickness, least, max_relative = SQUARE);
    assert!(found.center.norm() < 1e-3);
    Ok(())
}

#[test]
fn between_sharp_notches() -> Tested {
    // Notches of 60 degrees tip to tip, and one tip above a flat edge.
    let least = 0.0013;
    let (tip, mouth, depth) = (least / 2.0, 0.003, 0.006);
    let notch = |sign: f64| [[-sign * mouth, -sign * depth], [0.0, -sign * tip], [sign * mouth, -sign * depth]];
    let mut outline = vec![[-0.02, -depth]];
    outline.extend(notch(1.0));
    outline.extend([[0.02, -depth], [0.02, depth]]);
    let mut both = outline.clone();
    both.extend(notch(-1.0));
    both.push([-0.02, depth]);
    let found = narrowest(&[both.into_iter().map(Vector2::from).collect()]).ok_or("no ligament")?;
    assert_relative_eq!(found.thickness, least, max_relative = SQUARE);
    assert!(found.center.norm() < 1e-9);
    outline.push([-0.02, depth]);
    let found = narrowest(&[outline.into_iter().map(Vector2::from).collect()]).ok_or("no ligament")?;
    assert_relative_eq!(found.thickness, depth + tip, max_relative = SQUARE);
    Ok(())
}

#[test]
fn notches_side_by_side_leave_no_wall_through_air() -> Tested {
    // Two tips of neighbouring notches in the same edge are 5 mm apart, the edge opposite 8 mm from either.
    let outline = [
        [-0.03, 0.0],
        [-0.0035, 0.0],
        [-0.0025, 0.002],
        [-0.0015, 0.0],
        [0.0015, 0.0],
        [0.0025, 0.002],
        [0.0035, 0.0],
        [0.03, 0.0],
        [0.03, 0.01],
        [-0.03, 0.01],
    ];
    let found = narrowest(&[outline.map(Vector2::from).to_vec()]).ok_or("no ligament")?;
    assert_relative_eq!(found.thickness, 0.008, max_relative = SQUARE);
    Ok(())
}

#[test]
fn thin_web_of_the_sample() -> Tested {
    let rod = crate::part::recognised(&files::bytes("samples/thin_web_rod.stl")?, LengthUnit::Millimetre)??;
    let truth = &files::truths()?["samples/thin_web_rod.stl"];
    let number = |key: &str| files::number(&truth[key]) * 1e-3;
    let (from, to) = (number("thin_from_mm"), number("thin_to_mm"));
    for (x, web) in [(0.5 * (from + to), number("thin_web_mm")), (to + 0.006, number("web_mm"))] {
        let found = narrowest(&cut(&rod.mesh, x)?.loops).ok_or("no ligament")?;
        // The file is in single precision: 8e-9 m steps on each side.
        assert!((found.thickness - web).abs() < 2e-8, "at {x}: {} is not {web}", found.thickness);
    }
    Ok(())
}

#[test]
fn wall_round_the_bore_of_a_plain_rod() -> Tested {
    let (mesh, _) = Mesh::from_stl(&files::bytes("samples/plain_rod.stl")?, LengthUnit::Millimetre)?;
    // Lies along y: turned so that x runs along the rod.
    let turn = crate::mesh::shapes::motion([0.0, 0.0, -PI / 2.0], [0.0; 3]);
    let mesh = mesh.moved(&turn);
    let truth = &files::truths()?["samples/plain_rod.stl"];
    let number = |key: &str| files::number(&truth[key]) * 1e-3;
    let center = turn * nalgebra::Point3::from(files::triple(&truth["small_center_mm"]).map(|c| c * 1e-3));
    let found = narrowest(&cut(&mesh, center.x)?.loops).ok_or("no ligament")?;
    let wall = (number("small_eye_outer_diameter_mm") - number("small_bore_diameter_mm")) / 2.0;
    // Facets of the bore take up to their sagitta.
    let sagitta = number("small_bore_diameter_mm") / 2.0 * (1.0 - libm::cos(PI / 96.0));
    assert!((found.thickness - wall).abs() < 3.0 * sagitta, "{} is not {wall}", found.thickness);
    Ok(())
}

//! Solids with a known stress, through the field's whole path: cells, solver, stress at the surface.

use super::Rows;
use super::row::{Measure, Row, Source, Word};
use crate::field::known_solids::{below_a_hole, hole_factor, hole_factors, plate_stresses};
use crate::field::pinned::{Fitted, fitted};
use crate::field::pulled_rods::{Pulled, directions, plain, with_pockets};
use crate::field::warm_crown::shares;
use crate::piston::field::{Compared, compared};

#[expect(clippy::unnecessary_wraps, reason = "all chapters have one form")]
pub(super) fn rows() -> Rows {
    let plate = plate_stresses();
    let roark = |id| Source { id, word: Word::ClosedForm, name: "Roark's Formulas, flat round plates" };
    let cells = "four cells in the thickness; thin-plate theory leaves out what shear adds, about (t/a)²";
    let (wide, narrow) = (0.1, 1.0 / 3.0);
    let heywood = |share: f64| 2.0 + (1.0 - share) * (1.0 - share) * (1.0 - share);
    // Over the stress far away instead of that of the net section.
    let kirsch = hole_factor(5e-3, 40e-3, 5e-3 / wide, 24.0) / (1.0 - wide);
    let net = hole_factor(5e-3, 32e-3, 5e-3 / narrow, 16.0);
    let [_, along] = hole_factors(5e-3, 40e-3, 5e-3 / wide, 16.0, 0.0).map(|factor| factor / (1.0 - wide));
    let [_, along_net] = hole_factors(5e-3, 32e-3, 5e-3 / narrow, 16.0, 0.0);
    let mut rows = vec![
        roark("C5").row("clamped plate at 0.9 of its radius, MPa", plate.near_clamp.0, plate.near_clamp.1, 0.03, cells),
        roark("C5").row("middle of a clamped plate, MPa", plate.clamped.0, plate.clamped.1, 0.03, cells),
        roark("C6").row("middle of a supported plate, MPa", plate.supported.0, plate.supported.1, 0.03, cells),
        Source { id: "C14", word: Word::ClosedForm, name: "Kirsch 1898, hole in a wide plate" }.row(
            "stress at a hole of a tenth of the width over that far away",
            3.0,
            kirsch,
            0.03,
            "24 cells across the hole; the finite width alone adds 1.1 % by Heywood's fit",
        ),
        Source { id: "C15", word: Word::Memory, name: "Heywood's fit for a hole in a plate of finite width" }.row(
            "stress at a hole of a third of the width over that of the net section",
            heywood(narrow),
            net,
            0.03,
            "sixteen cells across the hole",
        ),
        Source { id: "C14", word: Word::ClosedForm, name: "Kirsch 1898, hole in a wide plate" }.row(
            "the same along the grid",
            3.0,
            along,
            0.03,
            "16 cells across the hole and a window of finer ones; the finite width alone adds 1.1 % by Heywood's fit",
        ),
        Source { id: "C15", word: Word::Memory, name: "Heywood's fit for a hole in a plate of finite width" }.row(
            "stress at a hole of a third of the width, along the grid",
            heywood(narrow),
            along_net,
            0.03,
            "sixteen cells across the hole and a window of finer ones",
        ),
    ];
    rows.extend(below_a_hole_rows());
    rows.extend(pins());
    rows.extend(pulled());
    rows.extend(piston());
    rows.extend(warm_crowns());
    Ok(rows)
}

/// Rigid pins in eyes, by `tests/reference/eye_contact`.
/// What counts at a notch: the stress some way below it.
fn below_a_hole_rows() -> Vec<Row> {
    let r = 5.5e-3_f64;
    let depths = [0.25e-3, 0.5e-3, 1e-3];
    let names = [
        "stress 0.25 mm below a hole of 11 mm over that far away",
        "the same 0.5 mm below it",
        "the same 1 mm below it",
    ];
    let got = below_a_hole(r, 44e-3, 24.0, depths);
    let kirsch = |depth: f64| {
        let share = r / (r + depth);
        let square = share * share;
        (2.0 + square + 3.0 * square * square) / 2.0
    };
    let source = Source { id: "C29", word: Word::ClosedForm, name: "Kirsch 1898, hole in a wide plate" };
    let row = |k: usize| {
        let reason = "window of cells of 0.15 mm; a hole of an eighth of the width adds about 1.5 % to a wide plate's";
        source.row(names[k], kirsch(depths[k]), got[k], 0.035, reason)
    };
    (0..depths.len()).map(row).collect()
}

fn pins() -> Vec<Row> {
    let source =
        Source { id: "C27", word: Word::GeneralLibrary, name: "one-sided contact in plane stress, scikit-fem" };
    let mut rows = Vec::new();
    for (eye, bore) in fitted().iter().zip(["10 mm bore", "12 mm bore"]) {
        for Fitted { load, factor, half_angle, .. } in eye {
            let fit = format!("eye of twice its {bore}, rigid pin, P / (E c t) = {load}");
            rows.push(source.row(
                format!("{fit}: peak over net section"),
                factor.0,
                factor.1,
                0.05,
                "twenty cells across the bore; the study is converged to 1 %",
            ));
            let angle = source.row(
                format!("{fit}: contact half-angle, degrees"),
                half_angle.0,
                half_angle.1,
                5.0,
                "pressure is straight between bands of angle",
            );
            rows.push(angle.by(Measure::Difference));
        }
    }
    rows
}

/// Sample rods pulled at both bores by cosine pushes, by `tests/reference/calculix`. No verdict rests on such a push, whose pins
/// touch one side of their bore: these rows hold cells, stiffness by direction and stress at the surface to another program.
fn pulled() -> Vec<Row> {
    let source =
        Source { id: "C27", word: Word::GeneralLibrary, name: "CalculiX, quadratic tetrahedra, meshes refined" };
    let mut rows = Vec::new();
    let mut add = |name: &str, [small, big, shank]: Pulled, cells: &'static str| {
        let of = |place: &str| format!("solver alone, cosine pushes that no verdict rests on, {name}: {place}, MPa");
        rows.push(source.row(of("peak at the small bore"), small.0, small.1, 0.05, cells));
        rows.push(source.row(of("peak at the big bore"), big.0, big.1, 0.05, cells));
        rows.push(source.row(of("shank half way"), shank.0, shank.1, 0.02, cells));
    };
    add("plain rod under 1000 N", plain(), "60 000 cells, the usual number; windows of finer cells");
    add("rod with pockets under 1000 N", with_pockets(), "60 000 cells, the usual number; windows of finer cells");
    for (direction, pulled) in directions() {
        add(
            &format!("plain rod, layers stacked {direction}"),
            *pulled,
            "60 000 cells, the usual number; windows of finer cells",
        );
    }
    rows
}

/// The thin-crowned piston under its pin, the gas, the cylinder's wall and its own inertia, by `tests/reference/calculix`.
fn piston() -> Vec<Row> {
    let source =
        Source { id: "C27", word: Word::GeneralLibrary, name: "CalculiX, quadratic tetrahedra, meshes refined" };
    let row = |at: &Compared| {
        let what = format!("piston with a thin crown, {}, MPa", at.place);
        source.row(what, at.reference, at.field, 0.05, "60 000 cells, the usual number; windows of finer cells")
    };
    compared().iter().map(row).collect()
}

/// Cups warm on top by `tests/reference/crown`: of the places looked at the one furthest too low and the one furthest too high.
fn warm_crowns() -> Vec<Row> {
    let source = Source { id: "C27", word: Word::GeneralLibrary, name: "scikit-fem (PyPI), tests/reference/crown" };
    let found = shares();
    let off = |place: &&(String, f64, f64)| place.2 / place.1;
    let least = found.iter().min_by(|a, b| off(a).total_cmp(&off(b)));
    let most = found.iter().max_by(|a, b| off(a).total_cmp(&off(b)));
    let reason = "cells of one stiffness and one temperature each, chords for circles";
    let row = |(place, wanted, field): &(String, f64, f64)| {
        let what = format!("stress by uneven warmth of a crown over E and expansion, {place}");
        source.row(what, *wanted, *field, 0.05, reason)
    };
    least.into_iter().chain(most).map(row).collect()
}

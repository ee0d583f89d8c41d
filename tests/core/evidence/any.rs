//! Parts of any kind by their places, holds and loads, through a whole check.

use super::Rows;
use super::row::{Source, Word};
use crate::any::closed_forms::{accelerated, bent_by_a_moment, cantilever, pivoted, pressurised, spinning};
use crate::any::rod::eyes;

#[expect(clippy::unnecessary_wraps, reason = "all chapters have one form")]
pub(super) fn rows() -> Rows {
    let closed = |name| Source { id: "-", word: Word::ClosedForm, name };
    let bar = "ten cells in the depth; the field's own table has 1 to 2 % for that";
    let ring = "a dozen cells in the wall; the field's own table has 1 to 3 % for that";
    let beam = closed("beam theory, M c / I (Timoshenko)");
    let row = |source: Source, what: &str, of: crate::any::closed_forms::Compared, bound: f64, why: &'static str| {
        source.row(what, of.expected, of.got, bound, why)
    };
    let mut rows = vec![
        row(beam, "bar glued at one end, force at the other, at its worst place, MPa", cantilever(), 0.02, bar),
        row(beam, "the same bent by a moment, MPa", bent_by_a_moment(), 0.02, bar),
        row(beam, "the same accelerated across, MPa", accelerated(), 0.02, bar),
        row(closed("Lame, thick ring"), "free ring under pressure, hoop at the bore, MPa", pressurised(), 0.03, ring),
        row(
            closed("Timoshenko & Goodier, rotating disc"),
            "free ring that turns, hoop at the bore, MPa",
            spinning(),
            0.03,
            ring,
        ),
        row(
            closed("balance of forces"),
            "pin that holds a free disc pushed through its middle, N",
            pivoted().0,
            0.005,
            "forces on facets and cells round to some thousandths",
        ),
    ];
    let study = Source { id: "-", word: Word::GeneralLibrary, name: "scikit-fem, plane stress with one-sided contact" };
    for (load, both) in eyes() {
        for (of, eye) in both.iter().zip(["small", "big"]) {
            let what = format!("{eye} eye pulled by its pin, peak factor at P / (E c t) = {load}");
            rows.push(study.row(what, of.expected, of.got, 0.05, "the study is converged to 1 %; bands of 8 degrees"));
        }
    }
    Ok(rows)
}

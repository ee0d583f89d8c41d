//! Copies and changes of a part that must not turn its answer.

use super::given::{checked, job, part};
use crate::mesh::shapes::{Region, Solid, motion};

/// A ring pushed by a pin in its bore, glued on a flat face: in turned copies the places turn with it.
#[test]
fn more_load_never_raises_a_margin_and_order_does_not_count() {
    let ring = part(&Solid::prism(&Region::annulus(20e-3, 10e-3, 0.0, 48), -4e-3, 4e-3));
    let of = |force: f64, swapped: bool| {
        let mut places = [
            "[[place]]\nname = \"bore\"\nbore = { near_mm = [0, 0, 0] }\n".to_string(),
            "[[place]]\nname = \"foot\"\nface = { near_mm = [-4, 15, 0] }\n".to_string(),
        ];
        if swapped {
            places.reverse();
        }
        let rest = format!(
            "[[hold]]\nat = \"foot\"\nas = \"glued\"\n[[load]]\nname = \"pull\"\nat = \"bore\"\nforce_n = [0, {force}, 0]\n"
        );
        checked(&ring, &job(&format!("{}{}{rest}", places[0], places[1])), 4000).unwrap()
    };
    let (light, heavy, swapped) = (of(150.0, false), of(300.0, false), of(150.0, true));
    assert!(light.verdict.margin > heavy.verdict.margin, "{} {}", light.verdict.margin, heavy.verdict.margin);
    // The same cells, cases in the same order: nothing but names.
    assert_eq!(light.verdict.margin, swapped.verdict.margin);
    assert_eq!(light.verdict.governing_mode, swapped.verdict.governing_mode);
}

#[test]
fn a_moved_copy_gets_the_same_answer() {
    let ring = Solid::prism(&Region::annulus(20e-3, 10e-3, 0.0, 48), -4e-3, 4e-3);
    let moved = ring.clone().moved(&motion([0.0; 3], [0.25, -0.5, 0.125]));
    let of = |solid: &Solid, at: [f64; 3]| {
        let near = format!("[{}, {}, {}]", at[0], at[1], at[2]);
        let places = format!(
            "[[place]]\nname = \"bore\"\nbore = {{ near_mm = {near} }}\n[[hold]]\nas = \"free\"\n[[load]]\nname = \"w\"\n\
             spin = {{ about = \"bore\", rpm = 30000 }}\n"
        );
        checked(&part(solid), &job(&places), 4000).unwrap()
    };
    let (here, there) = (of(&ring, [0.0; 3]), of(&moved, [250.0, -500.0, 125.0]));
    // Rounding of coordinates alone.
    let apart = here.verdict.margin / there.verdict.margin - 1.0;
    assert!(apart.abs() < 1e-3, "{apart}");
}

/// Of a loose pin a tenth of the force never does more harm: the contact settles at every load.
#[test]
fn less_force_on_a_loose_pin_raises_the_margin() {
    let ring = part(&Solid::prism(&Region::annulus(12e-3, 4e-3, 0.0, 96), -4e-3, 4e-3));
    let margin = |force: f64| {
        let (y, z) = (0.6 * force, 0.8 * force);
        let places = format!(
            "[[place]]\nname = \"bore\"\nbore = {{ near_mm = [0, 0, 0] }}\n[[hold]]\nas = \"free\"\n[[load]]\nname = \"pull\"\n\
             at = \"bore\"\nforce_n = [0, {y}, {z}]\nclearance_mm = 0.06\n"
        );
        checked(&ring, &job(&places), 4000).unwrap().verdict.governing_margin
    };
    let margins: Vec<f64> = [2.0, 20.0, 200.0, 2000.0].map(margin).into();
    assert!(margins.windows(2).all(|pair| pair[0] >= pair[1]), "{margins:?}");
}

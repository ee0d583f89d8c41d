//! What goes into the bores of a part, and the part in its engine.

use super::limit::{range, rounded};
use super::pair::{Pair, Told};
use crate::job::error::JobError;
use crate::job::piston::PistonScenario;
use crate::job::scenario::Scenario;
use crate::material::Source;
use crate::part::{Eye, Piston, Rod};
use crate::units::MM;

const ANY: (f64, f64) = (f64::NEG_INFINITY, f64::INFINITY);
/// Outside of a ring less bore of its eye beyond which they do not belong together: a share of the ring's outside, and of
/// small ones so many metres. Presses of plastics have up to a fiftieth; printed bores come out some tenths too small.
const NO_FIT: (f64, f64) = (0.04, 0.6e-3);

/// Interference over outside of a ring (common practice, no source: up to a hundredth in plastics).
const INTERFERENCE: (f64, f64) = (-0.002, 0.02);

fn mm(what: &'static str, metres: f64) -> Told {
    Told { what, value: metres * MM, unit: "mm" }
}

fn ends(rod: &Rod) -> [(&Eye, &'static str); 2] {
    [(&rod.small_end, "a small-end bore"), (&rod.big_end, "a big-end bore")]
}

const RING_KEYS: [&str; 2] = ["part.small_end.ring", "part.big_end.ring"];
const INTERFERENCE_KEYS: [&str; 2] = ["part.small_end.ring.interference_mm", "part.big_end.ring.interference_mm"];
const CAP_KEYS: [&str; 2] = ["part.small_end.cap.preload_n", "part.big_end.cap.preload_n"];
const CLEARANCE_KEYS: [&str; 2] = ["part.small_end.radial_clearance_mm", "part.big_end.radial_clearance_mm"];

/// Refuses a bearing or bush that no press can bring into its bore, or that falls through it.
pub(super) fn rings_fit(scenario: &Scenario, rod: &Rod) -> Result<(), JobError> {
    for ((ring, (eye, with)), key) in scenario.rings.iter().zip(ends(rod)).zip(RING_KEYS) {
        let Some(ring) = ring else { continue };
        let bore = eye.bore.diameter();
        let most = (NO_FIT.0 * ring.outside).max(NO_FIT.1);
        if (ring.outside - bore).abs() > most {
            return Err(JobError::Impossible {
                what: "a ring with an outside",
                value: rounded(ring.outside * MM),
                unit: "mm",
                with,
                other: rounded(bore * MM),
                other_unit: "mm",
                key,
                usual: format!("an outside of {}", range(((bore - most) * MM, (bore + most) * MM), "mm")),
            });
        }
    }
    Ok(())
}

/// Pairs of a rod in its engine.
pub(super) fn rod(scenario: &Scenario, rod: &Rod) -> Vec<Pair> {
    let mut list = vec![Pair {
        key: "engine.bore_mm",
        number: mm("a cylinder bore", scenario.engine.bore),
        with: mm("a small-end bore", rod.small_end.bore.diameter()),
        scale: rod.small_end.bore.diameter() * MM,
        possible: (1.0, 100.0),
        // A pin is a fifth to a third of the bore; with a bearing round it the eye is up to three quarters.
        usual: (1.25, 12.0),
        source: Source::CommonPractice,
        slip: " and the unit of the mesh",
    }];
    let clearances = [scenario.fits.small_end, scenario.fits.big_end];
    for (number, (eye, with)) in ends(rod).into_iter().enumerate() {
        let bore = mm(with, eye.bore.diameter());
        if clearances[number] > 0.0 {
            list.push(Pair {
                key: CLEARANCE_KEYS[number],
                number: mm("a radial clearance", clearances[number]),
                with: bore,
                scale: bore.value,
                possible: ANY,
                // From the closest running fits of ISO 286 to a pin that rattles.
                usual: (1e-4, 0.015),
                source: Source::CommonPractice,
                slip: ": is it in metres or inches?",
            });
        }
        if let Some(ring) = &scenario.rings[number] {
            list.extend(pressed(ring, bore, eye, number));
        }
        if let Some(cap) = &scenario.caps[number] {
            list.push(Pair {
                key: CAP_KEYS[number],
                number: Told { what: "a preload of a stud", value: cap.preload, unit: "N" },
                with: Told { what: "a stud's stress area", value: cap.stress_area * 1e6, unit: "mm²" },
                scale: cap.stress_area * 1e6,
                // Steel of studs breaks before that, MPa; ISO 898-1 has 640 MPa yield for class 8.8.
                possible: (0.0, 2000.0),
                usual: (20.0, 700.0),
                source: Source::CommonPractice,
                slip: " or torque_n_m: is it in kN, or in pounds?",
            });
        }
    }
    list
}

fn pressed(ring: &crate::job::ring::Ring, bore: Told, eye: &Eye, number: usize) -> Vec<Pair> {
    let outside = mm("a ring with an outside", ring.outside);
    let mut list = vec![Pair {
        key: RING_KEYS[number],
        number: mm("a ring width", ring.width),
        with: mm("an eye with a depth", eye.bore.main().depth()),
        scale: eye.bore.main().depth() * MM,
        possible: ANY,
        usual: (0.25, 2.0),
        source: Source::CommonPractice,
        slip: " and its width",
    }];
    let interference = match ring.interference {
        Some((low, high)) if low == high => Some((INTERFERENCE_KEYS[number], low)),
        Some(_) => None,
        None => Some((RING_KEYS[number], ring.outside - bore.value / MM)),
    };
    list.extend(interference.map(|(key, interference)| Pair {
        key,
        number: mm("an interference", interference),
        with: outside,
        scale: outside.value,
        possible: ANY,
        usual: INTERFERENCE,
        source: Source::CommonPractice,
        slip: ": it is the outside of the ring less the bore, both as diameters",
    }));
    list
}

impl JobError {
    /// That a free crown given by hand is no smaller than the crown; both radii, m.
    pub(crate) fn wide_plate(given: f64, crown: f64) -> Self {
        Self::Impossible {
            what: "a free crown",
            value: rounded(2.0 * MM * given),
            unit: "mm",
            with: "a crown",
            other: rounded(2.0 * MM * crown),
            other_unit: "mm",
            key: "piston.plate_diameter_mm",
            usual: "less than the crown by the walls that hold it".into(),
        }
    }
}

/// Pairs of a piston in its engine.
pub(super) fn piston(scenario: &Scenario, given: &PistonScenario, piston: &Piston) -> Vec<Pair> {
    let bore = mm("a cylinder bore", scenario.engine.bore);
    let pair = |key, number: Told, scale, usual, slip| Pair {
        key,
        number,
        with: bore,
        scale,
        possible: ANY,
        usual,
        source: Source::CommonPractice,
        slip,
    };
    // With a lip or a collar, if it has one: that has to go through the bore too.
    let (widest, skirt) = (2.0 * piston.greatest_radius(), 2.0 * piston.skirt.radius);
    let in_bore = Pair {
        key: "engine.bore_mm",
        number: bore,
        with: mm(if widest > skirt { "a piston with its collar or lip" } else { "a piston skirt" }, widest),
        scale: widest * MM,
        possible: (1.0 / 1.5, 2.0),
        usual: (0.99, 1.053),
        source: Source::CommonPractice,
        slip: ": it is a few tenths of a millimetre more than the skirt",
    };
    let grams = |what, kilograms: f64| Told { what, value: kilograms * 1e3, unit: "g" };
    let (square, cube) = (bore.value * bore.value, bore.value * bore.value * bore.value);
    let heavy = ": is it in kilograms, ounces or pounds?";
    let mut list = vec![
        in_bore,
        // Steel tube, 1e-4 to 4e-4 g over the cube of the bore in mm; rings by its square.
        pair("piston.pin_mass_g", grams("a piston pin", given.pin_mass), cube, (1.5e-5, 2e-3), heavy),
        pair("piston.ring_mass_g", grams("a ring", given.ring_mass), square, (1e-4, 1.5e-2), heavy),
    ];
    if let Some(thickness) = given.crown_thickness {
        let slip = ": is it in centimetres or inches?";
        list.push(pair("piston.crown_thickness_mm", mm("a crown", thickness), bore.value, (0.02, 0.5), slip));
    }
    if let Some(radius) = given.plate_radius {
        let slip = ": it is a diameter, and less than the bore";
        let free = pair("piston.plate_diameter_mm", mm("a free crown", 2.0 * radius), bore.value, (0.2, 1.0), slip);
        // A crown wider than its cylinder is none.
        list.push(Pair { possible: (0.0, 1.0), ..free });
    }
    list
}

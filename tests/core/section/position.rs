//! What is cut does not depend on the order of the facets, nor on how the part is turned about the load path.

use layload_core::LengthUnit;
use layload_core::mesh::Mesh;
use layload_core::section::{Section, sections};
use nalgebra::{Isometry3, Vector3};
use proptest::prelude::*;

use crate::mesh::shapes::{Region, Solid, motion};
use crate::mesh::{files, stl};

fn fail(error: impl std::fmt::Display) -> TestCaseError {
    TestCaseError::fail(error.to_string())
}

fn planes(mesh: &Mesh) -> Vec<f64> {
    let (low, high) = mesh.bounds();
    (1..12).map(|k| low.x + (high.x - low.x) * (f64::from(k) + 0.137) / 12.0).collect()
}

/// Differences of area and principal moments, relative.
fn apart(a: &Section, b: &Section) -> f64 {
    let (p, q) = (a.properties, b.properties);
    let ((p1, p2), (q1, q2)) = (p.principal(), q.principal());
    let scale = p2.max(1e-30);
    ((p.area - q.area).abs() / p.area.max(1e-30)).max((p1 - q1).abs() / scale).max((p2 - q2).abs() / scale)
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(16))]

    #[test]
    fn order_of_facets(seed in any::<u64>(), name in prop::sample::select(vec!["solid_header", "inner_void", "half_bore_with_cap"])) {
        let bytes = files::test_mesh(name).map_err(fail)?;
        let (mesh, _) = Mesh::from_stl(&bytes, LengthUnit::Millimetre).map_err(fail)?;
        let shuffled = stl::binary(&Solid::of_stl(&bytes).map_err(fail)?.shuffled(seed));
        let (other, _) = Mesh::from_stl(&shuffled, LengthUnit::Millimetre).map_err(fail)?;
        let at = planes(&mesh);
        for (a, b) in sections(&mesh, &at, false).iter().zip(&sections(&other, &at, false)) {
            // The same corners summed in another order: rounding of sums over some hundred terms.
            prop_assert!(apart(a, b) < 1e-11, "{} at {}: {}", name, a.position, apart(a, b));
            prop_assert_eq!(a.loops.len(), b.loops.len());
            let (a, b) = (a.properties.centroid, b.properties.centroid);
            prop_assert!((a - b).norm() < 1e-13);
        }
    }

    #[test]
    fn turned_about_the_load_path(angle in -3.15_f64..3.15, y in -0.5_f64..0.5, z in -0.5_f64..0.5) {
        let bytes = files::test_mesh("oil_hole_rod").map_err(fail)?;
        let (mesh, _) = Mesh::from_stl(&bytes, LengthUnit::Millimetre).map_err(fail)?;
        let at = planes(&mesh);
        let turn = Isometry3::rotation(Vector3::x() * angle);
        let motion = Isometry3::translation(0.0, y, z) * turn;
        let moved = mesh.clone().moved(&motion);
        for (a, b) in sections(&mesh, &at, false).iter().zip(&sections(&moved, &at, false)) {
            // Half a metre from the axis rounding is 1e-16 m on sections of 1e-2 m.
            prop_assert!(apart(a, b) < 1e-11, "at {}: {}", a.position, apart(a, b));
            let c = a.properties.centroid;
            let carried = motion * nalgebra::Point3::new(a.position, c.x, c.y);
            let d = b.properties.centroid;
            prop_assert!((carried.y - d.x).hypot_below(carried.z - d.y, 1e-13));
        }
    }

    #[test]
    fn tilted_prism(tilt in -1.2_f64..1.2, turn in -3.15_f64..3.15) {
        // A prism cut at a slant has the area of its section over the cosine of the tilt.
        let region = Region::annulus(0.012, 0.008, 0.0, 24);
        let upright = Solid::prism(&region, -0.2, 0.2);
        let across = super::cut(&upright.mesh().map_err(fail)?, 0.0).map_err(fail)?.properties.area;
        let mesh = upright.moved(&motion([turn, 0.0, 0.0], [0.0; 3])).moved(&motion([0.0, 0.0, tilt], [0.0; 3])).mesh().map_err(fail)?;
        let slanted = super::cut(&mesh, 0.0).map_err(fail)?.properties.area;
        // Rounding, grown by the slant: 1 / cos 1.2 is 2.8.
        prop_assert!((slanted * libm::cos(tilt) / across - 1.0).abs() < 1e-12);
    }
}

/// Distance in the plane without the system's mathematics.
trait Below {
    fn hypot_below(self, other: f64, limit: f64) -> bool;
}

impl Below for f64 {
    fn hypot_below(self, other: f64, limit: f64) -> bool {
        self * self + other * other < limit * limit
    }
}

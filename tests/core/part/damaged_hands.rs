//! Whatever is said of the bores by hand, the answer is a rod or a refusal, never a panic.

use layload_core::mesh::{Body, bodies};
use layload_core::part::{GivenBore, GivenRod, find_rod};
use nalgebra::{Point3, Vector3};
use proptest::prelude::*;

use crate::mesh::shapes::Solid;

fn block() -> Option<Vec<Body>> {
    bodies(Solid::block([0.05, 0.02, 0.01]).mesh().ok()?).ok()
}

fn number() -> impl Strategy<Value = f64> {
    prop_oneof![
        -0.01_f64..0.06,
        any::<f64>(),
        prop::sample::select(vec![0.0, -0.0, 1e-300, 1e300, f64::NAN, f64::INFINITY]),
    ]
}

fn bore() -> impl Strategy<Value = GivenBore> {
    (prop::array::uniform3(number()), number())
        .prop_map(|(center, diameter)| GivenBore { center: Point3::from(center), diameter })
}

proptest! {
    #[test]
    fn any_numbers(
        small_end in prop::option::of(bore()),
        big_end in prop::option::of(bore()),
        axis in prop::option::of(prop::array::uniform3(number())),
    ) {
        let given = GivenRod { small_end, big_end, pin_axis: axis.map(Vector3::from) };
        let Some(bodies) = block() else { return Err(TestCaseError::fail("no block")) };
        if let Ok(rod) = find_rod(bodies, &given) {
            prop_assert!(rod.center_distance > 0.0 && rod.center_distance.is_finite());
            prop_assert!(rod.small_end.radius() > 0.0 && rod.small_end.radius().is_finite());
            prop_assert!(rod.big_end.radius() > 0.0 && rod.big_end.radius().is_finite());
            prop_assert!(rod.small_end.depth() > 0.0 && rod.big_end.depth() > 0.0);
            prop_assert!(rod.mesh.points().iter().all(|p| p.coords.norm().is_finite()));
        }
    }
}

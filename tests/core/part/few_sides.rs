//! Bores drawn in few sides are seen from nine on, asked about from six, and measured over their corners.

use layload_core::Help;
use layload_core::part::{GivenBore, GivenRod, PartError, find_rod};
use nalgebra::{Point3, Vector3};

use super::Tested;
use super::made::{BORES, DISTANCE, read, rod};
use crate::mesh::shapes::motion;

/// Corners are those of single precision.
const CLOSE: f64 = 1e-6;

#[test]
fn nine_sides_are_a_bore() -> Tested {
    for sides in [9, 10, 11, 12, 15, 20] {
        for turn in [[0.0; 3], [0.4, -0.7, 1.9], [1.2, 0.3, -2.2]] {
            let turned = rod([sides, sides]).moved(&motion(turn, [11.0, -3.0, 40.0]));
            let found = find_rod(read(&turned)?, &GivenRod::default()).map_err(|e| format!("{sides} sides: {e}"))?;
            for (eye, radius) in [(&found.small_end, BORES[0]), (&found.big_end, BORES[1])] {
                let seat = eye.bore.main();
                approx::assert_relative_eq!(seat.radius, radius * 1e-3, max_relative = 1e-5);
                approx::assert_relative_eq!(seat.sides(), sides as f64, max_relative = 1e-3);
                assert!(!eye.half);
            }
        }
    }
    Ok(())
}

#[test]
fn facets_that_cover_a_part_of_a_chord_tell_as_much() -> Tested {
    for sides in [9, 12, 18, 64] {
        let whole = rod([sides, sides]);
        let divided = crate::copies::divided(&crate::copies::divided(&whole));
        let [a, b] = [&whole, &divided].map(|solid| find_rod(read(solid).unwrap(), &GivenRod::default()));
        let (a, b) = (a?, b.map_err(|error| format!("{sides} sides, divided: {error}"))?);
        for (a, b) in [(&a.small_end, &b.small_end), (&a.big_end, &b.big_end)] {
            // Corners at the middles of chords lie within the circle.
            assert!((a.radius() - b.radius()).abs() < a.bore.main().sagitta + CLOSE, "{sides} sides");
            assert!((a.bore.center - b.bore.center).norm() < 1e-5);
        }
    }
    Ok(())
}

#[test]
fn fewer_are_asked_about() -> Tested {
    for (sides, asked) in [([6, 6], "6 sides"), ([7, 7], "7 sides"), ([8, 64], "8 sides"), ([64, 7], "7 sides")] {
        let solid = rod(sides);
        let error = find_rod(read(&solid)?, &GivenRod::default()).err().ok_or("called a rod without a question")?;
        let PartError::FewSides { bores, .. } = error else { return Err(format!("{sides:?}: {error}").into()) };
        assert!(error.to_string().contains(asked), "{error}");
        assert_eq!(error.help(), Help::ConfirmBores(bores));
        let diameters = [bores.small_end_mm[3], bores.big_end_mm[3]];
        assert!(
            diameters.iter().zip(BORES).all(|(found, radius)| (found - 2.0 * radius).abs() < 0.01),
            "{diameters:?}"
        );
        let bore = |y: f64, radius: f64| GivenBore { center: Point3::new(0.0, y * 1e-3, 0.0), diameter: 2e-3 * radius };
        let given = GivenRod {
            small_end: Some(bore(0.0, BORES[0])),
            big_end: Some(bore(DISTANCE, BORES[1])),
            pin_axis: Some(Vector3::x()),
        };
        let rod = find_rod(read(&solid)?, &given)?;
        for ((eye, radius), sides) in [(&rod.small_end, BORES[0]), (&rod.big_end, BORES[1])].into_iter().zip(sides) {
            approx::assert_relative_eq!(eye.radius(), radius * 1e-3, max_relative = 1e-5);
            approx::assert_relative_eq!(eye.bore.main().sides(), sides as f64, max_relative = 1e-3);
        }
    }
    Ok(())
}

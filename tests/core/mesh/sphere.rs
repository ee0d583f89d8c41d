//! C17: a faceted ball lies between two balls: the one its corners are on and the one its facets touch.

use core::f64::consts::PI;

use super::Tested;
use super::shapes::Solid;

#[test]
fn between_the_balls_inside_and_outside() -> Tested {
    let radius = 0.02;
    for rings in [16, 48] {
        let mesh = Solid::ball(radius, rings).mesh()?;
        let mass = mesh.mass_properties();
        let plane = |f: usize| mesh.area_vector(f).normalize().dot(&mesh.corners(f)[0].coords);
        let touched = (0..mesh.facets().len()).map(plane).fold(radius, f64::min);
        let volume = |r: f64| 4.0 / 3.0 * PI * r * r * r;
        let second = |r: f64| volume(r) * r * r / 5.0;
        assert!(volume(touched) < mass.volume && mass.volume < volume(radius));
        for k in 0..3 {
            let moment = mass.second_moments[(k, k)];
            assert!(second(touched) < moment && moment < second(radius), "{rings} rings, axis {k}: {moment}");
        }
        // The bounds close in with the square of the facets' angle, so they mean something.
        let angle = PI / rings as f64;
        assert!(1.0 - touched / radius < angle * angle);
        // Symmetry makes these zero; what is left is rounding, to be seen against the ball's own measures.
        assert!(mass.centroid.coords.norm() < 1e-12 * radius);
        assert!(
            mass.inertia().lower_triangle().norm_squared() - mass.inertia().diagonal().norm_squared()
                < 1e-24 * second(radius) * second(radius)
        );
    }
    Ok(())
}

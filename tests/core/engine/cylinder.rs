//! Areas and volumes of the cylinder.

use std::f64::consts::PI;

use approx::assert_relative_eq;
use layload_core::engine::{Cylinder, CylinderError, SliderCrank};

use super::Tested;

#[test]
fn volumes_at_the_ends_of_the_stroke() -> Tested {
    for offset_m in [0.0, 0.004, -0.004] {
        let crank = SliderCrank::new(0.020, 0.090, offset_m)?;
        let cylinder = Cylinder::new(crank, 0.040, 8.0)?;
        // Definition of the compression ratio; 1e-12 is rounding.
        let largest = cylinder.volume_m3(crank.bottom_angle_rad());
        let smallest = cylinder.volume_m3(crank.top_angle_rad());
        assert_relative_eq!(largest / smallest, 8.0, max_relative = 1e-12);
        assert_relative_eq!(largest - smallest, PI / 4.0 * 0.04 * 0.04 * crank.stroke_m(), max_relative = 1e-12);
        assert_relative_eq!(smallest, cylinder.clearance_volume_m3(), max_relative = 1e-12);
    }
    Ok(())
}

#[test]
fn sizes_are_those_it_was_made_of() -> Tested {
    let crank = SliderCrank::new(0.020, 0.090, 0.004)?;
    let cylinder = Cylinder::new(crank, 0.040, 8.0)?;
    assert_eq!((crank.throw_m(), crank.rod_length_m(), crank.pin_offset_m()), (0.020, 0.090, 0.004));
    assert_eq!((cylinder.bore_m(), cylinder.compression_ratio(), *cylinder.crank()), (0.040, 8.0, crank));
    Ok(())
}

#[test]
fn volume_without_offset_is_the_textbook_form() -> Tested {
    // Heywood eq. 2.4: V = Vc + pi B^2/4 (l + a - s).
    let cylinder = Cylinder::new(SliderCrank::new(0.020, 0.090, 0.0)?, 0.040, 8.0)?;
    let t = 1.234;
    let s = 0.020 * libm::cos(t) + (0.090_f64 * 0.090 - 0.020 * 0.020 * libm::sin(t) * libm::sin(t)).sqrt();
    let expected = cylinder.clearance_volume_m3() + PI / 4.0 * 0.04 * 0.04 * (0.110 - s);
    assert_relative_eq!(cylinder.volume_m3(t), expected, max_relative = 1e-12);
    Ok(())
}

#[test]
fn volume_rate_is_the_derivative() -> Tested {
    let cylinder = Cylinder::new(SliderCrank::new(0.020, 0.090, 0.003)?, 0.040, 8.0)?;
    for degree in (0..360).step_by(11) {
        let (t, h) = (f64::from(degree).to_radians(), 1e-4);
        let numeric = (cylinder.volume_m3(t + h) - cylinder.volume_m3(t - h)) / (2.0 * h);
        // 1e-8 of area times throw: the central difference's h^2.
        let scale = cylinder.piston_area_m2() * 0.020;
        assert_relative_eq!(cylinder.volume_rate_m3(t), numeric, epsilon = 1e-8 * scale);
    }
    Ok(())
}

#[test]
fn mean_piston_speed() -> Tested {
    // Two strokes of 40 mm a turn at 6000 rpm: 8 m/s.
    let cylinder = Cylinder::new(SliderCrank::new(0.020, 0.090, 0.0)?, 0.040, 8.0)?;
    assert_relative_eq!(cylinder.mean_piston_speed_m_s(6000.0 * PI / 30.0), 8.0, max_relative = 1e-12);
    Ok(())
}

#[test]
fn bad_numbers_are_refused() -> Tested {
    let crank = SliderCrank::new(0.020, 0.090, 0.0)?;
    for bad in [0.0, -0.04, f64::NAN, f64::INFINITY] {
        let error = Cylinder::new(crank, bad, 8.0);
        assert!(matches!(error, Err(CylinderError::Bore { .. })), "{error:?}");
    }
    for bad in [1.0, 0.5, f64::NAN, f64::INFINITY] {
        let error = Cylinder::new(crank, 0.04, bad);
        assert!(matches!(error, Err(CylinderError::CompressionRatio { .. })), "{error:?}");
    }
    Ok(())
}

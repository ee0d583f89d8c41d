//! Height, footing and support of solids whose answer is plain.

use core::f64::consts::FRAC_PI_4;

use approx::assert_relative_eq;
use layload_core::mesh::Mesh;
use layload_core::orient::{Shape, mirrors, stair_step};
use nalgebra::{Point3, Vector3};

use super::Tested;
use crate::mesh::shapes::{Region, Solid};

const LAYER: f64 = 0.2e-3;

/// A bar with an I section lying along x: flanges 20 mm wide and 4 mm thick, 12 mm between them, web 6 mm, 50 mm long.
fn i_bar() -> Result<Mesh, Box<dyn std::error::Error>> {
    Ok(Solid::prism(&Region::i_section(0.020, 0.020, 0.006, 0.004), 0.0, 0.05).mesh()?)
}

#[test]
fn a_block_needs_no_support() -> Tested {
    let shape = Shape::new(&Solid::block([0.03, 0.02, 0.01]).mesh()?);
    let posed = shape.posed(&Vector3::z(), FRAC_PI_4, LAYER);
    assert_relative_eq!(posed.height, 0.01, max_relative = 1e-12);
    assert_relative_eq!(posed.contact_area, 0.03 * 0.02, max_relative = 1e-12);
    assert_eq!((posed.support_area, posed.support_volume), (0.0, 0.0));
    // Half the height over half the shorter side.
    assert_relative_eq!(posed.tip_ratio, 0.5, max_relative = 1e-9);
    let on_edge = shape.posed(&Vector3::new(0.0, 1.0, 1.0).normalize(), FRAC_PI_4, LAYER);
    assert_eq!((on_edge.contact_area, on_edge.tip_ratio), (0.0, f64::INFINITY));
    Ok(())
}

#[test]
fn the_upper_flange_stands_on_the_lower_one() -> Tested {
    let shape = Shape::new(&i_bar()?);
    // Web upright: both sides of the upper flange hang 12 mm over the lower one, not over the bed 16 mm below.
    let posed = shape.posed(&Vector3::z(), FRAC_PI_4, LAYER);
    let hanging = (0.020 - 0.006) * 0.05;
    assert_relative_eq!(posed.support_area, hanging, max_relative = 1e-9);
    assert_relative_eq!(posed.support_volume, hanging * 0.012, max_relative = 1e-9);
    assert_relative_eq!(posed.contact_area, 0.020 * 0.05, max_relative = 1e-9);
    // On the flange edges the web hangs 7 mm over the bed.
    let posed = shape.posed(&Vector3::y(), FRAC_PI_4, LAYER);
    assert_relative_eq!(posed.support_area, 0.012 * 0.05, max_relative = 1e-9);
    assert_relative_eq!(posed.support_volume, 0.012 * 0.05 * 0.007, max_relative = 1e-9);
    // Upright along the bar nothing hangs.
    let posed = shape.posed(&Vector3::x(), FRAC_PI_4, LAYER);
    assert_eq!(posed.support_area, 0.0);
    assert_relative_eq!(posed.height, 0.05, max_relative = 1e-12);
    Ok(())
}

#[test]
fn overhang_counts_from_its_angle() -> Tested {
    // A block leaned by 50 degrees has one face that leans out by 50 degrees and one by 40 from upright.
    let shape = Shape::new(&Solid::block([0.02, 0.02, 0.02]).mesh()?);
    let angle = 50.0_f64.to_radians();
    let build = Vector3::new(0.0, libm::sin(angle), libm::cos(angle));
    for (limit, faces) in [(35.0_f64, 2.0), (45.0, 1.0), (55.0, 0.0)] {
        let posed = shape.posed(&build, limit.to_radians(), LAYER);
        assert_relative_eq!(posed.support_area, faces * 0.02 * 0.02, max_relative = 1e-9);
    }
    Ok(())
}

#[test]
fn mirror_images_are_found() -> Tested {
    let even = Shape::new(&i_bar()?);
    let found = mirrors(&even, 0.0);
    assert!(found.side_to_side && found.front_to_back);
    assert!(!mirrors(&even, 0.001).front_to_back);
    // A knob on one side breaks one mirror.
    let knob = Solid::block([0.004, 0.004, 0.004]);
    let knob = knob.moved(&nalgebra::Isometry3::translation(0.01, 0.0101, -0.002));
    let both = Solid::prism(&Region::i_section(0.020, 0.020, 0.006, 0.004), 0.0, 0.05).with(&knob).mesh()?;
    let found = mirrors(&Shape::new(&both), 0.0);
    assert!(!found.side_to_side && found.front_to_back);
    assert_eq!(found.representative(&Vector3::new(0.1, -0.2, -0.3)), Vector3::new(0.1, -0.2, 0.3));
    Ok(())
}

#[test]
fn turning_shape_and_direction_together_changes_nothing() -> Tested {
    let solid = Solid::prism(&Region::i_section(0.020, 0.020, 0.006, 0.004), 0.0, 0.05);
    // Quarter turns keep the cells that patches are gathered in.
    let turn = nalgebra::UnitQuaternion::from_axis_angle(&Vector3::x_axis(), core::f64::consts::FRAC_PI_2);
    let turned = Shape::new(
        &solid.clone().moved(&nalgebra::Isometry3::from_parts(Point3::origin().coords.into(), turn)).mesh()?,
    );
    let shape = Shape::new(&solid.mesh()?);
    for build in layload_core::orient::equal_area(40) {
        let (here, there) = (shape.posed(&build, 0.7, LAYER), turned.posed(&(turn * build), 0.7, LAYER));
        assert_relative_eq!(here.height, there.height, max_relative = 1e-9);
        assert_relative_eq!(here.support_area, there.support_area, max_relative = 1e-9, epsilon = 1e-12);
    }
    Ok(())
}

/// `h sin` of the angle between hole and layers' normal: none upright, the layer height lying.
#[test]
fn steps_in_a_hole() {
    let axis = Vector3::z();
    assert_eq!(stair_step(&axis, &Vector3::z(), LAYER), 0.0);
    assert_relative_eq!(stair_step(&axis, &Vector3::x(), LAYER), LAYER);
    let leaned = Vector3::new(libm::sin(0.4), 0.0, libm::cos(0.4));
    assert_relative_eq!(stair_step(&axis, &leaned, LAYER), LAYER * libm::sin(0.4), max_relative = 1e-12);
}

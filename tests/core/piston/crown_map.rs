//! The crown as the mesh has it.

use approx::assert_relative_eq;
use layload_core::part::{AxisRays, Piston, disc_points};
use layload_core::wall::{CrownMap, Shells, Surface};

use super::{Tested, piston};
use crate::mesh::files;

fn map(piston: &Piston) -> Result<CrownMap, Box<dyn std::error::Error>> {
    let surface = Surface::new(&piston.mesh, Shells::united(piston.overlapping));
    Ok(CrownMap::of(piston, &surface).ok_or("no crown")?)
}

#[test]
fn thickness_is_what_was_built() -> Tested {
    for name in ["flat_crown", "thin_crown", "plate_crown"] {
        let name = format!("samples/{name}_piston.stl");
        let truth = files::number(&files::truths()?[&name]["crown_thickness_mm"]) * 1e-3;
        let found = map(&piston(&name)?)?;
        // Flat faces: nothing but rounding of 32-bit coordinates.
        assert_relative_eq!(found.thin, truth, max_relative = 1e-4);
        assert_relative_eq!(found.plate(), truth, max_relative = 1e-2);
        assert!(found.relief < 1e-6, "{name}: {}", found.relief);
        // Built with 12 mm between belt walls; fillets, bosses and ribs only take from it.
        assert!(found.free_radius < 12.1e-3 && found.free_radius > 9.5e-3, "{name}: {}", found.free_radius);
    }
    Ok(())
}

#[test]
fn ribs_show_as_uneven() -> Tested {
    let (even, ribbed) =
        (map(&piston("samples/thin_crown_piston.stl")?)?, map(&piston("samples/plate_crown_piston.stl")?)?);
    assert!((even.thick - even.thin) < 0.05 * even.mean);
    // Ribs of 1.6 mm under 4 mm.
    assert_relative_eq!(ribbed.thick, 5.6e-3, max_relative = 0.02);
    Ok(())
}

#[test]
fn map_does_not_depend_on_shells() -> Tested {
    let (whole, pieces) =
        (map(&piston("tests/meshes/piston.stl")?)?, map(&piston("tests/meshes/piston_in_pieces.stl")?)?);
    assert_relative_eq!(whole.thin, pieces.thin, max_relative = 1e-6);
    // The pieces end 0.2 mm short of the walls.
    assert_relative_eq!(whole.free_radius, pieces.free_radius, max_relative = 0.02);
    Ok(())
}

#[test]
fn lines_give_the_volume() -> Tested {
    // An independent sum: lengths of material along lines of equal area fill the body.
    let piston = piston("samples/flat_crown_piston.stl")?;
    let radius = piston.skirt.radius * 1.0001;
    let count = 40_000;
    let rays = AxisRays::new(&piston.mesh, &disc_points(radius, count));
    let length: f64 = rays.spans().iter().flatten().map(|span| span.to - span.from).sum();
    let volume = length * core::f64::consts::PI * radius * radius / f64::from(count as u32);
    // 40 000 lines over a disc with walls of a few millimetres leave a few thousandths.
    assert_relative_eq!(volume, piston.mesh.mass_properties().volume, max_relative = 5e-3);
    Ok(())
}

//! Any bytes as an STL: read or refused, and what is read is measured.
#![no_main]

use layload_core::LengthUnit;
use layload_core::mesh::{Mesh, bodies};
use libfuzzer_sys::fuzz_target;

fuzz_target!(|bytes: &[u8]| {
    if let Ok((mesh, _)) = Mesh::from_stl(bytes, LengthUnit::Millimetre) {
        let _ = mesh.mass_properties();
        if let Ok(bodies) = bodies(mesh) {
            for body in bodies {
                let _ = body.mesh.mass_properties();
            }
        }
    }
});

//! The two bounds on a crown's edge against a finite-element library, whose numbers lie beside its script.

use layload_core::stress::RoundPlate;
use serde_json::Value;

use crate::mesh::files::{bytes, number};

#[test]
fn crowns_on_their_walls_lie_between_the_bounds() -> Result<(), Box<dyn std::error::Error>> {
    let found: Value = serde_json::from_slice(&bytes("tests/reference/crown/crown_stress.json")?)?;
    let (radius, nu) = (number(&found["free_radius_mm"]), number(&found["poisson_ratio"]));
    let crowns = found["crowns"].as_object().ok_or("no crowns")?;
    assert_eq!(crowns.len(), 3);
    for (name, crown) in crowns {
        // Only ratios count: stress in units of the pressure, lengths in mm.
        let plate = RoundPlate::new(radius, number(&crown["thickness_mm"]), 1.0, nu)?;
        let (supported, clamped) = (plate.supported(1.0), plate.clamped(1.0));
        let (middle, edge) = (number(&crown["middle_underside"]), number(&crown["edge_top"]));
        assert!(middle < supported.center_stress && middle > clamped.center_stress, "{name}: {middle}");
        assert!(edge < clamped.edge_stress && edge > 0.0, "{name}: {edge}");
        // How severe the governing bound is: it must not be so by more than the notes say, a factor of about two.
        assert!(supported.greatest_stress() < 2.5 * middle, "{name}: {} {middle}", supported.greatest_stress());
    }
    Ok(())
}

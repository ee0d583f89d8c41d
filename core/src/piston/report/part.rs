use nalgebra::Vector3;

use crate::kind::report::{left_out, point_mm};
use crate::part::{PartKind, Piston};
use crate::report::{BoreReport, PartReport, PathReport, SeatReport};
use crate::units::MM;

/// A piston as recognised.
pub(crate) fn part(piston: &Piston) -> PartReport {
    PartReport {
        kind: PartKind::Piston,
        bores: vec![pin_bore(piston)],
        center_distance_mm: None,
        path: Some(PathReport {
            from: "the pin axis".into(),
            origin_mm: piston.frame.to_file_mm(&piston.pin_center()),
            along: piston.frame.direction_to_file(&Vector3::x()).into(),
        }),
        left_out: left_out(&piston.left_out),
    }
}

/// The bore for the pin.
pub(crate) fn pin_bore(piston: &Piston) -> BoreReport {
    let diameter_mm = 2.0 * piston.pin.radius * MM;
    let bosses = piston.pin.bosses.iter();
    BoreReport {
        role: "pin-bore".into(),
        diameter_mm,
        center_mm: point_mm(&piston.frame.to_file(&piston.pin_center())),
        axis: piston.frame.direction_to_file(&Vector3::z()).into(),
        depth_mm: piston.pin.bearing_length() * MM,
        arc_deg: 360.0,
        sagitta_mm: piston.pin.sagitta * MM,
        seats: bosses.map(|boss| SeatReport { diameter_mm, depth_mm: (boss.to - boss.from) * MM }).collect(),
    }
}

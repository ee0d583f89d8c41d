use nalgebra::{Point3, Vector3};

use crate::kind::report::{left_out, point_mm};
use crate::part::{Eye, PartKind, Rod};
use crate::report::{BoreReport, PartReport, PathReport, SeatReport};
use crate::units::MM;

/// A rod as recognised.
pub(crate) fn part(rod: &Rod) -> PartReport {
    PartReport {
        kind: PartKind::ConnectingRod,
        bores: bores(rod),
        center_distance_mm: Some(rod.center_distance * MM),
        path: Some(PathReport {
            from: "the small-end centre".into(),
            origin_mm: rod.frame.to_file_mm(&Point3::origin()),
            along: rod.frame.direction_to_file(&Vector3::x()).into(),
        }),
        left_out: left_out(&rod.left_out),
    }
}

/// The bores of a rod, the small end first.
pub(crate) fn bores(rod: &Rod) -> Vec<BoreReport> {
    vec![bore("small-end", &rod.small_end), bore("big-end", &rod.big_end)]
}

fn bore(role: &str, eye: &Eye) -> BoreReport {
    let main = eye.bore.main();
    BoreReport {
        role: role.into(),
        diameter_mm: eye.bore.diameter() * MM,
        center_mm: point_mm(&eye.bore.center),
        axis: eye.bore.axis.into(),
        depth_mm: main.depth() * MM,
        arc_deg: main.arc.to_degrees(),
        sagitta_mm: main.sagitta * MM,
        seats: eye
            .bore
            .seats
            .iter()
            .map(|seat| SeatReport { diameter_mm: 2.0 * seat.radius * MM, depth_mm: seat.depth() * MM })
            .collect(),
    }
}

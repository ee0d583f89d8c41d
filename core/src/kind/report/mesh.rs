use nalgebra::Point3;

use crate::mesh::Mended;
use crate::part::LeftOut;
use crate::report::LeftOutReport;
use crate::units::MM;

/// Steps of the coordinates from which they are coarser than what matters of a part: a tenth of a close fit's clearance, m.
const COARSE: f64 = 1e-6;

/// Said of a file whose coordinates are too far from its origin to be exact.
pub(crate) fn coarse(step: f64) -> Option<String> {
    (step > COARSE).then(|| {
        format!(
            "the part lies so far from the origin of its file that its coordinates are {:.3} mm apart, as 32-bit numbers \
             hold no finer ones there; all lengths are as coarse as that: move it to the origin and export it again",
            step * MM
        )
    })
}

/// What was mended in a mesh or is unusual.
pub(crate) fn mending(mended: &Mended, overlapping: bool, voids: usize, left_out: &[LeftOut]) -> Vec<String> {
    let counts = [
        (
            mended.degenerate_dropped,
            "facet with two equal corners was",
            "facets with two equal corners were",
            "left out",
        ),
        (
            mended.facets_turned,
            "facet was the wrong way round and was",
            "facets were the wrong way round and were",
            "turned",
        ),
        (mended.holes_capped, "small hole was", "small holes were", "capped; look at the mesh there"),
    ];
    let told = counts.into_iter().filter(|(count, ..)| *count > 0).map(|(count, one, more, done)| {
        let what = if count == 1 { one } else { more };
        format!("{count} {what} {done}")
    });
    let mut notes: Vec<String> = told.collect();
    if mended.corners_rounded {
        notes.push("corners that nearly met were joined".into());
    }
    if overlapping {
        notes.push("the part is several shells that overlap or touch; they are taken as one solid".into());
    }
    if voids > 0 {
        let (count, are) =
            if voids == 1 { ("1 closed void".into(), "is") } else { (format!("{voids} closed voids"), "are") };
        notes.push(format!("{count} inside {are} taken as empty"));
    }
    if !left_out.is_empty() {
        let named: Vec<String> = left_out
            .iter()
            .map(|body| format!("{:.0} mm³ at {}{}", body.volume * 1e9, body.place, body.role))
            .collect();
        let other = if named.len() == 1 {
            "1 other body of the file was"
        } else {
            &format!("{} other bodies of the file were", named.len())
        };
        notes.push(format!("{other} left out: {}", named.join("; ")));
    }
    notes
}

/// Bodies of the file that are not part of it.
pub(crate) fn left_out(bodies: &[LeftOut]) -> Vec<LeftOutReport> {
    let of = |body: &LeftOut| LeftOutReport { center_mm: body.place.mm, volume_mm3: body.volume * 1e9 };
    bodies.iter().map(of).collect()
}

/// A point in millimetres.
pub(crate) fn point_mm(point: &Point3<f64>) -> [f64; 3] {
    [point.x * MM, point.y * MM, point.z * MM]
}

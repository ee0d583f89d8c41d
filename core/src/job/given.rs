use nalgebra::Vector3;

use super::JobError;
use super::file::{EyeTable, GrooveTable, Job};
use crate::part::{GivenBore, GivenGroove, GivenPart, GivenPiston, GivenRod};

/// What the job says of the part instead of recognition.
pub(crate) fn given_part(job: &Job) -> Result<GivenPart, JobError> {
    let body = job.part.body.map(|number| usize::try_from(number).unwrap_or(usize::MAX));
    Ok(GivenPart { kind: job.part.kind, body, rod: given_rod(job)?, piston: given_piston(job)? })
}

/// What the job says of a piston by hand.
fn given_piston(job: &Job) -> Result<GivenPiston, JobError> {
    let table = &job.part.piston;
    let point = |center: Option<[f64; 3]>, diameter: Option<f64>, key, option| match (center, diameter) {
        (None, None) => Ok(None),
        (Some(center), Some(diameter)) => {
            Ok(Some(GivenBore { center: center.map(|c| c * 1e-3).into(), diameter: diameter * 1e-3 }))
        }
        _ => Err(JobError::Missing { what: "centre or diameter given by hand", key, option }),
    };
    let body = "part.piston.center_mm and diameter_mm";
    let pin = "part.piston.pin_center_mm and pin_diameter_mm";
    Ok(GivenPiston {
        crown_direction: table.crown_direction.map(Vector3::from),
        body: point(table.center_mm, table.diameter_mm, body, "--piston-body")?,
        pin_bore: point(table.pin_center_mm, table.pin_diameter_mm, pin, "--pin-bore")?,
        pin_axis: job.part.pin_axis.map(Vector3::from),
        grooves: table.grooves.as_ref().map(|list| {
            let groove = |g: &GrooveTable| GivenGroove {
                below_crown: g.below_crown_mm * 1e-3,
                width: g.width_mm * 1e-3,
                depth: g.depth_mm * 1e-3,
            };
            list.iter().map(groove).collect()
        }),
    })
}

/// What the job says of the bores by hand.
fn given_rod(job: &Job) -> Result<GivenRod, JobError> {
    let metres = |v: [f64; 3]| v.map(|c| c * 1e-3);
    let bore = |table: &EyeTable, key: &'static str| match (table.center_mm, table.diameter_mm) {
        (None, None) => Ok(None),
        (Some(center), Some(diameter)) => {
            Ok(Some(GivenBore { center: metres(center).into(), diameter: diameter * 1e-3 }))
        }
        _ => Err(JobError::Missing { what: "centre or diameter of a bore given by hand", key, option: "both" }),
    };
    let small_end = bore(&job.part.small_end, "part.small_end.center_mm and diameter_mm")?;
    let big_end = bore(&job.part.big_end, "part.big_end.center_mm and diameter_mm")?;
    Ok(GivenRod { small_end, big_end, pin_axis: job.part.pin_axis.map(Vector3::from) })
}

use nalgebra::Vector3;

use super::JobError;
use super::file::{GrooveTable, Job};
use crate::part::{GivenBore, GivenGroove, GivenPart, GivenPiston, GivenRod};

/// What the job says of the part instead of recognition.
pub(crate) fn given_part(job: &Job) -> Result<GivenPart, JobError> {
    let body = job.part.body.map(|number| usize::try_from(number).unwrap_or(usize::MAX));
    Ok(GivenPart { kind: job.part.kind, body, rod: given_rod(job)?, piston: given_piston(job)? })
}

/// A round surface by hand; `keys` is how the keys of its centre and diameter begin.
fn given_bore(
    center_mm: Option<[f64; 3]>,
    diameter_mm: Option<f64>,
    keys: &str,
) -> Result<Option<GivenBore>, JobError> {
    let missing = |what, key| Err(JobError::Missing { what, key: format!("{keys}{key}") });
    match (center_mm, diameter_mm) {
        (None, None) => Ok(None),
        (Some(center), Some(diameter)) => {
            Ok(Some(GivenBore { center: center.map(|c| c * 1e-3).into(), diameter: diameter * 1e-3 }))
        }
        (Some(_), None) => missing("the diameter that goes with a centre given by hand", "diameter_mm"),
        (None, Some(_)) => missing("the centre that goes with a diameter given by hand", "center_mm"),
    }
}

/// What the job says of a piston by hand.
fn given_piston(job: &Job) -> Result<GivenPiston, JobError> {
    let table = &job.part.piston;
    Ok(GivenPiston {
        crown_direction: table.crown_direction.map(Vector3::from),
        body: given_bore(table.center_mm, table.diameter_mm, "part.piston.")?,
        pin_bore: given_bore(table.pin_center_mm, table.pin_diameter_mm, "part.piston.pin_")?,
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
    let (small, big) = (&job.part.small_end, &job.part.big_end);
    let small_end = given_bore(small.center_mm, small.diameter_mm, "part.small_end.")?;
    let big_end = given_bore(big.center_mm, big.diameter_mm, "part.big_end.")?;
    Ok(GivenRod { small_end, big_end, pin_axis: job.part.pin_axis.map(Vector3::from) })
}

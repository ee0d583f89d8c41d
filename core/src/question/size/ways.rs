use super::SizeRequest;
use crate::Error;
use crate::job::{BuildDirection, Job, resolve_print};
use crate::kind::Question;

/// Ways to be made that are looked at in one go, at most.
const MOST_WAYS: usize = 500;

/// One way to make the part: a job, and how it is called.
pub(super) struct Way {
    pub(super) job: Job,
    /// Whether the card is the one of the job.
    own_card: bool,
    pub(super) direction: String,
    pub(super) walls: u32,
    /// Number of its direction: sections are raised to the field once for each.
    pub(super) posed: usize,
}

impl Way {
    /// The question that asks for it.
    pub(super) fn ask<'b>(&'b self, question: &Question<'b>) -> Question<'b> {
        let card_text = if self.own_card { question.card_text } else { None };
        Question { job: &self.job, card_text, pressure_text: question.pressure_text }
    }
}

/// Every material with every direction and number of walls; the job's own first.
pub(super) fn ways(job: &Job, request: &SizeRequest) -> Result<Vec<Way>, Error> {
    let mut materials: Vec<Option<&String>> = vec![None];
    let own = job.material.name.as_deref().unwrap_or_default();
    materials.extend(request.materials.iter().filter(|name| !name.eq_ignore_ascii_case(own)).map(Some));
    let mut directions: Vec<Option<BuildDirection>> = vec![None];
    directions.extend(request.directions.iter().filter(|d| job.print.build_direction != Some(**d)).copied().map(Some));
    let (_, print) = resolve_print(job)?;
    let own_walls = print.walls;
    let mut walls = vec![own_walls];
    if print.infill < 1.0 {
        walls.extend(request.walls.iter().filter(|count| **count != own_walls));
    }
    let count = materials.len() * directions.len() * walls.len();
    if count > MOST_WAYS {
        return Err(Error::TooManyWays { count, most: MOST_WAYS });
    }
    let mut ways = Vec::new();
    for &material in &materials {
        for (posed, direction) in directions.iter().enumerate() {
            for &walls in &walls {
                let mut job = job.clone();
                if let Some(name) = material {
                    job.material.name = Some(name.clone());
                    job.material.card_file = None;
                }
                if direction.is_some() {
                    job.print.build_direction = *direction;
                }
                job.print.walls = Some(walls);
                let direction = match job.print.build_direction {
                    None => "as usual".into(),
                    Some(BuildDirection::Named(pose)) => pose.word().into(),
                    Some(BuildDirection::Vector([x, y, z])) => format!("{x},{y},{z}"),
                };
                ways.push(Way { job, own_card: material.is_none(), direction, walls, posed });
            }
        }
    }
    Ok(ways)
}

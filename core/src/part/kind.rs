use std::sync::Arc;

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::PartError;
use super::piston::{GivenPiston, Piston, pick_piston};
use super::rod::{GivenRod, Rod, pick_rod};
use crate::mesh::Body;

/// The kinds of part there are, as a word of a job.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum PartWord {
    /// A connecting rod.
    Rod,
    /// A piston.
    Piston,
}

/// A recognised part.
#[derive(Debug, Clone)]
pub enum Part {
    /// A connecting rod.
    Rod(Arc<Rod>),
    /// A piston.
    Piston(Arc<Piston>),
}

/// What the user says of the part instead of recognition.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct GivenPart {
    /// What it is.
    pub kind: Option<PartWord>,
    /// Of a rod.
    pub rod: GivenRod,
    /// Of a piston.
    pub piston: GivenPiston,
}

/// Picks the one part among the bodies of a file: a rod where one is found, otherwise a piston.
///
/// A rod comes first because its two parallel bores are the sharper sign: no piston has them.
pub fn find_part(bodies: Vec<Body>, given: &GivenPart) -> Result<Part, PartError> {
    let rod = |bodies: Vec<Body>| Ok(Part::Rod(Arc::new(pick_rod(&bodies, &given.rod)?.built(bodies)?)));
    let piston = |bodies: Vec<Body>| Ok(Part::Piston(Arc::new(pick_piston(&bodies, &given.piston)?.built(bodies)?)));
    match given.kind {
        Some(PartWord::Rod) => return rod(bodies),
        Some(PartWord::Piston) => return piston(bodies),
        None if given.piston.anything() => return piston(bodies),
        None => {}
    }
    match pick_rod(&bodies, &given.rod) {
        Ok(picked) => Ok(Part::Rod(Arc::new(picked.built(bodies)?))),
        Err(PartError::NotARod { reason: rod, found }) => match pick_piston(&bodies, &given.piston) {
            Ok(picked) => Ok(Part::Piston(Arc::new(picked.built(bodies)?))),
            Err(PartError::NotAPiston { reason: piston, .. }) => Err(PartError::Neither { rod, piston, found }),
            Err(error) => Err(error),
        },
        Err(error) => Err(error),
    }
}

use std::sync::Arc;

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::any::AnyPart;
use super::assembly::sorted_out;
use super::error::PartError;
use super::left_out::Volumes;
use super::rod::{GivenRod, Rod, ends, pick_rod};
use crate::mesh::{Body, Mesh, Place};
use crate::part::piston::{GivenPiston, Piston, pick_piston};

/// The kinds of part there are, as a word of a job.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum PartWord {
    /// A connecting rod.
    Rod,
    /// A piston.
    Piston,
    /// A part of any kind, by the places of the job.
    Any,
}

/// What kind of part.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum PartKind {
    /// A connecting rod.
    ConnectingRod,
    /// A piston.
    Piston,
    /// A part of any kind, by places, holds and loads of the job.
    Any,
    /// A part of a kind that a program on top of this one brings.
    Other,
}

impl PartKind {
    /// The word of reports and hosts.
    pub fn word(self) -> &'static str {
        match self {
            Self::ConnectingRod => "connecting-rod",
            Self::Piston => "piston",
            Self::Any => "any",
            Self::Other => "other",
        }
    }

    /// In one word.
    pub fn noun(self) -> &'static str {
        match self {
            Self::ConnectingRod => "rod",
            Self::Piston => "piston",
            Self::Any | Self::Other => "part",
        }
    }

    /// In words.
    pub fn words(self) -> &'static str {
        match self {
            Self::ConnectingRod => "connecting rod",
            Self::Piston => "piston",
            Self::Any | Self::Other => "part",
        }
    }
}

/// A recognised part.
#[derive(Debug, Clone)]
pub enum Part {
    /// A connecting rod.
    Rod(Arc<Rod>),
    /// A piston.
    Piston(Arc<Piston>),
    /// A part of any kind.
    Any(Arc<AnyPart>),
}

/// What the user says of the part instead of recognition.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct GivenPart {
    /// What it is.
    pub kind: Option<PartWord>,
    /// Which body of the file it is, from 1 for the largest.
    pub body: Option<usize>,
    /// Of a rod.
    pub rod: GivenRod,
    /// Of a piston.
    pub piston: GivenPiston,
}

/// Picks the one part among the bodies of a file: a rod where one is found, otherwise a piston.
///
/// A rod comes first because its two parallel bores are the sharper sign: no piston has them.
pub fn find_part(bodies: Vec<Body>, given: &GivenPart) -> Result<Part, PartError> {
    let rod_given = given.rod.checked()?;
    let mut bodies = sorted_out(bodies, &rod_given, &|mesh| given.is_piston(mesh));
    let Some(number) = given.body else { return found(bodies, given, None) };
    let Some(only) = number.checked_sub(1).filter(|&only| only < bodies.len()) else {
        return Err(PartError::NoSuchBody { number, count: bodies.len(), list: listed(&bodies, given) });
    };
    match found(bodies.clone(), given, Some(only)) {
        Ok(Part::Piston(mut piston)) => {
            bodies.remove(only);
            Arc::make_mut(&mut piston).left_out = Volumes::measured(&bodies).all();
            Ok(Part::Piston(piston))
        }
        Ok(Part::Any(mut part)) => {
            bodies.remove(only);
            Arc::make_mut(&mut part).left_out = Volumes::measured(&bodies).all();
            Ok(Part::Any(part))
        }
        other => other,
    }
}

/// The one part among bodies that are sorted out, or that which `only` one of them is.
fn found(bodies: Vec<Body>, given: &GivenPart, only: Option<usize>) -> Result<Part, PartError> {
    let rod = |bodies: Vec<Body>| {
        let picked = pick_rod(&bodies, &given.rod, only).map_err(|error| error.listing(&bodies, given))?;
        Ok(Part::Rod(Arc::new(picked.built(bodies)?)))
    };
    let piston = |bodies: Vec<Body>| {
        let bodies = match only {
            Some(only) => bodies.into_iter().skip(only).take(1).collect(),
            None => bodies,
        };
        let picked = pick_piston(&bodies, &given.piston).map_err(|error| error.listing(&bodies, given))?;
        Ok(Part::Piston(Arc::new(picked.built(bodies)?)))
    };
    match given.kind {
        Some(PartWord::Rod) => return rod(bodies),
        Some(PartWord::Piston) => return piston(bodies),
        Some(PartWord::Any) => return any(&bodies, given, only),
        None if given.piston.anything() => return piston(bodies),
        None => {}
    }
    match pick_rod(&bodies, &given.rod, only) {
        Ok(picked) => {
            let alone = only.is_some() || bodies.len() == 1 || given.rod.anything();
            if !alone && bodies.iter().any(|body| given.is_piston(&body.mesh)) {
                let list = listed(&bodies, given);
                return Err(PartError::SeveralParts { what: "a connecting rod and a piston".into(), list });
            }
            Ok(Part::Rod(Arc::new(picked.built(bodies)?)))
        }
        Err(PartError::NotARod { reason: rod, found }) => match piston(bodies) {
            Err(PartError::NotAPiston { reason: piston, .. }) => Err(PartError::Neither { rod, piston, found }),
            other => other,
        },
        // A piston's pockets are no rod's bores.
        Err(few @ PartError::FewSides { .. }) => piston(bodies).map_err(|_| few),
        Err(error) => Err(error.listing(&bodies, given)),
    }
}

/// The largest body as a part of any kind, where no other is nearly as large, or the one asked for.
fn any(bodies: &[Body], given: &GivenPart, only: Option<usize>) -> Result<Part, PartError> {
    let volume = |body: &Body| body.mesh.mass_properties().volume;
    let most = bodies.first().map_or(0.0, volume);
    let count = bodies.iter().filter(|body| volume(body) > ALIKE * most).count();
    if only.is_none() && count > 1 {
        return Err(PartError::SeveralParts { what: format!("{count} bodies"), list: listed(bodies, given) });
    }
    Ok(Part::Any(Arc::new(AnyPart::of(bodies, only.unwrap_or(0))?)))
}

/// A body of this share of the largest may be meant as well.
const ALIKE: f64 = 0.3;

impl GivenPart {
    /// Whether a mesh is a piston, as far as that may be.
    fn is_piston(&self, mesh: &Mesh) -> bool {
        let body = Body { mesh: mesh.clone(), outer_shells: 1, voids: 0 };
        matches!(self.kind, None | Some(PartWord::Piston)) && pick_piston(&[body], &self.piston).is_ok()
    }
}

impl PartError {
    /// Where it is that a file holds several parts, with a list of its bodies to choose from.
    fn listing(self, bodies: &[Body], given: &GivenPart) -> Self {
        let what = match &self {
            Self::SeveralRods { count } => format!("{count} connecting rods"),
            Self::SeveralPistons { count } => format!("{count} pistons"),
            _ => return self,
        };
        Self::SeveralParts { what, list: listed(bodies, given) }
    }
}

/// Bodies by number: what each is as far as it is recognised, its size, volume and place.
fn listed(bodies: &[Body], given: &GivenPart) -> String {
    let kind = |body: &Body| {
        if ends(&body.mesh, &GivenRod::default()).is_ok() {
            "connecting rod"
        } else if given.is_piston(&body.mesh) {
            "piston"
        } else {
            "other body"
        }
    };
    let line = |(index, body): (usize, &Body)| {
        let (low, high) = body.mesh.bounds();
        let [x, y, z]: [f64; 3] = ((high - low) * 1e3).into();
        let mass = body.mesh.mass_properties();
        format!(
            "{}: {}, {x:.1} x {y:.1} x {z:.1} mm, {:.2} cm³, at {}",
            index + 1,
            kind(body),
            mass.volume * 1e6,
            Place::from(&mass.centroid)
        )
    };
    let mut lines: Vec<String> = bodies.iter().enumerate().take(LISTED).map(line).collect();
    if bodies.len() > LISTED {
        lines.push(format!("and {} smaller ones", bodies.len() - LISTED));
    }
    lines.join("; ")
}

/// Bodies listed, at most.
const LISTED: usize = 12;

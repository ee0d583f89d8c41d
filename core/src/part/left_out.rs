use core::f64::consts::TAU;
use core::fmt;

use super::assembly::fills;
use super::bore::Bore;
use super::search::BoreSearch;
use crate::mesh::{Body, Laid, MassProperties, Meeting, Place};

/// Bodies below this share of the largest are not looked at.
const LEAST_SHARE: f64 = 1e-3;

/// A body of the file that is not part of the part looked for.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LeftOut {
    /// Its centroid in the file.
    pub place: Place,
    /// Volume, m³.
    pub volume: f64,
    /// What it is to the part.
    pub role: Role,
}

/// What a body left out is to the part.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Role {
    /// Nothing: it lies apart.
    Apart,
    /// It touches the part, carries nothing and is not needed to hold it together.
    Touches,
    /// It fills a bore.
    Fills {
        /// Which bore, in words.
        bore: &'static str,
        /// Whether it is hollow itself: a bush or a bearing.
        hollow: bool,
    },
    /// It holds the other half of a split bore, but lies apart.
    Cap {
        /// Which bore, in words.
        bore: &'static str,
        /// Distance of its half from the part's, m.
        off: f64,
    },
}

impl fmt::Display for Role {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Apart => Ok(()),
            Self::Touches => {
                write!(out, ", which only touches the part (unite the two in the drawing program if they are one)")
            }
            Self::Fills { bore, hollow: true } => {
                write!(out, ", which fills the {bore} bore as a bush or bearing (give it as a ring in the job)")
            }
            Self::Fills { bore, hollow: false } => write!(out, ", which fills the {bore} bore as a pin"),
            Self::Cap { bore, off } => write!(
                out,
                ", which looks like the cap of the {bore} bore, {:.3} mm off (move it onto the part to check both)",
                off * 1e3
            ),
        }
    }
}

impl Role {
    /// Of a body beside a part with these bores.
    pub(super) fn of(body: &Body, part: &Laid<'_>, bores: &[(&'static str, &Bore)]) -> Self {
        let laid = Laid::new(body);
        let half = |bore: &Bore| bore.main().arc < 0.75 * TAU;
        for &(name, bore) in bores.iter().filter(|(_, bore)| half(bore)) {
            let radius = bore.main().radius;
            let other = BoreSearch::new(&body.mesh).all().into_iter().filter(half).find_map(|other| {
                let off = (other.center - bore.center).cross(&bore.axis).norm();
                let alike =
                    (other.main().radius - radius).abs() < 0.02 * radius && other.axis.dot(&bore.axis).abs() > 0.99;
                (alike && off < 0.5 * radius).then_some(off)
            });
            if let Some(off) = other {
                return Self::Cap { bore: name, off };
            }
        }
        for &(name, bore) in bores {
            if fills(&laid, bore) {
                return Self::Fills { bore: name, hollow: !laid.holds(&bore.center) };
            }
        }
        if laid.meets(part) == Meeting::Apart { Self::Apart } else { Self::Touches }
    }
}

/// Volumes of the bodies of a file; one body alone needs no comparing.
pub(super) struct Volumes {
    each: Vec<MassProperties>,
    largest: f64,
}

impl Volumes {
    pub(super) fn of(bodies: &[Body]) -> Self {
        if bodies.len() == 1 { Self { each: Vec::new(), largest: 0.0 } } else { Self::measured(bodies) }
    }

    /// Of bodies all of which are left out.
    pub(super) fn measured(bodies: &[Body]) -> Self {
        let each: Vec<_> = bodies.iter().map(|body| body.mesh.mass_properties()).collect();
        let largest = each.iter().map(|mass| mass.volume).fold(0.0, f64::max);
        Self { each, largest }
    }

    /// Whether a body is large enough to be a part.
    pub(super) fn worth_a_look(&self, index: usize) -> bool {
        self.each.get(index).is_none_or(|mass| mass.volume >= LEAST_SHARE * self.largest)
    }

    /// Every body, one alone too.
    pub(super) fn all(&self) -> Vec<LeftOut> {
        self.without(usize::MAX)
    }

    /// Every body but one.
    pub(super) fn without(&self, index: usize) -> Vec<LeftOut> {
        let others = self.each.iter().enumerate().filter(|(other, _)| *other != index);
        let left_out = |mass: &MassProperties| LeftOut {
            place: Place::from(&mass.centroid),
            volume: mass.volume,
            role: Role::Apart,
        };
        others.map(|(_, mass)| left_out(mass)).collect()
    }
}

/// Says of each body but one what it is to the part with these bores; the list is that of [`Volumes::without`].
pub(super) fn with_roles(list: &mut [LeftOut], bodies: &[Body], index: usize, bores: &[(&'static str, &Bore)]) {
    if list.is_empty() || list.len() > ROLES {
        return;
    }
    let part = Laid::new(&bodies[index]);
    let others = bodies.iter().enumerate().filter(|(other, _)| *other != index);
    for (entry, (_, body)) in list.iter_mut().zip(others) {
        entry.role = Role::of(body, &part, bores);
    }
}

/// Bodies whose roles are told, at most: a file of more is a plate of many parts.
const ROLES: usize = 40;

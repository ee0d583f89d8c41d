use core::fmt;

use nalgebra::{Point3, Vector3};

use crate::kind::Walled;
use crate::part::Piston;
use crate::wall::Shells;

/// Where on a piston a wall is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum PistonWall {
    /// The crown.
    Crown,
    /// Between two grooves or above the first, counted from the crown.
    Land(usize),
    /// Behind a groove, counted from the crown.
    BehindGroove(usize),
    /// Round the pin bore.
    Boss,
    /// The outer wall below the grooves.
    Skirt,
    /// Ribs, struts and whatever else is inside.
    Inside,
}

impl PistonWall {
    /// Of a wall by its middle in the frame of the piston and the direction across it.
    pub fn of(piston: &Piston, middle: &Point3<f64>, across: &Vector3<f64>) -> Self {
        let radius = libm::hypot(middle.y, middle.z);
        let level = across.x.abs() > core::f64::consts::FRAC_1_SQRT_2;
        let behind = |floor: f64| radius < floor && !level;
        if let Some(index) = piston.grooves.iter().position(|g| (g.from..=g.to).contains(&middle.x)) {
            if behind(piston.grooves[index].floor_radius) && radius > 0.5 * piston.grooves[index].floor_radius {
                return Self::BehindGroove(index + 1);
            }
        } else if let Some(index) = piston.grooves.iter().position(|g| middle.x > g.to)
            && radius > piston.grooves[index].floor_radius
        {
            return Self::Land(index + 1);
        }
        let to_pin = libm::hypot(middle.x, middle.y - piston.pin.offset);
        let near_pin = to_pin < 2.0 * piston.pin.radius
            && piston
                .pin
                .bosses
                .iter()
                .any(|boss| (boss.from - piston.pin.radius..=boss.to + piston.pin.radius).contains(&middle.z));
        if near_pin {
            Self::Boss
        } else if level && middle.x > piston.pin.radius {
            Self::Crown
        } else if radius > 0.7 * piston.skirt.radius {
            Self::Skirt
        } else {
            Self::Inside
        }
    }
}

impl fmt::Display for PistonWall {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Crown => write!(out, "crown"),
            Self::Land(number) => write!(out, "land {number} from the crown"),
            Self::BehindGroove(number) => write!(out, "behind groove {number} from the crown"),
            Self::Boss => write!(out, "pin boss"),
            Self::Skirt => write!(out, "skirt"),
            Self::Inside => write!(out, "inside: a rib or strut"),
        }
    }
}

/// A piston as far as its walls matter.
pub(crate) fn walled(piston: &Piston) -> Walled<'_> {
    Walled {
        shells: Shells::united(piston.overlapping),
        whole_file: piston.left_out.is_empty(),
        area_steps: Vec::new(),
        place: Box::new(|middle, across, _| PistonWall::of(piston, middle, across).to_string()),
        notes: |_| {
            vec!["Stress and steps of area of a piston are not measured here; a check works out its stress.".into()]
        },
    }
}

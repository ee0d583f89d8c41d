use strum::{IntoStaticStr, VariantNames};
use thiserror::Error;

/// Why a break cannot be read.
#[derive(Debug, Clone, PartialEq, Error, IntoStaticStr, VariantNames)]
#[strum(serialize_all = "kebab-case", prefix = "diagnosis-")]
#[non_exhaustive]
pub enum DiagnosisError {
    /// Words that are no look.
    #[error("`{said}` is no look that is known{}", near.as_ref().map_or_else(String::new, |near| format!("; did you mean `{near}`?")))]
    UnknownLook {
        /// The words.
        said: String,
        /// The nearest that is known.
        near: Option<String>,
    },
    /// Words that are no place of this part.
    #[error("`{said}` is no place of this part{}", near.as_ref().map_or_else(String::new, |near| format!("; did you mean `{near}`?")))]
    UnknownPlace {
        /// The words.
        said: String,
        /// The nearest that it has.
        near: Option<String>,
        /// Places that it has.
        known: Vec<&'static str>,
    },
    /// A point away from the part.
    #[error("{}, {}, {} mm is not on the part: its surface is {away_mm:.1} mm away", told(at_mm[0]), told(at_mm[1]), told(at_mm[2]))]
    OffThePart {
        /// The point, mm.
        at_mm: [f64; 3],
        /// The nearest point of the surface, mm.
        nearest_mm: [f64; 3],
        /// How far that is, mm.
        away_mm: f64,
    },
    /// A time that no duty of this job comes to.
    #[error("a break after {hours:.0} h is beyond the duty, which is for {wanted_h} h")]
    BeyondDuty {
        /// The time given, h.
        hours: f64,
        /// The wanted life, h.
        wanted_h: f64,
    },
    /// A number of the run that cannot be.
    #[error("the {what} of the break is {value}, which is not possible")]
    Implausible {
        /// Which number.
        what: &'static str,
        /// The value.
        value: f64,
    },
}

fn told(mm: f64) -> String {
    format!("{:.1}", mm + 0.0)
}

impl DiagnosisError {
    /// What the user can do about it.
    pub fn help(&self) -> String {
        match self {
            Self::UnknownLook { near: Some(near), .. } => format!("say {near}, or one of: {}", looks()),
            Self::UnknownLook { .. } => format!("say one of: {}", looks()),
            Self::UnknownPlace { known, .. } => {
                format!("say one of: {}; or give a point as x,y,z in mm of the mesh file", known.join(", "))
            }
            Self::OffThePart { nearest_mm: [x, y, z], .. } => format!(
                "give a point in mm of the mesh file, or a place in words; the nearest point of the part is {},{},{}",
                told(*x),
                told(*y),
                told(*z)
            ),
            Self::BeyondDuty { .. } => {
                "give the running time since new with its right unit, or correct the wanted life of the job".into()
            }
            Self::Implausible { .. } => "times and speeds are above 0, throttles from 0 to 1".into(),
        }
    }
}

fn looks() -> String {
    super::look::Look::ALL.map(super::look::Look::name).join(", ")
}

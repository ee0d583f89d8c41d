use nalgebra::Vector3;
use strum::{IntoStaticStr, VariantNames};
use thiserror::Error;

use crate::field::LighterInside;
use crate::numeric::unit;

/// Print settings in SI units.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PrintSettings {
    /// Unit vector in which layers are stacked, in the frame of the part.
    pub build: Vector3<f64>,
    /// Width of an extruded bead, m.
    pub bead_width: f64,
    /// Thickness of a layer, m.
    pub layer_height: f64,
    /// Beads side by side along every outline.
    pub walls: u32,
    /// Solid layers under every top and over every bottom face.
    pub skin_layers: u32,
    /// Relative density of the inside, 0 to 1.
    pub infill: f64,
}

/// Why print settings make no sense.
#[derive(Debug, Clone, PartialEq, Error, IntoStaticStr, VariantNames)]
#[strum(serialize_all = "kebab-case", prefix = "print-")]
#[non_exhaustive]
pub enum PrintError {
    /// A setting is out of its range.
    #[error("{what} is {value}, outside {range}")]
    OutOfRange {
        /// Which setting.
        what: &'static str,
        /// What was given.
        value: f64,
        /// What is possible.
        range: &'static str,
    },
    /// The build direction has no direction.
    #[error("the build direction is the zero vector")]
    NoDirection,
    /// Neither walls nor infill.
    #[error("nothing is printed inside the skins: there are no walls and the infill is 0 %")]
    Nothing,
}

impl PrintError {
    /// What the user can do about it.
    pub fn help(&self) -> String {
        match self {
            Self::OutOfRange { .. } => {
                "see [print] in the job file; lengths are millimetres, infill is per cent".into()
            }
            Self::Nothing => "give at least one wall, or some infill".into(),
            Self::NoDirection => {
                "give flat, on-edge, upright or three numbers x,y,z in the coordinates of the mesh file".into()
            }
        }
    }
}

impl PrintSettings {
    /// Checks every setting.
    pub fn checked(self) -> Result<Self, PrintError> {
        let range = |what, value: f64, low: f64, high: f64, range| {
            if value >= low && value <= high { Ok(()) } else { Err(PrintError::OutOfRange { what, value, range }) }
        };
        range("bead width", self.bead_width * 1e3, 0.05, 5.0, "0.05 to 5 mm")?;
        range("layer height", self.layer_height * 1e3, 0.02, 3.0, "0.02 to 3 mm")?;
        range("number of walls", f64::from(self.walls), 0.0, 200.0, "0 to 200")?;
        range("number of skin layers", f64::from(self.skin_layers), 0.0, 1000.0, "0 to 1000")?;
        range("infill", self.infill * 100.0, 0.0, 100.0, "0 to 100 %")?;
        if self.walls == 0 && self.infill == 0.0 {
            return Err(PrintError::Nothing);
        }
        let build = unit(&self.build).ok_or(PrintError::NoDirection)?;
        Ok(Self { build, ..self })
    }

    /// Depth of solid material under a surface with the given unit normal, measured along that normal, m.
    ///
    /// Outlines are laid in the layer plane, skins along the build direction: under a surface that leans, both shrink
    /// with the cosine of the lean, and the deeper one counts.
    pub fn solid_depth(&self, normal: &Vector3<f64>) -> f64 {
        LighterInside::from(self).solid_depth(normal)
    }

    /// Stiffness of the inside over that of the solid: density squared (Gibson & Ashby 1997, open cells that bend).
    ///
    /// Its strength falls only with the power 1.5 of density, so under one strain the solid bands always go first.
    pub fn infill_stiffness(&self) -> f64 {
        self.infill * self.infill
    }
}

impl From<&PrintSettings> for LighterInside {
    fn from(print: &PrintSettings) -> Self {
        Self {
            axis: print.build,
            side_depth: f64::from(print.walls) * print.bead_width,
            end_depth: f64::from(print.skin_layers) * print.layer_height,
            density: print.infill,
            stiffness: print.infill_stiffness(),
        }
    }
}

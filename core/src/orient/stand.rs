use super::shape::Posed;

/// A part has to bear being leaned by so much, rad, before it tips over. (Common practice, no source.)
const LEAST_TILT: f64 = core::f64::consts::PI / 18.0;

/// Side of the square that the footing fills over the height of the part, at least. (Common practice, no source.)
const LEAST_SIDE: f64 = 0.1;

/// Whether a part stays on the bed by what rests there; a brim and supports are not counted.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Standing {
    /// It does.
    Stands,
    /// Less than `least` (m²) rests on the bed.
    SmallFooting {
        /// For its height, m².
        least: f64,
    },
    /// Its centre of mass does not lie over its footing.
    TipsOver,
    /// It falls if leaned by this angle, rad.
    Unsteady {
        /// See the variant.
        tilt: f64,
    },
}

impl Posed {
    /// Whether the part stays on the bed.
    pub fn standing(&self) -> Standing {
        let side = LEAST_SIDE * self.height;
        if self.contact_area < side * side {
            Standing::SmallFooting { least: side * side }
        } else if !self.tip_ratio.is_finite() {
            Standing::TipsOver
        } else {
            let tilt = libm::atan(1.0 / self.tip_ratio);
            if tilt < LEAST_TILT { Standing::Unsteady { tilt } } else { Standing::Stands }
        }
    }

    /// Whether it is [`Standing::Stands`].
    pub fn stands(&self) -> bool {
        self.standing() == Standing::Stands
    }

    /// The least angle of lean that counts as steady, rad.
    pub const LEAST_TILT: f64 = LEAST_TILT;
}

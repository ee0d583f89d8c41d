use super::error::StressError;
use crate::numeric::halved;

/// The stuff of a ring.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct RingMaterial {
    /// Young's modulus in the plane of the ring, Pa.
    pub modulus: f64,
    /// Poisson's ratio.
    pub poisson_ratio: f64,
    /// Expansion by heat, 1/K.
    pub expansion: f64,
}

impl RingMaterial {
    /// Bearing or bush of steel: 206e9 Pa, 0.30, 12e-6 1/K (common practice).
    pub fn steel() -> Self {
        Self { modulus: 206e9, poisson_ratio: 0.30, expansion: 12e-6 }
    }

    /// Bush of bronze: 110e9 Pa, 0.34, 18e-6 1/K (common practice).
    pub fn bronze() -> Self {
        Self { modulus: 110e9, poisson_ratio: 0.34, expansion: 18e-6 }
    }

    fn checked(self) -> Result<Self, StressError> {
        StressError::positive("Young's modulus", self.modulus)?;
        StressError::poisson_ratio(self.poisson_ratio)?;
        StressError::finite("expansion by heat", self.expansion)?;
        Ok(self)
    }
}

/// A ring or pin pressed into the bore of an eye: two thick rings (Lame; Shigley's Mechanical Engineering Design, press
/// and shrink fits).
///
/// The eye counts as a ring with one outside radius. With the thinnest wall all round the pressure comes out low (grip) and
/// the hoop stress for a given pressure high.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PressFit {
    inner_radius: f64,
    joint_radius: f64,
    outer_radius: f64,
    insert: RingMaterial,
    eye: RingMaterial,
}

/// Pressure and stresses of a fit, Pa; tension positive. All zero where the fit is loose.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct FitStress {
    /// Pressure between the two.
    pub pressure: f64,
    /// Hoop stress of the eye at its bore, the greatest there is in it.
    pub eye_hoop: f64,
    /// Hoop stress of the eye on its outside.
    pub eye_outside_hoop: f64,
    /// Hoop stress of the insert at the joint.
    pub insert_hoop: f64,
    /// Hoop stress of the insert at its own bore; that at the joint for a solid pin.
    pub insert_bore_hoop: f64,
}

impl PressFit {
    /// From the radii (m): bore of the insert (0 for a solid pin), joint, outside of the eye.
    pub fn new(
        inner_radius: f64,
        joint_radius: f64,
        outer_radius: f64,
        insert: RingMaterial,
        eye: RingMaterial,
    ) -> Result<Self, StressError> {
        let inner = StressError::not_negative("bore of the insert", inner_radius)?;
        let joint = StressError::positive("radius of the joint", joint_radius)?;
        let outer = StressError::positive("outside of the eye", outer_radius)?;
        if inner >= joint {
            let (inner_name, outer_name) = ("bore of the insert", "radius of the joint");
            return Err(StressError::NotNested { inner_name, inner, outer_name, outer: joint });
        }
        if joint >= outer {
            let (inner_name, outer_name) = ("radius of the joint", "outside of the eye");
            return Err(StressError::NotNested { inner_name, inner: joint, outer_name, outer });
        }
        let (insert, eye) = (insert.checked()?, eye.checked()?);
        Ok(Self { inner_radius: inner, joint_radius: joint, outer_radius: outer, insert, eye })
    }

    /// The same fit with another modulus of the eye, Pa: warmer, or crept.
    pub fn with_eye_modulus(self, modulus: f64) -> Result<Self, StressError> {
        let eye = RingMaterial { modulus, ..self.eye }.checked()?;
        Ok(Self { eye, ..self })
    }

    /// Radial give of the two rings at the joint for a unit of pressure, m/Pa:
    /// `c/E_o ((b² + c²)/(b² - c²) + nu_o) + c/E_i ((c² + a²)/(c² - a²) - nu_i)`.
    pub fn give(&self) -> f64 {
        let c = self.joint_radius;
        c * ((hoop_ratio(c, self.outer_radius) + self.eye.poisson_ratio) / self.eye.modulus
            + (hoop_ratio(self.inner_radius, c) - self.insert.poisson_ratio) / self.insert.modulus)
    }

    /// Pressure and stresses at a radial interference, m; a clearance (negative) gives none.
    pub fn at(&self, radial_interference: f64) -> FitStress {
        self.under(radial_interference.max(0.0) / self.give())
    }

    /// Stresses that belong to a pressure in the joint, Pa.
    pub fn under(&self, pressure: f64) -> FitStress {
        let (a, c, b) = (self.inner_radius, self.joint_radius, self.outer_radius);
        FitStress {
            pressure,
            eye_hoop: pressure * hoop_ratio(c, b),
            eye_outside_hoop: pressure * 2.0 * c * c / (b * b - c * c),
            insert_hoop: -pressure * hoop_ratio(a, c),
            insert_bore_hoop: if a > 0.0 { -2.0 * pressure * c * c / (c * c - a * a) } else { -pressure },
        }
    }

    /// Radial interference left at a temperature that is `warming` (K) above that of assembly, m, from that at assembly:
    /// `d + c (alpha_i - alpha_o) dT`.
    pub fn warmed(&self, radial_interference: f64, warming: f64) -> f64 {
        radial_interference + self.joint_radius * (self.insert.expansion - self.eye.expansion) * warming
    }

    /// Warming above assembly at which the fit turns loose, K; `None` if heat only tightens it.
    pub fn loose_at(&self, radial_interference: f64) -> Option<f64> {
        let parting = self.joint_radius * (self.eye.expansion - self.insert.expansion);
        (parting > 0.0 && radial_interference > 0.0).then(|| radial_interference / parting)
    }

    /// Force along the axis, N, or (times the radius of the joint) moment that slides the insert: `2 pi c l mu p`.
    pub fn slip_force(&self, pressure: f64, length: f64, friction: f64) -> f64 {
        core::f64::consts::TAU * self.joint_radius * length * friction * pressure
    }

    /// Radius of the joint, m.
    pub fn joint_radius(&self) -> f64 {
        self.joint_radius
    }
}

/// Hoop stress over pressure where the pressure acts, `(R² + r²) / (R² - r²)`.
fn hoop_ratio(small: f64, large: f64) -> f64 {
    let (s, l) = (small * small, large * large);
    (l + s) / (l - s)
}

/// Pressure left in a fit after some time, Pa: the interference stays, the eye creeps.
///
/// `creep_strain` gives the creep strain of the eye at a steady hoop stress (Pa) after the time of interest. The eye's
/// bore takes the isochronous secant modulus `s / (s/E + creep(s))` of its own hoop stress; found by halving, since the
/// pressure falls as the secant modulus falls. Taking the stress that is left as if it had acted all the time is on the
/// high side for creep under a fading load by a few per cent.
pub fn relaxed_pressure(
    fit: &PressFit,
    radial_interference: f64,
    creep_strain: impl Fn(f64) -> f64,
) -> Result<f64, StressError> {
    let fresh = fit.at(radial_interference).pressure;
    let modulus = fit.eye.modulus;
    let keeps = |pressure: f64| -> Result<bool, StressError> {
        let hoop = fit.under(pressure).eye_hoop;
        let secant = if hoop > 0.0 { hoop / (hoop / modulus + creep_strain(hoop).max(0.0)) } else { modulus };
        Ok(fit.with_eye_modulus(secant)?.at(radial_interference).pressure > pressure)
    };
    let (low, high) = halved((0.0, fresh), |_, _| false, keeps)?;
    Ok(f64::midpoint(low, high))
}

/// Time for which a fit keeps the pressure that is needed (Pa) to hold the ring from walking, s; 0 if it never has it,
/// `None` if it still has it after `horizon` (s).
///
/// `creep_strain` gives the creep strain of the eye at a steady hoop stress (Pa) after a time (s). Found by halving the
/// logarithm of time, to a thousandth.
pub fn grip_lasts(
    fit: &PressFit,
    radial_interference: f64,
    needed_pressure: f64,
    horizon: f64,
    creep_strain: impl Fn(f64, f64) -> f64,
) -> Result<Option<f64>, StressError> {
    let needed = StressError::positive("needed pressure", needed_pressure)?;
    let horizon = StressError::positive("horizon", horizon)?;
    let grips = |seconds: f64| -> Result<bool, StressError> {
        Ok(relaxed_pressure(fit, radial_interference, |hoop| creep_strain(hoop, seconds))? >= needed)
    };
    if fit.at(radial_interference).pressure < needed {
        return Ok(Some(0.0));
    }
    if grips(horizon)? {
        return Ok(None);
    }
    // Shorter than a millionth of a second is no time.
    let ends = (libm::log(1e-6_f64.min(0.5 * horizon)), libm::log(horizon));
    let (last, _) = halved(ends, |good, bad| bad - good <= 1e-3, |at| grips(libm::exp(at)))?;
    Ok(Some(libm::exp(last)))
}

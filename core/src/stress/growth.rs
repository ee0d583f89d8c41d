use super::error::StressError;

/// A round part in a round bore, both growing with heat: `d (1 + a (T - T0))` for each diameter.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Growth {
    /// Diameter of the part when cold, m.
    pub diameter: f64,
    /// Its expansion in the plane of the bore, 1/K.
    pub expansion: f64,
    /// Its temperature when running, K.
    pub temperature: f64,
    /// Diameter of the bore when cold, m.
    pub bore: f64,
    /// Expansion of the bore's material, 1/K.
    pub bore_expansion: f64,
    /// Temperature of the bore's wall when running, K.
    pub bore_temperature: f64,
    /// Temperature at which both were measured, K.
    pub cold: f64,
}

impl Growth {
    /// Refuses diameters and temperatures that are not above zero.
    pub fn checked(self) -> Result<Self, StressError> {
        StressError::positive("diameter of the part", self.diameter)?;
        StressError::positive("diameter of the bore", self.bore)?;
        for temperature in [self.temperature, self.bore_temperature, self.cold] {
            StressError::positive("temperature", temperature)?;
        }
        StressError::finite("expansion", self.expansion)?;
        StressError::finite("expansion of the bore", self.bore_expansion)?;
        Ok(self)
    }

    /// Growth of the part's diameter, m.
    pub fn of_part(&self) -> f64 {
        self.diameter * self.expansion * (self.temperature - self.cold)
    }

    /// Growth of the bore, m.
    pub fn of_bore(&self) -> f64 {
        self.bore * self.bore_expansion * (self.bore_temperature - self.cold)
    }

    /// Diametral clearance when cold, m.
    pub fn cold_clearance(&self) -> f64 {
        self.bore - self.diameter
    }

    /// Diametral clearance when running, m; negative where the part would be wider than its bore.
    pub fn running_clearance(&self) -> f64 {
        self.cold_clearance() + self.of_bore() - self.of_part()
    }

    /// Cold diametral clearance that leaves `film` (m, diametral) when running.
    pub fn wanted_clearance(&self, film: f64) -> f64 {
        self.of_part() - self.of_bore() + film
    }
}

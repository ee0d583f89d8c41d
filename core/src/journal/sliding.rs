/// What slides in a bore, mean over time: add a stretch of time at a force and a sliding speed after another.
#[derive(Debug, Clone, Copy, Default, PartialEq)]
pub struct Sliding {
    force_speed: f64,
    force: f64,
    seconds: f64,
}

impl Sliding {
    /// With `seconds` more at a force (N) and a sliding speed (m/s); signs do not count.
    #[must_use]
    pub fn with(self, force: f64, speed: f64, seconds: f64) -> Self {
        Self {
            force_speed: self.force_speed + force.abs() * speed.abs() * seconds,
            force: self.force + force.abs() * seconds,
            seconds: self.seconds + seconds,
        }
    }

    /// Force times speed, mean over time, W.
    pub fn force_speed(&self) -> f64 {
        if self.seconds > 0.0 { self.force_speed / self.seconds } else { 0.0 }
    }

    /// Force, mean over time, N.
    pub fn force(&self) -> f64 {
        if self.seconds > 0.0 { self.force / self.seconds } else { 0.0 }
    }

    /// Mean pressure times sliding speed, Pa m/s, on a bore of a projected area, m².
    pub fn pressure_speed(&self, projected_area: f64) -> f64 {
        self.force_speed() / projected_area
    }

    /// Depth worn off the loaded side in a running time, m: `k p v t` (Archard 1953). `wear` is k in m² /N, which is volume
    /// over force and way.
    pub fn wear_depth(&self, projected_area: f64, wear: f64, running: f64) -> f64 {
        wear * self.pressure_speed(projected_area) * running
    }
}

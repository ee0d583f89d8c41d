/// Conductivity of the pin, W/(m K): plain steel (memory).
const STEEL: f64 = 45.0;

/// Where the heat of friction goes that has come through the pin.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Sink {
    /// A body that keeps its temperature: a piston with its cylinder.
    Held,
    /// Surfaces of an area (m²) that a film (W/(m² K)) cools.
    Cooled {
        /// Area, m².
        area: f64,
        /// Film coefficient, W/(m² K).
        film: f64,
    },
}

/// The way of the heat of friction out of a bore: through the steel pin to both sides, as plastic lets next to nothing
/// through.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PinPath {
    /// Radius of the pin, m.
    pub radius: f64,
    /// Length that the bore heats, m.
    pub length: f64,
    /// Where it goes.
    pub sink: Sink,
}

impl PinPath {
    /// By how much the bore is warmer than its pin would be without friction, K for each W.
    ///
    /// Heat that comes in evenly along a bar whose two ends are held leaves its mean `L / (12 k A)` warmer.
    pub fn rise_per_watt(&self) -> f64 {
        let area = core::f64::consts::PI * self.radius * self.radius;
        let along = self.length / (12.0 * STEEL * area);
        match self.sink {
            Sink::Held => along,
            Sink::Cooled { area, film } => along + 1.0 / (area * film),
        }
    }
}

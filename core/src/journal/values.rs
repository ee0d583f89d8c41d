use crate::material::Source;

/// What is between pin and plastic.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Lubrication {
    /// Nothing.
    Dry,
    /// Grease from when it was put together.
    Greased,
    /// Oil mist or splashed oil, all the time.
    Oiled,
}

/// How a plastic slides on a ground steel pin.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct JournalValues {
    /// Coefficient of friction.
    pub friction: f64,
    /// Most pressure times speed in the long run, Pa m/s.
    pub limit: f64,
    /// Wear k, m²/N.
    pub wear: f64,
    /// How well the least founded of them is.
    pub source: Source,
}

/// Dry limit of thermoplastics with a filler, Pa m/s: 0.035 to 0.11 MPa m/s (Neale, The Tribology Handbook, characteristics
/// of rubbing bearing materials; table). Crystalline plastics have the upper end, glassy ones the lower.
const LIMITS_DRY: [f64; 2] = [0.1e6, 0.035e6];

/// Dry friction of prints: means of nine settings of PA6 and of PLA, 0.66 to 1.1 and 0.62 to 0.76 (DOI 10.2478/msp-2025-0039,
/// table; what they slid on is not on the part that was read). Solid filled plastics have 0.15 to 0.40 (Neale's table).
const FRICTION_DRY: [f64; 2] = [0.87, 0.67];

/// Dry wear, m²/N. Crystalline: at most 1 µm/km at 0.05 to 0.1 MPa of printed PA6, 1e-14 and more m²/N; glassy: 8 to 30 µm/km of
/// printed PLA, 2e-13 (the same table of 2025).
const WEAR_DRY: [f64; 2] = [1.3e-14, 2.0e-13];

impl JournalValues {
    /// Of a plastic by the name of its card; one that is not known counts as glassy, the worse of both.
    pub fn of(card: &str, lubrication: Lubrication) -> Self {
        let crystalline = ["PA", "PEEK", "PPS", "POM", "PP"].iter().any(|family| card.starts_with(family));
        let kind = usize::from(!crystalline);
        let dry = Self {
            friction: FRICTION_DRY[kind],
            limit: LIMITS_DRY[kind],
            wear: WEAR_DRY[kind],
            source: Source::Published,
        };
        match lubrication {
            Lubrication::Dry => dry,
            // As much as twice the limit with a lubricant (a maker's guide to plastic bearings, second hand); the rest memory.
            Lubrication::Greased => {
                Self { friction: 0.12, limit: 2.0 * dry.limit, wear: 0.2 * dry.wear, source: Source::Memory }
            }
            // Boundary friction of an oiled pin, five times the dry limit and a tenth of the wear (memory).
            Lubrication::Oiled => {
                Self { friction: 0.10, limit: 5.0 * dry.limit, wear: 0.1 * dry.wear, source: Source::Memory }
            }
        }
    }
}

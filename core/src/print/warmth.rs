/// How warm a part is while it is printed, and how fast it grows: what decides how well its layers bond.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PrintWarmth {
    /// Plastic as it leaves the nozzle, K.
    pub nozzle: f64,
    /// Bed under the first layer, K.
    pub bed: f64,
    /// Air round the part, K.
    pub chamber: f64,
    /// Share of the full fan that blows on the part, 0 to 1.
    pub fan: f64,
    /// Speed of the nozzle while it lays a bead, m/s.
    pub bead_speed: f64,
    /// Time for every change of layer, s.
    pub layer_change: f64,
    /// No layer takes less: the printer slows down or waits, s.
    pub least_layer: f64,
    /// Parts printed together, each with all its layers between two of this one.
    pub together: f64,
}

/// How a printer works through a part: what decides time and supports, not strength.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Pace {
    /// Speed of the nozzle while it lays a bead, m/s.
    pub bead_speed: f64,
    /// Time for every change of layer, s.
    pub layer_change: f64,
    /// Steepest overhang that prints without support, rad from upright.
    pub overhang: f64,
    /// Density of supports over solid plastic.
    pub support_density: f64,
}

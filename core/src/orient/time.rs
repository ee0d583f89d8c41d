use super::shape::Posed;
use crate::print::{Pace, PrintSettings};

/// Time to print a part of so much plastic (m³) in a pose, s: what the nozzle lays at its speed in beads of width times layer height, supports at
/// their own density, and a fixed time for every layer.
///
/// An estimate for comparing poses; acceleration, travel and cooling pauses are not in it.
pub fn print_time(plastic: f64, posed: &Posed, print: &PrintSettings, pace: &Pace) -> f64 {
    let bead = print.bead_width * print.layer_height;
    let laid = plastic + pace.support_density * posed.support_volume;
    let layers = (posed.height / print.layer_height).ceil();
    laid / (bead * pace.bead_speed) + layers * pace.layer_change
}

use nalgebra::Vector3;

/// Height of the steps that layers leave in the wall of a hole, m.
///
/// A surface whose unit normal is n is left with steps of `h |n . b|` for layers of height h stacked along b (Dolenc &
/// Mäkelä 1994, Slicing procedures for layered manufacturing techniques; from memory); over the wall of a hole the
/// greatest is h times the sine of the angle between hole and build direction. Upright holes are as round as the nozzle
/// draws them.
pub fn stair_step(axis: &Vector3<f64>, build: &Vector3<f64>, layer_height: f64) -> f64 {
    layer_height * axis.cross(build).norm().min(1.0)
}

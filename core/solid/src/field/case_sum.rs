use nalgebra::Vector6;

/// The stress at a point in a state of so much of each case, Pa.
pub fn combined(cases: &[[f32; 6]], state: &[f32]) -> Vector6<f64> {
    let mut sum = [0.0_f32; 6];
    for (stress, &factor) in cases.iter().zip(state) {
        if factor != 0.0 {
            for (total, component) in sum.iter_mut().zip(stress) {
                *total += factor * component;
            }
        }
    }
    Vector6::from(sum.map(f64::from))
}

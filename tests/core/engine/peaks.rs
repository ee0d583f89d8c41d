//! Peaks that differ from cycle to cycle.

use approx::assert_relative_eq;
use layload_core::engine::{Knock, PeakClass, Peaks};

fn sum(peaks: &Peaks, of: impl Fn(&PeakClass) -> f64) -> f64 {
    peaks.classes().iter().map(|class| class.share * of(class)).sum()
}

/// Mean of a power of one plus a normal number of such a deviation, by Simpson's rule over nine deviations.
fn mean_of_power(deviation: f64, power: f64) -> f64 {
    let (steps, reach) = (4000_u32, 9.0);
    let width = 2.0 * reach / f64::from(steps);
    let mut whole = 0.0;
    for k in 0..=steps {
        let z = -reach + f64::from(k) * width;
        let weight = if k == 0 || k == steps { 1.0 } else { 2.0 + 2.0 * f64::from(k % 2) };
        let density = libm::exp(-0.5 * z * z) / (2.0 * std::f64::consts::PI).sqrt();
        whole += weight * density * libm::pow((1.0 + deviation * z).max(0.0), power);
    }
    whole * width / 3.0
}

#[test]
fn few_classes_harm_as_a_normal_spread_does() {
    // Exponents of printed plastics are about 5 to 14: damage goes with that power of the peak.
    for deviation in [0.02, 0.06, 0.1] {
        let peaks = Peaks { spread: deviation, knock: None };
        assert_relative_eq!(sum(&peaks, |_| 1.0), 1.0, epsilon = 1e-12);
        // The few worst cycles are counted beside the points that stand for all.
        assert_relative_eq!(sum(&peaks, |class| class.times), 1.0, epsilon = 3e-5);
        for power in [2.0, 5.0, 8.0, 12.0] {
            let few = sum(&peaks, |class| libm::pow(class.times, power));
            // Three points are exact up to the fifth power; beyond it what is left is 3 % at most within this range.
            let near = if power < 6.0 { 2e-3 } else { 0.03 };
            assert_relative_eq!(few, mean_of_power(deviation, power), max_relative = near);
        }
        let highest = peaks.classes().iter().map(|class| class.times).fold(0.0, f64::max);
        assert_relative_eq!(highest, 1.0 + 4.0 * deviation, epsilon = 1e-12);
    }
}

#[test]
fn knocking_cycles_are_counted_beside_the_others() {
    let knock = Some(Knock { every: 50.0, times: 1.6 });
    let alike = Peaks { spread: 0.0, knock };
    assert_eq!(alike.classes().len(), 2);
    assert_relative_eq!(sum(&alike, |class| class.times), 1.0 + 0.6 / 50.0, epsilon = 1e-12);
    let both = Peaks { spread: 0.05, knock };
    assert_relative_eq!(sum(&both, |_| 1.0), 1.0, epsilon = 1e-12);
    // The last is the mean cycle: what is drawn of a cycle is drawn of it.
    assert_eq!(both.classes().last().map(|class| class.times), Some(1.0));
    assert_eq!(Peaks::default().classes(), [PeakClass { times: 1.0, share: 1.0 }]);
}

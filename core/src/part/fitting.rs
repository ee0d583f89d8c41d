use crate::units::LengthUnit;

/// Rods and pistons of small engines are at least and at most this long, mm (common practice, no source).
const LENGTHS_MM: [f64; 2] = [16.0, 450.0];

/// Units in which a part of this greatest length, in file units, is as long as rods and pistons of small engines are.
///
/// More than one may fit: 5 units are 50 mm in centimetres and 127 mm in inches. A length in millimetres is never too great:
/// what is that large is no part of a small engine in any unit.
pub fn fitting_units(length: f64) -> Vec<LengthUnit> {
    let [least, most] = LENGTHS_MM;
    if length >= least {
        return vec![LengthUnit::Millimetre];
    }
    let fits = |unit: &LengthUnit| (least..=most).contains(&(length * unit.metres() * 1e3));
    [LengthUnit::Centimetre, LengthUnit::Inch, LengthUnit::Metre].into_iter().filter(fits).collect()
}

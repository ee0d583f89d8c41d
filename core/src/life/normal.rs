//! The normal distribution.
//!
//! Written here because the statistics crates take logarithms and exponentials from the system when any crate of
//! the build asks their number traits for the standard library, and then the last digit differs between machines.

use libm::{erfc, log};

/// Probability that a standard normal variable lies below a value.
pub fn normal_probability(value: f64) -> f64 {
    0.5 * erfc(-value * std::f64::consts::FRAC_1_SQRT_2)
}

/// The value below which a standard normal variable lies with the given probability, strictly between 0 and 1;
/// `None` otherwise.
///
/// Wichura, Algorithm AS 241 (PPND16), Applied Statistics 37 (1988), 477-484: about 16 digits.
pub fn normal_quantile(probability: f64) -> Option<f64> {
    if !(probability > 0.0 && probability < 1.0) {
        return None;
    }
    let centred = probability - 0.5;
    if centred.abs() <= 0.425 {
        let r = 0.180_625 - centred * centred;
        return Some(centred * ratio(r, &NEAR_ABOVE, &NEAR_BELOW));
    }
    let tail = if centred < 0.0 { probability } else { 1.0 - probability };
    let r = (-log(tail)).sqrt();
    let size =
        if r <= 5.0 { ratio(r - 1.6, &MIDDLE_ABOVE, &MIDDLE_BELOW) } else { ratio(r - 5.0, &FAR_ABOVE, &FAR_BELOW) };
    Some(if centred < 0.0 { -size } else { size })
}

/// Ratio of two polynomials, coefficients from the constant up.
fn ratio(x: f64, above: &[f64; 8], below: &[f64; 8]) -> f64 {
    let polynomial = |coefficients: &[f64; 8]| coefficients.iter().rev().fold(0.0, |sum, c| sum * x + c);
    polynomial(above) / polynomial(below)
}

const NEAR_ABOVE: [f64; 8] = [
    3.387_132_872_796_366_5,
    133.141_667_891_784_38,
    1_971.590_950_306_551_3,
    13_731.693_765_509_46,
    45_921.953_931_549_87,
    67_265.770_927_008_7,
    33_430.575_583_588_13,
    2_509.080_928_730_122_7,
];
const NEAR_BELOW: [f64; 8] = [
    1.0,
    42.313_330_701_600_91,
    687.187_007_492_057_9,
    5_394.196_021_424_751,
    21_213.794_301_586_597,
    39_307.895_800_092_71,
    28_729.085_735_721_943,
    5_226.495_278_852_854,
];
const MIDDLE_ABOVE: [f64; 8] = [
    1.423_437_110_749_683_5,
    4.630_337_846_156_546,
    5.769_497_221_460_691,
    3.647_848_324_763_204_5,
    1.270_458_252_452_368_4,
    0.241_780_725_177_450_6,
    0.022_723_844_989_269_184,
    0.000_774_545_014_278_341_4,
];
const MIDDLE_BELOW: [f64; 8] = [
    1.0,
    2.053_191_626_637_759,
    1.676_384_830_183_803_8,
    0.689_767_334_985_1,
    0.148_103_976_427_480_08,
    0.015_198_666_563_616_457,
    0.000_547_593_808_499_534_5,
    1.050_750_071_644_416_9e-9,
];
const FAR_ABOVE: [f64; 8] = [
    6.657_904_643_501_103,
    5.463_784_911_164_114,
    1.784_826_539_917_291_3,
    0.296_560_571_828_504_87,
    0.026_532_189_526_576_124,
    0.001_242_660_947_388_078_4,
    2.711_555_568_743_487_6e-5,
    2.010_334_399_292_288_1e-7,
];
const FAR_BELOW: [f64; 8] = [
    1.0,
    0.599_832_206_555_888,
    0.136_929_880_922_735_8,
    0.014_875_361_290_850_615,
    0.000_786_869_131_145_613_3,
    1.846_318_317_510_054_8e-5,
    1.421_511_758_316_446e-7,
    2.044_263_103_389_939_7e-15,
];

use core::f64::consts::{FRAC_1_SQRT_2, TAU};

use super::error::HeatError;
use super::gas_film::GasFilm;
use super::hysteresis::{Harmonic, Harmonics};

/// Harmonics followed; 180 of a four-stroke reach down to eight degrees of crank.
const HARMONICS: usize = 180;

/// Rounds of letting the face follow the gas and the heat follow the face.
const ROUNDS: usize = 60;

/// Least and greatest departure of a face's temperature from its mean within one cycle, K.
///
/// The wall is deep against what one cycle reaches. A flux of amplitude q at angular frequency w swings the face of a
/// body by `q / (e sqrt w)`, an eighth of a turn later (Carslaw & Jaeger, Conduction of Heat in Solids, 2.6), with the
/// thermal effusivity `e = sqrt(k c)`, W s^0.5/(m² K). The gas feels the moving face: `q = h (T_gas - T_face)`.
///
/// `cycle` is its duration (s), `mean_face` the mean temperature of the face (K).
pub fn surface_swing(film: &GasFilm, mean_face: f64, cycle: f64, effusivity: f64) -> Result<(f64, f64), HeatError> {
    let mean_face = HeatError::positive("temperature of the face", mean_face)?;
    let base = TAU / HeatError::positive("duration of the cycle", cycle)?;
    let effusivity = HeatError::positive("effusivity", effusivity)?;
    let samples = film.coefficients.len();
    let table = Harmonics::new(samples, HARMONICS.min(samples.saturating_sub(1) / 2))?;
    let mut swing = vec![0.0; samples];
    let mut flux = vec![0.0; samples];
    let mut harmonics = vec![Harmonic::default(); table.count()];
    for _ in 0..ROUNDS {
        for (index, q) in flux.iter_mut().enumerate() {
            *q = film.coefficients[index] * (film.temperatures[index] - mean_face - swing[index]);
        }
        table.fill(&flux, &mut harmonics);
        for (index, harmonic) in harmonics.iter_mut().enumerate() {
            let scale = FRAC_1_SQRT_2 / (effusivity * (base * (index + 1) as f64).sqrt());
            let Harmonic { cosine, sine } = *harmonic;
            // Turned back by an eighth: cos(x - 45°) and sin(x - 45°) multiplied out.
            *harmonic = Harmonic { cosine: scale * (cosine - sine), sine: scale * (cosine + sine) };
        }
        let mut moved = 0.0_f64;
        for (index, here) in swing.iter_mut().enumerate() {
            // Half of the way, so that strong films on poor conductors settle too.
            let step = 0.5 * (table.sum(&harmonics, index) - *here);
            *here += step;
            moved = moved.max(step.abs());
        }
        if moved < 1e-3 {
            break;
        }
    }
    let least = swing.iter().copied().fold(0.0, f64::min);
    Ok((least, swing.iter().copied().fold(0.0, f64::max)))
}

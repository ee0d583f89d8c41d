use core::f64::consts::{PI, TAU};

use super::error::HeatError;

/// Fewest and most samples of a cycle.
const SAMPLES: (usize, usize) = (8, 100_000);

/// Heat made in a volume that is strained to and fro: `q = pi f E'' ea²` (Ferry, Viscoelastic Properties of Polymers),
/// W/m³, from frequency (Hz), loss modulus (Pa) and strain amplitude.
pub fn hysteresis_heat(frequency: f64, loss_modulus: f64, strain_amplitude: f64) -> f64 {
    PI * frequency * loss_modulus * strain_amplitude * strain_amplitude
}

/// Loss compliance `J'' = tan d / (E' (1 + tan² d))`, 1/Pa, from storage modulus (Pa) and loss factor.
///
/// A part of an engine feels given stress, not given strain: with `ea = sa / |E*|` Ferry's heat is `pi f J'' sa²`.
pub fn loss_compliance(storage_modulus: f64, loss_factor: f64) -> f64 {
    loss_factor / (storage_modulus * (1.0 + loss_factor * loss_factor))
}

/// One harmonic of a periodic history, cosine and sine amplitude.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Harmonic {
    /// Amplitude of the cosine.
    pub cosine: f64,
    /// Amplitude of the sine.
    pub sine: f64,
}

/// Splits histories of one cycle, sampled at equal steps, into harmonics.
#[derive(Debug, Clone, PartialEq)]
pub struct Harmonics {
    /// Cosine and sine of each sample's angle in the cycle.
    turns: Vec<[f64; 2]>,
    count: usize,
}

impl Harmonics {
    /// For a number of samples a cycle and the number of harmonics wanted, the first being once a cycle; fewer than half
    /// the samples.
    ///
    /// Three dozen hold all but a few hundred-thousandths of the loop strength of a spark engine's pressure cycle.
    pub fn new(samples: usize, count: usize) -> Result<Self, HeatError> {
        HeatError::count("samples a cycle", samples, SAMPLES.0, SAMPLES.1)?;
        HeatError::count("harmonics", count, 1, (samples - 1) / 2)?;
        let step = TAU / samples as f64;
        let turns = (0..samples).map(|i| step * i as f64).map(|angle| [libm::cos(angle), libm::sin(angle)]).collect();
        Ok(Self { turns, count })
    }

    /// How many harmonics.
    pub fn count(&self) -> usize {
        self.count
    }

    /// Harmonics of a history; `None` unless it has the number of samples this was made for.
    pub fn of(&self, history: &[f64]) -> Option<Vec<Harmonic>> {
        let mut found = vec![Harmonic::default(); self.count];
        self.fill(history, &mut found).then_some(found)
    }

    /// As [`Self::of`], into room that is already there; false unless both lengths are right.
    pub fn fill(&self, history: &[f64], found: &mut [Harmonic]) -> bool {
        let samples = self.turns.len();
        if history.len() != samples || found.len() != self.count {
            return false;
        }
        let scale = 2.0 / samples as f64;
        for (index, harmonic) in found.iter_mut().enumerate() {
            let order = index + 1;
            let (mut cosine, mut sine) = (0.0, 0.0);
            let mut turn = 0;
            for &value in history {
                cosine += value * self.turns[turn][0];
                sine += value * self.turns[turn][1];
                turn += order;
                if turn >= samples {
                    turn -= samples;
                }
            }
            *harmonic = Harmonic { cosine: scale * cosine, sine: scale * sine };
        }
        true
    }
}

impl Harmonics {
    /// Value at a sample that harmonics add up to, without the mean.
    pub(super) fn sum(&self, harmonics: &[Harmonic], sample: usize) -> f64 {
        let samples = self.turns.len();
        let mut turn = 0;
        let mut sum = 0.0;
        for harmonic in harmonics {
            turn = (turn + sample) % samples;
            sum += harmonic.cosine * self.turns[turn][0] + harmonic.sine * self.turns[turn][1];
        }
        sum
    }
}

/// Loop strength `pi sum of n (a_n b_n + a'_n b'_n)` of two histories a and b over the harmonics n.
///
/// Of a stress with itself, times the loss compliance: energy that a volume turns into heat in one cycle. With the loss
/// compliance alike at all harmonics, each loses `pi J'' s_n²` for every one of its n turns a cycle.
pub fn loop_strength(a: &[Harmonic], b: &[Harmonic]) -> f64 {
    let products = a.iter().zip(b).enumerate();
    PI * products.map(|(index, (a, b))| (index + 1) as f64 * (a.cosine * b.cosine + a.sine * b.sine)).sum::<f64>()
}

/// Loop strength of a section at any speed, integrated over its area, N².
///
/// Forces are those of the gas plus speed squared times those of inertia at 1 rad/s, so their loop strength is a
/// quadratic in the speed squared. Over a cut, `integral of s_n² dA = N_n²/A + M_n²/I` for each principal axis.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct SectionLoop {
    gas: f64,
    mixed: f64,
    inertia: f64,
}

impl SectionLoop {
    /// Adds one force or moment by its harmonics from gas and from inertia at 1 rad/s, over the section property that
    /// carries it: the area (m²) for axial force (N), the second moment (m⁴) for a bending moment (N m).
    #[must_use]
    pub fn with(self, gas: &[Harmonic], inertia: &[Harmonic], property: f64) -> Self {
        Self {
            gas: self.gas + loop_strength(gas, gas) / property,
            mixed: self.mixed + 2.0 * loop_strength(gas, inertia) / property,
            inertia: self.inertia + loop_strength(inertia, inertia) / property,
        }
    }

    /// Loop strength at an angular speed of the crank (rad/s), N²/m².
    pub fn at(&self, angular_speed: f64) -> f64 {
        let squared = angular_speed * angular_speed;
        self.gas + squared * (self.mixed + squared * self.inertia)
    }

    /// Heat per length, W/m, at an angular speed, a frequency of cycles (Hz) and a loss compliance (1/Pa).
    pub fn heat_per_length(&self, angular_speed: f64, cycle_frequency: f64, loss_compliance: f64) -> f64 {
        cycle_frequency * loss_compliance * self.at(angular_speed)
    }
}

use super::card::Creep;

/// Temperature at which the numbers of a card hold, K.
pub const REFERENCE_TEMPERATURE: f64 = crate::units::ROOM_K;

/// Constants of creep, in SI units; the same at every temperature.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CreepState {
    /// Zhurkov's attempt time, s.
    pub attempt_time: f64,
    /// Zhurkov's activation energy, J/mol.
    pub activation_energy: f64,
    /// Time to failure of a short-term test, s.
    pub short_test: f64,
    /// Findley's strain scale along the beads.
    pub strain_scale: f64,
    /// Findley's stress scale along the beads, Pa.
    pub stress_scale: f64,
    /// Findley's time exponent.
    pub time_exponent: f64,
    /// Activation energy of the time-temperature shift, J/mol.
    pub shift_energy: f64,
    /// Temperature at which the strain scale holds, K.
    pub reference_temperature: f64,
}

impl Creep {
    /// The constants in SI units.
    pub fn in_si(&self) -> CreepState {
        CreepState {
            attempt_time: self.attempt_time_s.value,
            activation_energy: self.activation_energy_kj_mol.value * 1e3,
            short_test: self.short_test_s.value,
            strain_scale: self.strain_scale.value,
            stress_scale: self.stress_scale_mpa.value * 1e6,
            time_exponent: self.time_exponent.value,
            shift_energy: self.shift_energy_kj_mol.value * 1e3,
            reference_temperature: REFERENCE_TEMPERATURE,
        }
    }
}

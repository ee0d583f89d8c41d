use std::f64::consts::PI;

use super::crank::SliderCrank;
use super::error::CylinderError;

/// A cylinder with its crank: bore, swept and enclosed volume.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Cylinder {
    crank: SliderCrank,
    bore_m: f64,
    compression_ratio: f64,
}

impl Cylinder {
    /// A cylinder of the given bore and geometric compression ratio (largest over smallest volume, above 1).
    pub fn new(crank: SliderCrank, bore_m: f64, compression_ratio: f64) -> Result<Self, CylinderError> {
        if !(bore_m.is_finite() && bore_m > 0.0) {
            return Err(CylinderError::Bore { value_m: bore_m });
        }
        if !(compression_ratio.is_finite() && compression_ratio > 1.0) {
            return Err(CylinderError::CompressionRatio { value: compression_ratio });
        }
        Ok(Self { crank, bore_m, compression_ratio })
    }

    /// The crank that moves the piston.
    pub fn crank(&self) -> &SliderCrank {
        &self.crank
    }

    /// Bore diameter.
    pub fn bore_m(&self) -> f64 {
        self.bore_m
    }

    /// Largest over smallest enclosed volume.
    pub fn compression_ratio(&self) -> f64 {
        self.compression_ratio
    }

    /// Area that the gas pushes on.
    pub fn piston_area_m2(&self) -> f64 {
        PI / 4.0 * self.bore_m * self.bore_m
    }

    /// Swept volume: piston area times stroke.
    pub fn displacement_m3(&self) -> f64 {
        self.piston_area_m2() * self.crank.stroke_m()
    }

    /// Volume left above the piston at its top position: displacement / (compression ratio - 1).
    pub fn clearance_volume_m3(&self) -> f64 {
        self.displacement_m3() / (self.compression_ratio - 1.0)
    }

    /// Enclosed volume at a crank angle.
    pub fn volume_m3(&self, crank_angle_rad: f64) -> f64 {
        let drop_m = self.crank.top_position_m() - self.crank.piston_position_m(crank_angle_rad);
        self.clearance_volume_m3() + self.piston_area_m2() * drop_m
    }

    /// Change of the enclosed volume per radian of crank.
    pub fn volume_rate_m3(&self, crank_angle_rad: f64) -> f64 {
        -self.piston_area_m2() * self.crank.piston_travel_rate_m(crank_angle_rad)
    }

    /// Mean piston speed: two strokes a turn.
    pub fn mean_piston_speed_m_s(&self, angular_speed_rad_s: f64) -> f64 {
        self.crank.stroke_m() * angular_speed_rad_s / PI
    }
}

//! What a piston was built from, to hold a recognised one against.

use core::f64::consts::PI;

use layload_core::part::Piston;
use nalgebra::{Isometry3, Point3, Vector3};
use serde_json::Value;

use crate::mesh::files::{number, triple};

/// Positions must be within this, mm. (Asked of the program.)
const POSITION_MM: f64 = 0.05;

/// Diameters must be within this and the sagitta of the facets, mm. (Asked of the program.)
const DIAMETER_MM: f64 = 0.1;

/// Over the piston's length this angle shifts a point by the distance allowed, rad.
const ANGLE: f64 = POSITION_MM / 29.0;

/// A piston as it was built.
#[derive(Debug, Clone)]
pub(super) struct PistonTruth {
    value: Value,
    crown: Vector3<f64>,
    pin: Vector3<f64>,
    center: Point3<f64>,
}

impl PistonTruth {
    pub(super) fn of(value: &Value) -> Self {
        Self {
            crown: triple(&value["crown_direction"]).into(),
            pin: triple(&value["pin_axis"]).into(),
            center: triple(&value["pin_center_mm"]).into(),
            value: value.clone(),
        }
    }

    /// The same piston after a motion given in mm.
    pub(super) fn moved(mut self, motion: &Isometry3<f64>) -> Self {
        self.crown = motion * self.crown;
        self.pin = motion * self.pin;
        self.center = motion * self.center;
        self
    }

    /// Says what is wrong with a recognised piston; empty when nothing is.
    pub(super) fn faults(&self, piston: &Piston) -> Vec<String> {
        let mut faults = Vec::new();
        let mut hold = |what: &str, found: f64, truth: f64, within: f64| {
            let off = (found - truth).abs();
            if off.is_nan() || off > within {
                faults.push(format!("{what} {found}, built with {truth}"));
            }
        };
        let built = |name: &str| number(&self.value[name]);
        let sagitta = |diameter: f64, corners: &str| diameter / 2.0 * (1.0 - libm::cos(PI / built(corners)));
        let frame = &piston.frame;
        let crown = frame.direction_to_file(&Vector3::x());
        hold("sine of crown direction", crown.cross(&self.crown).norm(), 0.0, ANGLE);
        hold("sense of crown direction", crown.dot(&self.crown), 1.0, 1e-3);
        let pin = frame.direction_to_file(&Vector3::z());
        hold("sine of pin axis", pin.cross(&self.pin).norm(), 0.0, ANGLE);
        let center = frame.to_file(&piston.pin_center()).coords * 1e3;
        hold("pin centre", (center - self.center.coords).norm(), 0.0, POSITION_MM);
        let diameter = built("skirt_diameter_mm");
        let reach = DIAMETER_MM + sagitta(diameter, "outer_segments");
        hold("skirt diameter", 2e3 * piston.skirt.radius, diameter, reach);
        hold("land diameter", 2e3 * piston.land_radius(), built("land_diameter_mm"), reach);
        let bore = built("pin_bore_diameter_mm");
        hold("pin bore", 2e3 * piston.pin.radius, bore, DIAMETER_MM + sagitta(bore, "pin_bore_segments"));
        hold("pin sagitta", 1e3 * piston.pin.sagitta, sagitta(bore, "pin_bore_segments"), 0.01);
        hold("compression height", 1e3 * piston.compression_height, built("compression_height_mm"), POSITION_MM);
        hold("length", 1e3 * piston.length(), built("length_mm"), POSITION_MM);
        hold("bosses", piston.pin.bosses.len() as f64, 2.0, 0.0);
        hold("gap", 1e3 * piston.pin.gap().unwrap_or(f64::NAN), built("boss_gap_mm"), POSITION_MM);
        for boss in &piston.pin.bosses {
            hold("boss length", 1e3 * (boss.to - boss.from), built("boss_length_mm"), POSITION_MM);
            // The chords of a bore are shorter than its arc by the square of the half angle over six.
            hold("bearing length", 1e3 * boss.bearing_length, built("boss_length_mm"), 0.1);
        }
        let grooves = self.value["grooves"].as_array().cloned().unwrap_or_default();
        hold("grooves", piston.grooves.len() as f64, grooves.len() as f64, 0.0);
        for (found, truth) in piston.grooves.iter().zip(&grooves) {
            let below = 1e3 * (piston.compression_height - found.to);
            hold("groove below crown", below, number(&truth["below_crown_mm"]), POSITION_MM);
            hold("groove width", 1e3 * found.width(), number(&truth["width_mm"]), POSITION_MM);
            hold("groove depth", 1e3 * found.depth(), number(&truth["depth_mm"]), POSITION_MM);
        }
        faults
    }
}

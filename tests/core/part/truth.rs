//! What a test mesh was built from, to hold a recognised rod against.

use core::f64::consts::PI;

use layload_core::LengthUnit;
use layload_core::part::{Eye, Rod};
use nalgebra::{Isometry3, Point3, Vector3};
use serde_json::Value;

use crate::mesh::files::{number, triple};

/// Centre distance must be within this, mm. (Asked of the program.)
const DISTANCE_MM: f64 = 0.05;

/// Bore diameters must be within this and the sagitta of the facets, mm. (Asked of the program.)
const DIAMETER_MM: f64 = 0.1;

/// Axes must be within this, radians: over the 14 mm depth of an eye it shifts the centre by the distance allowed.
const AXIS: f64 = DISTANCE_MM / 14.0;

/// A rod as it was built.
#[derive(Debug, Clone)]
pub(super) struct Truth {
    distance_mm: f64,
    axis: Vector3<f64>,
    small: EndTruth,
    big: EndTruth,
}

#[derive(Debug, Clone)]
struct EndTruth {
    center_mm: Point3<f64>,
    diameter_mm: f64,
    corners: f64,
    depth_mm: f64,
}

impl Truth {
    pub(super) fn of(value: &Value) -> Self {
        let end = |name: &str| EndTruth {
            center_mm: triple(&value[format!("{name}_center_mm")]).into(),
            diameter_mm: number(&value[format!("{name}_bore_diameter_mm")]),
            corners: number(&value[format!("{name}_bore_segments")]),
            depth_mm: number(&value[format!("{name}_eye_depth_mm")]),
        };
        Self {
            distance_mm: number(&value["center_distance_mm"]),
            axis: triple(&value["pin_axis"]).into(),
            small: end("small"),
            big: end("big"),
        }
    }

    /// The same rod after a motion given in mm.
    pub(super) fn moved(mut self, motion: &Isometry3<f64>) -> Self {
        self.axis = motion * self.axis;
        for end in [&mut self.small, &mut self.big] {
            end.center_mm = motion * end.center_mm;
        }
        self
    }

    /// Says what is wrong with a recognised rod, in words; empty when nothing is.
    pub(super) fn faults(&self, rod: &Rod) -> Vec<String> {
        let mut faults = Vec::new();
        let distance = rod.center_distance * 1e3;
        if !within(distance, self.distance_mm, DISTANCE_MM) {
            faults.push(format!("centre distance {distance} mm, built with {}", self.distance_mm));
        }
        if !within(rod.parallelism, 0.0, AXIS) {
            faults.push(format!("bores {} rad out of parallel", rod.parallelism));
        }
        for (name, truth, eye) in [("small end", &self.small, &rod.small_end), ("big end", &self.big, &rod.big_end)] {
            faults.extend(truth.faults(eye, &self.axis).into_iter().map(|fault| format!("{name}: {fault}")));
        }
        faults
    }
}

impl EndTruth {
    fn faults(&self, eye: &Eye, axis: &Vector3<f64>) -> Vec<String> {
        let mut faults = Vec::new();
        let diameter = eye.bore.diameter() * 1e3;
        let sagitta = self.diameter_mm / 2.0 * (1.0 - libm::cos(PI / self.corners));
        if !within(diameter, self.diameter_mm, DIAMETER_MM + sagitta) {
            faults.push(format!("diameter {diameter} mm, built with {}", self.diameter_mm));
        }
        let apart = eye.bore.center.coords * 1e3 - self.center_mm.coords;
        let beside = apart - axis * axis.dot(&apart);
        if !within(beside.norm(), 0.0, DISTANCE_MM) {
            faults.push(format!("axis passes {} mm beside the centre", beside.norm()));
        }
        // The seat may take only part of the eye's depth, but it lies within it.
        let along = axis.dot(&apart).abs() + eye.depth() * 1e3 / 2.0;
        if along > self.depth_mm / 2.0 + DISTANCE_MM {
            faults.push(format!("seat reaches {along} mm from the middle of an eye {} mm deep", self.depth_mm));
        }
        if eye.depth() * 1e3 < 0.5 * self.depth_mm {
            faults.push(format!("seat is only {} mm deep", eye.depth() * 1e3));
        }
        if !within(eye.bore.axis.dot(axis).abs(), 1.0, AXIS * AXIS / 2.0) {
            faults.push(format!("axis {} instead of {axis}", eye.bore.axis));
        }
        // The sagitta said is that of the facets: none of the bores has wider ones than it was built with.
        let said = eye.bore.main().sagitta * 1e3;
        if !within(said, sagitta, 0.1 * sagitta) {
            faults.push(format!("says sagitta {said} mm, built with {sagitta}"));
        }
        faults
    }
}

/// Written so that NaN is outside.
fn within(value: f64, truth: f64, reach: f64) -> bool {
    (value - truth).abs() <= reach
}

/// Unit of a file by its truth.
pub(super) fn unit(value: &Value) -> LengthUnit {
    let mm = number(&value["file_unit_mm"]);
    [LengthUnit::Inch, LengthUnit::Metre]
        .into_iter()
        .find(|unit| within(unit.metres() * 1e3, mm, 1e-9))
        .unwrap_or(LengthUnit::Millimetre)
}

use core::f64::consts::PI;

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::error::JobError;

/// A printed cap, clamped to its rod by steel studs or bolts.
#[derive(Debug, Clone, Default, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, default)]
pub struct CapTable {
    /// How many studs; two when left out.
    pub studs: Option<u32>,
    /// Diameter of their thread, mm: 5 for M5.
    pub thread_mm: Option<f64>,
    /// Pitch of the thread, mm, where it is not the coarse one of ISO 261.
    pub pitch_mm: Option<f64>,
    /// Length of plastic that one stud squeezes, head to thread, mm.
    pub grip_mm: Option<f64>,
    /// Outside of head or washer, mm.
    pub head_mm: Option<f64>,
    /// Hole in the cap, mm.
    pub hole_mm: Option<f64>,
    /// Pull in each stud when tightened, N.
    pub preload_n: Option<f64>,
    /// Torque each stud is tightened with instead, N m.
    pub torque_n_m: Option<f64>,
}

/// A clamped cap in SI units.
#[derive(Debug, Clone, PartialEq)]
pub struct Cap {
    /// The studs in words.
    pub name: String,
    /// How many.
    pub studs: f64,
    /// Area of one that stretches, m².
    pub stress_area: f64,
    /// Length of one that stretches, m.
    pub stud_length: f64,
    /// Length of plastic squeezed, m.
    pub grip: f64,
    /// Area of plastic squeezed by one stud, m².
    pub squeezed: f64,
    /// Pull in one when tightened, N.
    pub preload: f64,
}

/// Thread diameter and coarse pitch, mm (ISO 261; memory).
const COARSE: [(f64, f64); 9] =
    [(2.5, 0.45), (3.0, 0.5), (4.0, 0.7), (5.0, 0.8), (6.0, 1.0), (8.0, 1.25), (10.0, 1.5), (12.0, 1.75), (16.0, 2.0)];

/// Torque over diameter and preload of an oiled to dry steel thread (Shigley's nut factor; common practice).
const NUT_FACTOR: f64 = 0.2;

/// Head over thread diameter, about that of a socket head screw (ISO 4762: 8.5 mm for M5; memory).
const HEAD: f64 = 1.7;

/// Hole over thread diameter (ISO 273, medium: 5.5 mm for M5; memory).
const HOLE: f64 = 1.1;

impl Cap {
    pub(super) fn resolve(table: &CapTable) -> Result<Self, JobError> {
        let needed = |what, given: Option<f64>, key: &str| {
            given.ok_or_else(|| JobError::Missing { what, key: format!("part.big_end.cap.{key}") })
        };
        // What goes with another number of the cap; the others were looked at before.
        let within = |what, value: f64, unit, (low, high): (f64, f64), key: &str| {
            let sound = (low..=high).contains(&value);
            let key = format!("part.big_end.cap.{key}");
            if sound { Ok(value) } else { Err(JobError::OutOfRange { what, value, unit, low, high, key, usual: None }) }
        };
        let studs = f64::from(table.studs.unwrap_or(2));
        let thread = needed("thread of the studs", table.thread_mm, "thread_mm")?;
        let coarse = COARSE.iter().find(|(diameter, _)| *diameter == thread).map(|known| known.1);
        let pitch = needed("pitch of the studs", table.pitch_mm.or(coarse), "pitch_mm")?;
        let pitch = within("pitch of the studs", pitch, "mm", (0.1, 0.5 * thread), "pitch_mm")?;
        let grip = needed("length the studs squeeze", table.grip_mm, "grip_mm")?;
        let hole = table.hole_mm.unwrap_or(HOLE * thread);
        let hole = within("hole in the cap", hole, "mm", (thread, 2.0 * thread), "hole_mm")?;
        let head = table.head_mm.unwrap_or(HEAD * thread);
        let head = within("head or washer of the studs", head, "mm", (hole + 0.1, 10.0 * thread), "head_mm")?;
        let preload = match (table.preload_n, table.torque_n_m) {
            (Some(_), Some(_)) => return Err(JobError::Both { first: "cap.preload_n", second: "cap.torque_n_m" }),
            (Some(newtons), None) => newtons,
            (None, Some(torque)) => torque / (NUT_FACTOR * thread * 1e-3),
            (None, None) => needed("preload of the studs, or their torque,", None, "preload_n")?,
        };
        let preload = within("preload of a stud", preload, "N", (1.0, 1e6), "preload_n")?;
        // ISO 898-1: pi/4 (d - 0.9382 P)², mm².
        let stress_area = 0.25 * PI * (thread - 0.9382 * pitch) * (thread - 0.9382 * pitch) * 1e-6;
        Ok(Self {
            name: format!("{studs:.0} studs M{thread} tightened to {preload:.0} N each"),
            studs,
            stress_area,
            // About half a diameter of head and of engaged thread stretch with the rest (VDI 2230; memory).
            stud_length: (grip + thread) * 1e-3,
            grip: grip * 1e-3,
            squeezed: 0.25 * PI * (head * head - hole * hole) * 1e-6,
            preload,
        })
    }
}

use super::cylinder::Cylinder;
use super::error::PressureError;
use super::exchange::Strokes;
use crate::engine::table;

/// Samples a cycle that serve every purpose here: one a degree for a four-stroke.
pub const DEFAULT_SAMPLES: usize = 720;

/// Most samples a cycle.
pub const SAMPLE_LIMIT: usize = 72_000;

/// Fewest samples that show a combustion peak at all.
const FEWEST_SAMPLES: usize = 36;

/// Absolute gas pressure at equal crank steps over one cycle, the first at the firing top dead centre.
#[derive(Debug, Clone, PartialEq)]
pub struct PressureTrace {
    strokes: Strokes,
    samples_pa: Vec<f64>,
}

/// The highest sample of a [`PressureTrace`].
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Peak {
    /// Absolute pressure.
    pub pressure_pa: f64,
    /// Where it lies, from minus half a cycle to half a cycle about the firing top dead centre.
    pub angle_rad: f64,
}

impl PressureTrace {
    /// A trace from its samples: finite, above zero, 36 to [`SAMPLE_LIMIT`] of them.
    pub fn new(strokes: Strokes, samples_pa: Vec<f64>) -> Result<Self, PressureError> {
        Self::check_count(samples_pa.len())?;
        for (index, &value_pa) in samples_pa.iter().enumerate() {
            if !(value_pa.is_finite() && value_pa > 0.0) {
                return Err(PressureError::BadSample { index, value_pa });
            }
        }
        Ok(Self { strokes, samples_pa })
    }

    /// Reads rows of crank angle in degrees and absolute pressure in bar, and samples them at equal steps.
    ///
    /// A comma, a semicolon or a tab parts the two fields; one heading row may come first; empty lines and lines
    /// that begin with `#` are skipped. Angles rise strictly, count from the firing top dead centre and may be
    /// negative; together the rows cover one cycle without a gap of more than ten degrees, round its end included.
    /// A last row exactly one cycle after the first closes the curve: it may differ from the first by a tenth, and
    /// the mean of the two is taken. Between rows the pressure is linear.
    pub fn from_csv(text: &str, strokes: Strokes, samples: usize) -> Result<Self, PressureError> {
        Self::check_count(samples)?;
        let table = table::Table::read(text, strokes)?;
        let step_deg = strokes.cycle_deg() / samples as f64;
        let trace = Self::new(strokes, (0..samples).map(|i| 1e5 * table.bar_at(i as f64 * step_deg)).collect())?;
        let angle_deg = trace.peak().angle_rad.to_degrees();
        // Compression alone peaks a little before the top, combustion at the latest in mid expansion.
        if !(-40.0..=90.0).contains(&angle_deg) {
            return Err(PressureError::PeakMisplaced { angle_deg });
        }
        Ok(trace)
    }

    /// The trace as the table that [`Self::from_csv`] reads, heading row included.
    pub fn to_csv(&self) -> String {
        table::write(self)
    }

    /// Two-stroke or four-stroke.
    pub fn strokes(&self) -> Strokes {
        self.strokes
    }

    /// The pressures, the first at the firing top dead centre.
    pub fn samples_pa(&self) -> &[f64] {
        &self.samples_pa
    }

    /// Crank angle between samples.
    pub fn step_rad(&self) -> f64 {
        self.strokes.cycle_rad() / self.samples_pa.len() as f64
    }

    /// Crank angle of a sample.
    pub fn angle_rad(&self, index: usize) -> f64 {
        index as f64 * self.step_rad()
    }

    /// Pressure at any crank angle, linear between samples and repeating every cycle. NaN for an angle that is not
    /// finite.
    pub fn pressure_at_pa(&self, crank_angle_rad: f64) -> f64 {
        if !crank_angle_rad.is_finite() {
            return f64::NAN;
        }
        let count = self.samples_pa.len();
        let place = crank_angle_rad.rem_euclid(self.strokes.cycle_rad()) / self.step_rad();
        let below = (place.floor() as usize).min(count - 1);
        let along = place - below as f64;
        let (left, right) = (self.samples_pa[below], self.samples_pa[(below + 1) % count]);
        left + along * (right - left)
    }

    /// The highest sample; the first of equal ones.
    pub fn peak(&self) -> Peak {
        let mut best = (0, self.samples_pa[0]);
        for (index, &value) in self.samples_pa.iter().enumerate() {
            if value > best.1 {
                best = (index, value);
            }
        }
        let angle = self.angle_rad(best.0);
        let cycle = self.strokes.cycle_rad();
        Peak { pressure_pa: best.1, angle_rad: if angle > 0.5 * cycle { angle - cycle } else { angle } }
    }

    /// The same cycle with its peak so many times as high: what the gas has over the pressure `under` the piston (Pa) grows in
    /// proportion, what it has below stays.
    #[must_use]
    pub(crate) fn raised(&self, times: f64, under: f64) -> Self {
        let peak = self.peak().pressure_pa;
        if times == 1.0 || peak <= under {
            return self.clone();
        }
        let more = (times - 1.0) * peak / (peak - under);
        let samples_pa = self.samples_pa.iter().map(|&p| p + more * (p - under).max(0.0)).collect();
        Self { samples_pa, ..*self }
    }

    /// Net work of the gas on the piston over one cycle, the closed integral of p dV by the trapezoidal rule.
    pub fn indicated_work_j(&self, cylinder: &Cylinder) -> f64 {
        let count = self.samples_pa.len();
        let mut before = cylinder.volume_m3(0.0);
        let mut work_j = 0.0;
        for index in 0..count {
            let after = cylinder.volume_m3(self.angle_rad(index + 1));
            let mean_pa = 0.5 * (self.samples_pa[index] + self.samples_pa[(index + 1) % count]);
            work_j += mean_pa * (after - before);
            before = after;
        }
        work_j
    }

    /// Indicated mean effective pressure: work over displacement.
    pub fn mean_effective_pressure_pa(&self, cylinder: &Cylinder) -> f64 {
        self.indicated_work_j(cylinder) / cylinder.displacement_m3()
    }

    pub(super) fn check_count(count: usize) -> Result<(), PressureError> {
        if (FEWEST_SAMPLES..=SAMPLE_LIMIT).contains(&count) {
            Ok(())
        } else {
            Err(PressureError::SampleCount { count, least: FEWEST_SAMPLES, most: SAMPLE_LIMIT })
        }
    }
}

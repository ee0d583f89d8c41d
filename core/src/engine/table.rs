//! The text table of a pressure trace.

use std::fmt::Write;

use super::error::PressureError;
use super::exchange::Strokes;
use super::pressure::PressureTrace;

/// More rows than any measured cycle; guards memory.
const ROW_LIMIT: usize = 1_000_000;

/// Widest stretch of crank that may be bridged by a straight line.
const GAP_LIMIT_DEG: f64 = 10.0;

/// Crank angles beyond this are a slip, not a matter of where counting begins.
const ANGLE_LIMIT_DEG: f64 = 1440.0;

/// Closing rows differ from exactly one cycle by no more than the rounding of a written angle.
const CLOSING_TOLERANCE_DEG: f64 = 1e-6;

/// Share by which the closing row may differ from the first: what cycle-to-cycle noise leaves.
const CLOSING_SHARE: f64 = 0.1;

/// One cycle of rows, checked.
pub(super) struct Table {
    cycle_deg: f64,
    /// Rising, all within one cycle of the first.
    rows: Vec<TableRow>,
}

#[derive(Clone, Copy)]
struct TableRow {
    line: usize,
    angle_deg: f64,
    bar: f64,
}

impl Table {
    pub(super) fn read(text: &str, strokes: Strokes) -> Result<Self, PressureError> {
        let cycle_deg = strokes.cycle_deg();
        let mut rows: Vec<TableRow> = Vec::new();
        let mut may_be_heading = true;
        for (index, content) in text.trim_start_matches('\u{feff}').lines().enumerate() {
            let content = content.trim();
            if content.is_empty() || content.starts_with('#') {
                continue;
            }
            let row = match read_row(content, index + 1) {
                Err(PressureError::NotANumber { .. }) if may_be_heading && is_heading(content) => {
                    may_be_heading = false;
                    if let Some(what) = other_columns(content) {
                        return Err(PressureError::Heading { line: index + 1, what });
                    }
                    continue;
                }
                other => other?,
            };
            may_be_heading = false;
            if rows.len() == ROW_LIMIT {
                return Err(PressureError::TooManyRows { line: row.line, limit: ROW_LIMIT });
            }
            if let (Some(first), Some(before)) = (rows.first(), rows.last()) {
                follows(*first, *before, row, cycle_deg)?;
            }
            rows.push(row);
        }
        close(&mut rows, cycle_deg)?;
        Ok(Self { cycle_deg, rows })
    }

    /// Pressure in bar at any angle of the cycle, linear between rows.
    pub(super) fn bar_at(&self, angle_deg: f64) -> f64 {
        let first = self.rows[0];
        let angle = first.angle_deg + (angle_deg - first.angle_deg).rem_euclid(self.cycle_deg);
        let after = self.rows.partition_point(|row| row.angle_deg <= angle).max(1);
        let left = self.rows[after - 1];
        let right = match self.rows.get(after) {
            Some(row) => *row,
            None => TableRow { angle_deg: first.angle_deg + self.cycle_deg, ..first },
        };
        let along = (angle - left.angle_deg) / (right.angle_deg - left.angle_deg);
        left.bar + along.clamp(0.0, 1.0) * (right.bar - left.bar)
    }
}

/// A heading names both columns: no field of it is a number.
fn is_heading(content: &str) -> bool {
    fields(content).all(|field| field.parse::<f64>().is_err())
}

/// What a heading names that the columns are not.
fn other_columns(content: &str) -> Option<&'static str> {
    let names: Vec<String> = fields(content).map(str::to_lowercase).collect();
    let [first, second] = names.as_slice() else { return None };
    let has = |name: &str, words: &[&str]| words.iter().any(|word| name.contains(word));
    let unit = |name: &str, unit: &str| name.split(|c: char| !c.is_ascii_alphanumeric()).any(|word| word == unit);
    if has(first, &["press", "bar"]) && has(second, &["angle", "deg", "crank"]) {
        return Some("pressure first and crank angle second");
    }
    if unit(first, "rad") || has(first, &["radian"]) {
        return Some("crank angle in radians");
    }
    if has(first, &["time"]) || unit(first, "s") || unit(first, "ms") {
        return Some("time instead of crank angle");
    }
    let units = [
        ("mbar", "pressure in mbar"),
        ("kpa", "pressure in kPa"),
        ("mpa", "pressure in MPa"),
        ("pa", "pressure in Pa"),
        ("psi", "pressure in psi"),
    ];
    if let Some((_, what)) = units.iter().find(|(name, _)| unit(second, name)) {
        return Some(what);
    }
    let angle = has(first, &["angle", "deg", "crank", "°"]) || unit(first, "ca");
    let pressure = has(second, &["press", "bar"]) || unit(second, "p");
    (!(angle && pressure)).then_some("columns that are not known here")
}

fn fields(content: &str) -> impl Iterator<Item = &str> {
    content.split([',', ';', '\t']).map(str::trim)
}

fn read_row(content: &str, line: usize) -> Result<TableRow, PressureError> {
    let mut numbers = [0.0_f64; 2];
    let found = fields(content).count();
    let bytes = content.as_bytes();
    let digit = |at: usize| bytes.get(at).is_some_and(u8::is_ascii_digit);
    let within_a_number = |at: usize| at > 0 && bytes[at] == b',' && digit(at - 1) && digit(at + 1);
    if content.contains([';', '\t']) && (0..bytes.len()).any(within_a_number) {
        return Err(PressureError::DecimalComma { line });
    }
    if found != 2 {
        return Err(PressureError::FieldCount { line, found });
    }
    for (number, field) in numbers.iter_mut().zip(fields(content)) {
        *number =
            field.parse().map_err(|_| PressureError::NotANumber { line, text: field.chars().take(40).collect() })?;
    }
    let [angle_deg, bar] = numbers;
    if !(angle_deg.is_finite() && angle_deg.abs() <= ANGLE_LIMIT_DEG) {
        return Err(PressureError::AngleRange { line, angle_deg });
    }
    if !(bar.is_finite() && bar > 0.0) {
        return Err(PressureError::PressureRange { line, pressure_bar: bar });
    }
    Ok(TableRow { line, angle_deg, bar })
}

/// Checks a row against the one before and the first.
fn follows(first: TableRow, before: TableRow, row: TableRow, cycle_deg: f64) -> Result<(), PressureError> {
    if row.angle_deg <= before.angle_deg {
        return Err(PressureError::NotRising {
            line: row.line,
            angle_deg: row.angle_deg,
            before_deg: before.angle_deg,
        });
    }
    let span_deg = row.angle_deg - first.angle_deg;
    if span_deg > cycle_deg + CLOSING_TOLERANCE_DEG {
        return Err(PressureError::TooLong { line: row.line, span_deg, cycle_deg });
    }
    gap(row.line, row.angle_deg - before.angle_deg)
}

fn gap(line: usize, gap_deg: f64) -> Result<(), PressureError> {
    // A written angle is rounded; a gap of exactly the limit must pass.
    if gap_deg > GAP_LIMIT_DEG + CLOSING_TOLERANCE_DEG {
        return Err(PressureError::Gap { line, gap_deg, limit_deg: GAP_LIMIT_DEG });
    }
    Ok(())
}

/// Joins the end of the cycle to its beginning.
fn close(rows: &mut Vec<TableRow>, cycle_deg: f64) -> Result<(), PressureError> {
    let (Some(first), Some(last)) = (rows.first().copied(), rows.last().copied()) else {
        return Err(PressureError::EmptyTable);
    };
    let rest_deg = cycle_deg - (last.angle_deg - first.angle_deg);
    if rest_deg.abs() > CLOSING_TOLERANCE_DEG {
        return gap(first.line, rest_deg);
    }
    if (last.bar - first.bar).abs() > CLOSING_SHARE * first.bar.max(last.bar) {
        return Err(PressureError::NotClosed { line: last.line, last_bar: last.bar, first_bar: first.bar });
    }
    rows.pop();
    rows[0].bar = 0.5 * (first.bar + last.bar);
    Ok(())
}

pub(super) fn write(trace: &PressureTrace) -> String {
    let mut text = String::from("crank_angle_deg,pressure_bar\n");
    let step_deg = trace.strokes().cycle_deg() / trace.samples_pa().len() as f64;
    for (index, pressure_pa) in trace.samples_pa().iter().enumerate() {
        // Writing to a string does not fail.
        let _ = writeln!(text, "{},{}", index as f64 * step_deg, pressure_pa / 1e5);
    }
    text
}

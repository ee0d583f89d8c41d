use core::f64::consts::PI;

/// A straight bar pushed at its ends.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Column {
    /// Length between the ends, m.
    pub length: f64,
    /// Effective length over length: 1 for pinned ends, 0.5 for ends held against turning.
    pub end_fixity: f64,
    /// Bending stiffness E I, N m².
    pub bending_stiffness: f64,
    /// Compression strength times area, N.
    pub crush_load: f64,
}

/// Load at which a column gives way, N: Euler for slender ones, Johnson's parabola for stout ones, joined where they
/// touch at half the crush load (Shigley's Mechanical Engineering Design, columns).
pub fn critical_load(column: &Column) -> f64 {
    let effective = column.length * column.end_fixity;
    let euler = PI * PI * column.bending_stiffness / (effective * effective);
    if euler <= column.crush_load / 2.0 { euler } else { column.crush_load * (1.0 - column.crush_load / (4.0 * euler)) }
}

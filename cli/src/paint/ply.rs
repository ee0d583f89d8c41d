use std::io::{self, Write};

use super::{BadEnd, PaintError, PaintedMesh, Quantity, words};
use crate::plot::ticks::rounded;

/// Bytes of a point: three coordinates.
const POINT_BYTES: usize = 12;

/// Bytes of a facet: count, three corners, colour, value, mark.
const FACET_BYTES: usize = 1 + 12 + 3 + 4 + 1;

/// Value of facets that were not measured, beside `measured` 0: no value of use is negative.
const NO_VALUE: f32 = -1.0;

/// Bytes of a binary little-endian PLY file with colour and value on every facet.
///
/// Facets that were not measured have `measured` 0, the grey, and the value -1.
pub fn ply(mesh: &PaintedMesh<'_>) -> Result<Vec<u8>, PaintError> {
    let facets = mesh.painted().count();
    let mut out = Vec::with_capacity(4096 + mesh.points().len() * POINT_BYTES + facets * FACET_BYTES);
    header(&mut out, mesh, facets)?;
    for coordinate in mesh.points().iter().flatten() {
        out.write_all(&coordinate.to_le_bytes())?;
    }
    for (corners, painted) in mesh.painted() {
        out.write_all(&[3])?;
        for corner in corners {
            out.write_all(&corner.to_le_bytes())?;
        }
        out.write_all(&mesh.color(painted.map(|(_, step)| step)))?;
        out.write_all(&painted.map_or(NO_VALUE, |(value, _)| value).to_le_bytes())?;
        out.write_all(&[u8::from(painted.is_some())])?;
    }
    Ok(out)
}

fn header(out: &mut impl Write, mesh: &PaintedMesh<'_>, facets: usize) -> io::Result<()> {
    writeln!(out, "ply\nformat binary_little_endian 1.0")?;
    for comment in comments(mesh.quantity()) {
        writeln!(out, "comment {}", ascii(&comment))?;
    }
    writeln!(out, "element vertex {}", mesh.points().len())?;
    writeln!(out, "property float x\nproperty float y\nproperty float z")?;
    writeln!(out, "element face {facets}")?;
    writeln!(out, "property list uchar uint vertex_indices")?;
    writeln!(out, "property uchar red\nproperty uchar green\nproperty uchar blue")?;
    writeln!(out, "property float value\nproperty uchar measured")?;
    writeln!(out, "end_header")
}

fn comments(quantity: &Quantity) -> Vec<String> {
    let number = |value: f64| rounded(value, quantity.high() - quantity.low());
    let bad_end = match quantity.bad_end() {
        BadEnd::Low => "low",
        BadEnd::High => "high",
    };
    let mut lines = vec![
        "coordinates: mm".into(),
        format!("quantity: {}", quantity.title()),
        // A plain ratio has the unit one.
        format!("unit: {}", if quantity.unit().is_empty() { "1" } else { quantity.unit() }),
        format!("range: {} to {}", number(quantity.low()), number(quantity.high())),
        format!("bad end: {bad_end}"),
    ];
    lines.extend(quantity.limit().map(|limit| format!("limit: {}", number(limit))));
    lines.extend(words::sentences(quantity).into_iter().map(|sentence| format!("legend: {sentence}")));
    lines.push("legend: where measured is 0 there is no value; it is written as -1.".into());
    lines
}

/// The header is ASCII: other characters are written as Rust writes them in text, `\u{b0}` for the degree sign.
fn ascii(text: &str) -> String {
    text.chars()
        .map(|letter| if letter.is_ascii() { letter.to_string() } else { letter.escape_unicode().to_string() })
        .collect()
}

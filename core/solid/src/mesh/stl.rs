//! Reading of binary and ASCII STL.
//!
//! The reader is our own because it is stricter about damaged binary files and more lenient about ASCII spacing,
//! letter case and several solids in one file than the general crate `stl_io`, against which the tests compare it.

use super::error::MeshError;
use crate::input::FileKind;

/// Facets in a binary file of 2 GiB; checking so many takes 6 GB.
const FACET_LIMIT: u64 = (1 << 31) / RECORD as u64;

/// Coordinates beyond this (in file units) are damage, not size.
const COORDINATE_LIMIT: f32 = 1e7;

const HEADER: usize = 84;
const RECORD: usize = 50;

/// The three corners of a facet in file units.
pub(super) type StlCorners = [[f32; 3]; 3];

/// Facets in file order, still unconnected.
pub(super) enum Soup<'bytes> {
    /// Records of a binary file, read in place.
    Binary(&'bytes [u8]),
    /// Facets of an ASCII file, and where their corners are counted from, in file units: text of a part that was drawn far away
    /// holds more digits than single precision keeps.
    Ascii(Vec<StlCorners>, [f64; 3]),
    /// Corners that a program has in memory, numbered.
    Numbered(Triangles<'bytes>),
}

/// A surface as a program holds it: points and, for each triangle, the numbers of its three corners, counter-clockwise seen
/// from outside.
#[derive(Debug, Clone, Copy)]
pub struct Triangles<'a> {
    /// x, y and z of every point, in the unit of the mesh. They are rounded to single precision, as in an STL.
    pub points: &'a [[f64; 3]],
    /// Numbers of points, from 0.
    pub corners: &'a [[u32; 3]],
}

impl Triangles<'_> {
    fn corners(&self, facet: usize) -> Result<StlCorners, MeshError> {
        let mut corners = StlCorners::default();
        for (corner, &point) in corners.iter_mut().zip(&self.corners[facet]) {
            let found = self.points.get(point as usize).ok_or(MeshError::NoSuchPoint { facet, point })?;
            *corner = found.map(|c| c as f32);
        }
        Ok(corners)
    }
}

impl<'bytes> Soup<'bytes> {
    /// Recognises the kind of STL and checks that what it announces is there.
    pub(super) fn read(bytes: &'bytes [u8]) -> Result<Self, MeshError> {
        if bytes.iter().all(u8::is_ascii_whitespace) {
            return Err(MeshError::Empty);
        }
        let other = FileKind::of(bytes).filter(|kind| !matches!(kind, FileKind::BinaryStl | FileKind::AsciiStl));
        if let Some(kind) = other.filter(|_| !starts_as_ascii(bytes)) {
            return Err(MeshError::OtherKind { kind });
        }
        if let Some(announced) = announced_facets(bytes) {
            let present = ((bytes.len() - HEADER) / RECORD) as u64;
            let looks_ascii = starts_as_ascii(bytes);
            if announced == 0 && bytes.len() == HEADER {
                return Err(MeshError::Empty);
            }
            // A text file read as binary announces some absurd count, so its length does not fit.
            if present >= announced && announced > 0 && !(looks_ascii && present != announced) {
                if announced > FACET_LIMIT {
                    return Err(MeshError::TooMany { count: announced, limit: FACET_LIMIT });
                }
                let end = HEADER + announced as usize * RECORD;
                return Ok(Self::Binary(&bytes[HEADER..end]));
            }
            // No text holds a zero byte; a binary file has them in the upper half of its facet count at the latest.
            let binary = if looks_ascii {
                bytes.contains(&0)
            } else {
                !bytes.iter().take(HEADER).all(|b| b.is_ascii_graphic() || b.is_ascii_whitespace())
            };
            if binary {
                return Err(MeshError::Truncated { announced, present });
            }
            if !looks_ascii {
                return Err(MeshError::NotStl);
            }
        } else if !starts_as_ascii(bytes) {
            return Err(MeshError::NotStl);
        }
        read_ascii(bytes).map(|(facets, origin)| Self::Ascii(facets, origin))
    }

    /// The same of a surface in memory.
    pub(super) fn numbered(triangles: Triangles<'bytes>) -> Result<Self, MeshError> {
        let count = triangles.corners.len() as u64;
        if count == 0 {
            return Err(MeshError::Empty);
        }
        if count > FACET_LIMIT {
            return Err(MeshError::TooMany { count, limit: FACET_LIMIT });
        }
        Ok(Self::Numbered(triangles))
    }

    /// Number of facets.
    pub(super) fn len(&self) -> usize {
        match self {
            Self::Binary(records) => records.len() / RECORD,
            Self::Ascii(facets, _) => facets.len(),
            Self::Numbered(triangles) => triangles.corners.len(),
        }
    }

    /// Where corners are counted from, in file units.
    pub(super) fn origin(&self) -> [f64; 3] {
        match self {
            Self::Ascii(_, origin) => *origin,
            Self::Binary(_) | Self::Numbered(_) => [0.0; 3],
        }
    }

    /// Corners of facet `index`, checked to be usable numbers.
    pub(super) fn corners(&self, index: usize) -> Result<StlCorners, MeshError> {
        let corners = match self {
            Self::Binary(records) => decode(&records[index * RECORD..(index + 1) * RECORD]),
            Self::Ascii(facets, _) => facets[index],
            Self::Numbered(triangles) => triangles.corners(index)?,
        };
        let usable = corners.iter().flatten().all(|c| c.abs() <= COORDINATE_LIMIT);
        if usable { Ok(corners) } else { Err(MeshError::BadCoordinate { facet: index }) }
    }
}

fn announced_facets(bytes: &[u8]) -> Option<u64> {
    let count: [u8; 4] = bytes.get(80..HEADER)?.try_into().ok()?;
    Some(u64::from(u32::from_le_bytes(count)))
}

fn starts_as_ascii(bytes: &[u8]) -> bool {
    let mark = bytes.strip_prefix(b"\xEF\xBB\xBF").unwrap_or(bytes).trim_ascii_start();
    mark.get(..5).is_some_and(|word| word.eq_ignore_ascii_case(b"solid"))
}

fn decode(record: &[u8]) -> StlCorners {
    let number = |at: usize| {
        let mut four = [0_u8; 4];
        four.copy_from_slice(&record[at..at + 4]);
        f32::from_le_bytes(four)
    };
    // The first twelve bytes are the stored normal, which exporters fill carelessly; the corner order decides instead.
    let corner = |k: usize| [number(12 + 12 * k), number(16 + 12 * k), number(20 + 12 * k)];
    [corner(0), corner(1), corner(2)]
}

/// Reads `vertex x y z` triples between `facet` and `endfacet`, whatever the spacing, case and line ends.
fn read_ascii(bytes: &[u8]) -> Result<(Vec<StlCorners>, [f64; 3]), MeshError> {
    let mut facets = Vec::new();
    let mut origin = None;
    let mut corners: Vec<[f32; 3]> = Vec::with_capacity(3);
    let mut inside_facet = false;
    let mut closed = false;
    let mut last_line = 0;
    for (index, raw) in bytes.split(|&b| b == b'\n').enumerate() {
        let line = index + 1;
        last_line = line;
        let fault = |reason: String| MeshError::Syntax { line, reason };
        // Names may be in any encoding; the words that count are ASCII.
        let text = String::from_utf8_lossy(raw);
        let mut words = text.trim_start_matches('\u{feff}').split_ascii_whitespace();
        let Some(word) = words.next() else { continue };
        match word.to_ascii_lowercase().as_str() {
            "solid" => closed = false,
            "outer" | "endloop" => {}
            "endsolid" => closed = true,
            "facet" => {
                if inside_facet {
                    return Err(fault("a facet begins before the last one ended".into()));
                }
                inside_facet = true;
                corners.clear();
            }
            "vertex" => {
                if !inside_facet {
                    return Err(fault("a vertex stands outside a facet".into()));
                }
                let corner = vertex(words).ok_or_else(|| fault(no_vertex(&text).into()))?;
                let origin = origin.get_or_insert_with(|| counted_from(&corner));
                corners.push([0, 1, 2].map(|axis| (corner[axis] - origin[axis]) as f32));
            }
            "endfacet" => {
                if !inside_facet {
                    return Err(fault("a facet ends that never began".into()));
                }
                let three: StlCorners = corners
                    .as_slice()
                    .try_into()
                    .map_err(|_| fault(format!("a facet has {} corners instead of 3", corners.len())))?;
                facets.push(three);
                inside_facet = false;
            }
            other => {
                let shown: String = other.chars().take(20).collect();
                return Err(fault(format!("unknown word `{shown}`")));
            }
        }
    }
    if inside_facet || !closed {
        let reason = "the file ends before `endsolid`: it is cut short".into();
        return Err(MeshError::Syntax { line: last_line, reason });
    }
    if facets.is_empty() {
        return Err(MeshError::Empty);
    }
    Ok((facets, origin.unwrap_or_default()))
}

/// Why a line holds no vertex.
fn no_vertex(line: &str) -> &'static str {
    if line.contains(',') {
        "its numbers have a decimal comma, where STL has a point"
    } else {
        "a vertex needs three finite numbers"
    }
}

/// Parts farther from the origin than this, in file units, are counted from a point of their own.
const FAR: f64 = 1e4;

/// A point near a corner, in whole units so that it takes no digits of its own; the origin for parts near that.
fn counted_from(corner: &[f64; 3]) -> [f64; 3] {
    corner.map(|c| if c.abs() > FAR && c.abs() <= f64::from(COORDINATE_LIMIT) { c.round() } else { 0.0 })
}

fn vertex<'text>(words: impl Iterator<Item = &'text str>) -> Option<[f64; 3]> {
    let mut corner = [0.0; 3];
    let mut count = 0;
    for word in words {
        let number: f64 = word.parse().ok()?;
        // What single precision cannot hold is damage.
        *corner.get_mut(count)? = if (number as f32).is_finite() { number } else { return None };
        count += 1;
    }
    (count == 3).then_some(corner)
}

use super::{BadEnd, path};

/// A colour in sRGB, 8 bits each of red, green and blue.
pub(crate) type Rgb = [u8; 3];

/// Colour steps of the scale: neighbours are too alike to tell apart, so that no false edges are seen.
pub(crate) const STEPS: usize = 256;

/// Grey of facets that were not measured.
pub(crate) const NOT_MEASURED: Rgb = [0x70, 0x70, 0x70];

/// The colours in words, from the good end to the bad end.
pub(crate) const IN_WORDS: [&str; 4] = ["pale blue", "sand", "orange", "deep red"];

/// Colours from the low end of a quantity to its high end.
#[derive(Debug, Clone)]
pub(crate) struct ColorScale(Vec<Rgb>);

impl ColorScale {
    /// The scale with the deep red at the bad end.
    pub(crate) fn new(bad_end: BadEnd) -> Self {
        let mut colors = path::colors(STEPS);
        if bad_end == BadEnd::Low {
            colors.reverse();
        }
        Self(colors)
    }

    /// All [`STEPS`] colours.
    pub(crate) fn colors(&self) -> &[Rgb] {
        &self.0
    }

    /// Step at a share of the scale between 0 and 1.
    pub(crate) fn step(share: f64) -> u8 {
        (share * STEPS as f64).clamp(0.0, (STEPS - 1) as f64) as u8
    }
}

/// A colour as XML and SVG write it.
pub(crate) fn hex([red, green, blue]: Rgb) -> String {
    format!("#{red:02X}{green:02X}{blue:02X}")
}

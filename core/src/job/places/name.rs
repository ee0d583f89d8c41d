use core::fmt;

use super::error::PlaceError;

/// Name of a place, of a load or of a hold, short enough to go with every point of a surface.
#[derive(Clone, Copy, PartialEq, Eq)]
pub struct PlaceName {
    letters: [u8; Self::LONGEST],
    length: u8,
}

impl PlaceName {
    /// Most bytes of a name.
    pub const LONGEST: usize = 40;

    /// A name that says something, on one line.
    ///
    /// # Errors
    ///
    /// Where it is empty, longer than [`PlaceName::LONGEST`] bytes or has signs that are no letters.
    pub fn new(name: &str) -> Result<Self, PlaceError> {
        let length = name.len();
        if name.trim().is_empty() || length > Self::LONGEST || name.chars().any(char::is_control) {
            return Err(PlaceError::Name { name: name.chars().take(Self::LONGEST).collect(), most: Self::LONGEST });
        }
        let mut letters = [0; Self::LONGEST];
        letters[..length].copy_from_slice(name.as_bytes());
        Ok(Self { letters, length: length as u8 })
    }

    /// The name.
    pub fn text(&self) -> &str {
        core::str::from_utf8(&self.letters[..usize::from(self.length)]).unwrap_or_default()
    }
}

impl fmt::Display for PlaceName {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        out.write_str(self.text())
    }
}

impl fmt::Debug for PlaceName {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(out, "{:?}", self.text())
    }
}

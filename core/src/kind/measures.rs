use crate::bench::scaled;
use crate::material::Card;
use crate::part::ThicknessFactors;

/// Sizes of a part over those of its mesh, and of what its material bears over its card.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Sizes {
    /// Of a rod, along its pins.
    pub rod: ThicknessFactors,
    /// Of a piston's crown.
    pub crown: f64,
    /// Strength over that of the card.
    pub strength: f64,
    /// Life at one strength over that of the card.
    pub life: f64,
}

impl Sizes {
    /// Factors on the thickness of small end, shank and big end.
    pub fn thickness(&self) -> [f64; 3] {
        [self.rod.small_end, self.rod.shank, self.rod.big_end]
    }

    /// A card with both factors in it.
    pub(crate) fn card(&self, card: Card) -> Card {
        if self.strength == 1.0 && self.life == 1.0 { card } else { scaled(&card, self.strength, self.life) }
    }
}

impl Default for Sizes {
    fn default() -> Self {
        Self { rod: ThicknessFactors::default(), crown: 1.0, strength: 1.0, life: 1.0 }
    }
}

/// Sizes of a part, m, as far as its kind has them.
#[derive(Debug, Clone, Copy, Default, PartialEq)]
pub struct Measures {
    /// Thickness of small end, shank and big end along the pins, m.
    pub thickness: Option<[f64; 3]>,
    /// Thickness of a crown, m.
    pub crown: Option<f64>,
}

impl Measures {
    /// The same at some sizes.
    #[must_use]
    pub fn at(&self, sizes: &Sizes) -> Self {
        let factors = sizes.thickness();
        let thickness = self.thickness.map(|of| [0, 1, 2].map(|k| of[k] * factors[k]));
        Self { thickness, crown: self.crown.map(|of| of * sizes.crown) }
    }
}

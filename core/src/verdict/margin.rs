use super::mode::Mode;

/// The worst of one mode.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ModeMargin<P> {
    /// The mode.
    pub mode: Mode,
    /// Where it is worst.
    pub place: P,
    /// Factor by which all stress could grow before one part in ten fails by this mode within the wanted life.
    pub margin: f64,
    /// Running time until half the parts fail by it, s; `None` for modes that do not count time.
    pub median_life: Option<f64>,
    /// The same for nine parts in ten.
    pub life_b10: Option<f64>,
}

impl<P> ModeMargin<P> {
    /// A mode that fails at once or never.
    pub(crate) fn at_once(mode: Mode, place: P, margin: f64) -> Self {
        Self { mode, place, margin, median_life: None, life_b10: None }
    }

    /// Whether the mode is a matter of running time.
    pub fn counts_time(&self) -> bool {
        self.median_life.is_some()
    }
}

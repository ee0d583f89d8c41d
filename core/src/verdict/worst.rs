use super::mode::Mode;
use super::summary::ModeMargin;

/// The worst of each mode so far, each with what the caller wants to know of it.
#[derive(Clone)]
pub(super) struct Worst<T> {
    /// In the order in which modes were first met.
    pub(super) found: Vec<(ModeMargin, T)>,
}

impl<T> Default for Worst<T> {
    fn default() -> Self {
        Self { found: Vec::new() }
    }
}

impl<T> Worst<T> {
    pub(super) fn add(&mut self, mode: ModeMargin, of: T) {
        match self.found.iter_mut().find(|(known, _)| known.mode == mode.mode) {
            Some(known) if mode.margin < known.0.margin => *known = (mode, of),
            Some(_) => {}
            None => self.found.push((mode, of)),
        }
    }

    pub(super) fn margin(&self, mode: Mode) -> Option<f64> {
        self.found.iter().find(|(known, _)| known.mode == mode).map(|(known, _)| known.margin)
    }

    /// The least margin of all modes that count time, or of all that do not, as `mode` does: which of them a combined
    /// stress leads to is only known after the exact look.
    pub(super) fn least_like(&self, mode: Mode) -> Option<f64> {
        let alike = self.found.iter().filter(|(known, _)| known.mode.counts_time() == mode.counts_time());
        alike.map(|(known, _)| known.margin).min_by(f64::total_cmp)
    }

    /// All modes in their order, with what is known of them.
    pub(super) fn sorted(mut self) -> (Vec<ModeMargin>, Vec<T>) {
        self.found.sort_by_key(|(mode, _)| mode.mode);
        self.found.into_iter().unzip()
    }
}

//! One comparison with something outside the project.

use core::fmt::Write as _;

/// How much a source weighs.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Word {
    /// A number printed in a named publication.
    Published,
    /// A number of a standard.
    Standard,
    /// A formula with its source named, worked out in the test.
    ClosedForm,
    /// Worked out by a general-purpose library.
    GeneralLibrary,
    /// Recalled, not looked up.
    Memory,
    /// What the trade knows, without a source.
    CommonPractice,
}

/// In what a deviation is counted.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) enum Measure {
    /// Share of the expected value.
    Share,
    /// In the unit of the value.
    Difference,
    /// How far the value falls short of the least expected, as a share of it.
    Shortfall,
    /// How far the value exceeds the most expected, as a share of it.
    Excess,
}

/// One row of the book.
#[derive(Debug, Clone)]
pub(crate) struct Row {
    pub(crate) id: &'static str,
    pub(crate) what: String,
    pub(crate) source: &'static str,
    pub(crate) word: Word,
    pub(crate) expected: f64,
    pub(crate) got: f64,
    pub(crate) measure: Measure,
    pub(crate) tolerance: f64,
    pub(crate) reason: &'static str,
}

/// Where a group of rows comes from.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Source {
    pub(crate) id: &'static str,
    pub(crate) word: Word,
    pub(crate) name: &'static str,
}

impl Source {
    /// A row whose deviation is a share of the expected value.
    pub(crate) fn row(
        self,
        what: impl Into<String>,
        expected: f64,
        got: f64,
        tolerance: f64,
        reason: &'static str,
    ) -> Row {
        let Self { id, word, name: source } = self;
        Row { id, what: what.into(), source, word, expected, got, measure: Measure::Share, tolerance, reason }
    }

    /// The worst of several pairs of expected value and value got, by share.
    pub(crate) fn worst(
        self,
        what: impl Into<String>,
        pairs: impl IntoIterator<Item = (f64, f64)>,
        tolerance: f64,
        reason: &'static str,
    ) -> Row {
        // A pair that is no number counts as infinitely far off.
        let share = |(expected, got): (f64, f64)| {
            let share = (got / expected - 1.0).abs();
            if share.is_nan() { f64::INFINITY } else { share }
        };
        let all = pairs.into_iter();
        let worst = all.max_by(|a, b| share(*a).total_cmp(&share(*b))).unwrap_or((f64::NAN, f64::NAN));
        self.row(what, worst.0, worst.1, tolerance, reason)
    }
}

impl Row {
    /// The same row counted in another way.
    pub(crate) fn by(self, measure: Measure) -> Self {
        Self { measure, ..self }
    }

    /// How far the value is off.
    pub(crate) fn deviation(&self) -> f64 {
        let Self { expected, got, .. } = *self;
        match self.measure {
            Measure::Share if expected == got => 0.0,
            Measure::Share => (got / expected - 1.0).abs(),
            Measure::Difference => (got - expected).abs(),
            Measure::Shortfall => (1.0 - got / expected).max(0.0),
            Measure::Excess => (got / expected - 1.0).max(0.0),
        }
    }

    /// What is wrong with the row, if anything.
    pub(crate) fn fault(&self) -> Option<String> {
        let (deviation, tolerance) = (self.deviation(), self.tolerance);
        if deviation.is_nan() || deviation > tolerance {
            return Some(format!("{self:?} is off by {deviation:e}"));
        }
        let told = [self.id, &self.what, self.source, self.reason].iter().all(|text| !text.trim().is_empty());
        (!told || tolerance < 0.0 || !tolerance.is_finite())
            .then(|| format!("{self:?} lacks its source, its reason or its bound"))
    }

    /// The row as a line of a table.
    pub(crate) fn line(&self) -> String {
        let mut line = String::new();
        let Self { id, what, source, reason, .. } = self;
        let word = match self.word {
            Word::Published => "published",
            Word::Standard => "standard",
            Word::ClosedForm => "closed form",
            Word::GeneralLibrary => "general library",
            Word::Memory => "memory",
            Word::CommonPractice => "common practice",
        };
        let bound = match self.measure {
            Measure::Share => percent(self.tolerance),
            Measure::Difference => digits(self.tolerance),
            Measure::Shortfall => format!("no less than {} below", percent(self.tolerance)),
            Measure::Excess => format!("no more than {} above", percent(self.tolerance)),
        };
        let off = match self.measure {
            Measure::Share | Measure::Shortfall | Measure::Excess => percent(self.deviation()),
            Measure::Difference => digits(self.deviation()),
        };
        let (expected, got) = (digits(self.expected), digits(self.got));
        // A string takes whatever is written to it.
        let _ = write!(line, "| {id} | {what} | {source} | {word} | {expected} | {got} | {off} | {bound} | {reason} |");
        line
    }
}

/// A share in per cent; what is rounding alone is not told apart.
fn percent(share: f64) -> String {
    match share {
        0.0 => "0".into(),
        tiny if tiny < 1e-11 => "below 1e-9 %".into(),
        share if share < 1e-4 => format!("{:.1e} %", 100.0 * share),
        share => format!("{} %", short(100.0 * share, 2)),
    }
}

/// Six digits.
fn digits(value: f64) -> String {
    if value == 0.0 || (1e-3..1e7).contains(&value.abs()) { short(value, 6) } else { format!("{value:.4e}") }
}

/// So many digits, without noughts at the end.
fn short(value: f64, count: i32) -> String {
    let whole = if value == 0.0 { 1 } else { libm::floor(libm::log10(value.abs())) as i32 + 1 };
    let decimals = (count - whole).max(0) as usize;
    let text = format!("{value:.decimals$}");
    if text.contains('.') { text.trim_end_matches('0').trim_end_matches('.').into() } else { text }
}

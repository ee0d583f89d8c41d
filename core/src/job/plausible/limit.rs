use crate::job::error::JobError;
use crate::job::file::Job;
use crate::job::plausible::Warning;
use crate::material::Source;

/// Calls a function with the table of the job file in which a number stands, and the number if it is given.
pub(super) type See<'a> = dyn FnMut(&str, Option<f64>) + 'a;

/// What one number of a job can be, and what is usual.
#[derive(Debug, Clone, Copy)]
pub(in crate::job) struct Limit {
    /// Last part of its key.
    pub(in crate::job) key: &'static str,
    /// What it is, in the words of the list of assumptions.
    pub(in crate::job) what: &'static str,
    /// Unit, `1` for pure numbers.
    pub(in crate::job) unit: &'static str,
    /// Refused outside.
    possible: (f64, f64),
    /// Warned of outside.
    usual: (f64, f64),
    /// Where `usual` comes from.
    source: Source,
    /// What is likely to have gone wrong, to follow "check KEY".
    slip: &'static str,
    /// Where it is in a job.
    of: fn(&Job, &mut See<'_>),
}

impl Limit {
    /// A number that may be anything; the other functions narrow it.
    pub(super) const fn of(
        key: &'static str,
        what: &'static str,
        unit: &'static str,
        of: fn(&Job, &mut See<'_>),
    ) -> Self {
        let all = (f64::NEG_INFINITY, f64::INFINITY);
        Self { key, what, unit, possible: all, usual: all, source: Source::CommonPractice, slip: "", of }
    }

    /// Refused outside of these.
    pub(super) const fn possible(self, low: f64, high: f64) -> Self {
        Self { possible: (low, high), ..self }
    }

    /// Warned of outside of these, which are common practice without one source to name.
    pub(super) const fn usual(self, low: f64, high: f64) -> Self {
        Self { usual: (low, high), ..self }
    }

    /// The usual range is recalled.
    pub(super) const fn recalled(self) -> Self {
        Self { source: Source::Memory, ..self }
    }

    /// What is likely to have gone wrong.
    pub(super) const fn slip(self, slip: &'static str) -> Self {
        Self { slip, ..self }
    }

    /// Refuses an impossible number and warns of an unusual one.
    pub(super) fn see(&self, job: &Job, warnings: &mut Vec<Warning>) -> Result<(), JobError> {
        let mut refused = None;
        (self.of)(job, &mut |table, value| {
            let Some(value) = value else { return };
            let key = self.full_key(table);
            if !self.takes(value) {
                refused = refused.take().or(Some(self.out_of_range(key, value)));
            } else if !(self.usual.0..=self.usual.1).contains(&value) && warnings.iter().all(|known| known.key != key) {
                let unusual = Unusual { what: self.what, value, unit: self.unit, beside: None, usual: self.usual };
                warnings.push(unusual.warning(key, self.source, self.slip));
            }
        });
        refused.map_or(Ok(()), Err)
    }

    /// Where the numbers of a job stand that this is about, whether given or not.
    pub(super) fn keys(&self, job: &Job) -> Vec<String> {
        let mut keys = Vec::new();
        (self.of)(job, &mut |table, _| keys.push(self.full_key(table)));
        keys
    }

    fn full_key(&self, table: &str) -> String {
        format!("{table}.{}", self.key)
    }

    /// Whether the number is possible; one that must be refused elsewhere with better words has no range of its own.
    fn takes(&self, value: f64) -> bool {
        let open = self.possible == (f64::NEG_INFINITY, f64::INFINITY);
        open || (self.possible.0..=self.possible.1).contains(&value)
    }

    fn out_of_range(&self, key: String, value: f64) -> JobError {
        let ((low, high), usual) = (self.possible, self.usual);
        let narrower = usual.0 > low || usual.1 < high;
        JobError::OutOfRange {
            what: self.what,
            value,
            unit: self.unit,
            low,
            high,
            key,
            usual: narrower.then(|| range(usual, self.unit)),
        }
    }
}

/// A number outside of what is usual.
pub(super) struct Unusual<'a> {
    pub(super) what: &'a str,
    pub(super) value: f64,
    pub(super) unit: &'a str,
    /// What it is held against, in words, if it is unusual only beside that.
    pub(super) beside: Option<String>,
    pub(super) usual: (f64, f64),
}

impl Unusual<'_> {
    /// The sentence for it.
    pub(super) fn warning(&self, key: String, source: Source, slip: &str) -> Warning {
        let beside = self.beside.as_ref().map_or_else(String::new, |beside| format!(" with {beside}"));
        let message = format!(
            "{} of {}{}{beside} is unusual; usual: {} ({}); check {key}{slip}",
            self.what,
            rounded(self.value),
            suffix(self.unit),
            range(self.usual, self.unit),
            source.word()
        );
        Warning { key, message }
    }
}

/// A range in words.
pub(super) fn range((low, high): (f64, f64), unit: &str) -> String {
    let unit = suffix(unit);
    if low == f64::NEG_INFINITY {
        format!("up to {}{unit}", rounded(high))
    } else if high == f64::INFINITY {
        format!("from {}{unit}", rounded(low))
    } else {
        format!("{} to {}{unit}", rounded(low), rounded(high))
    }
}

fn suffix(unit: &str) -> String {
    if unit == "1" { String::new() } else { format!(" {unit}") }
}

/// Three digits that mean something.
pub(super) fn rounded(value: f64) -> f64 {
    if value == 0.0 || !value.is_finite() {
        return value;
    }
    let scale = libm::pow(10.0, 3.0 - libm::ceil(libm::log10(value.abs())));
    let near = libm::round(value * scale) / scale;
    if near.is_finite() { near } else { value }
}

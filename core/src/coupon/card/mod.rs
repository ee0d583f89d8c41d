mod creep;
mod estimate;
mod fatigue;
mod rupture;
mod strength;
mod through;
mod warm;

use crate::coupon::against::contradictions;
use crate::coupon::error::CouponError;
use crate::coupon::row::CouponRow;
use crate::coupon::test::CouponTest;
use crate::material::{Card, REFERENCE_TEMPERATURE, Source, Value};
use crate::numeric::sort_few_by_key;
use crate::report::{CAUTIONS, CouponReport, FitLineReport, FittedReport, SCHEMA_VERSION};

/// A card with what was fitted in it.
#[derive(Debug, Clone, PartialEq)]
pub struct Fitted {
    /// The card, which reads back.
    pub card: Card,
    /// What was fitted and how well.
    pub report: CouponReport,
}

/// Confidence of all ranges.
const CONFIDENCE: f64 = 0.9;

/// A test this near to 23 °C counts as done there, K.
const ROOM: f64 = 3.0;

/// Share of a normal distribution within one standard deviation.
const ONE_DEVIATION: f64 = 0.682_689_492_137;

/// Scatter of life that is left to the life itself, whatever the scatter of strength explains (log10; memory): no series
/// of fatigue tests is steadier.
const LEAST_LIFE_SCATTER: f64 = 0.05;

/// Fits what the tests allow into a copy of `base`; what they do not say stays as it is there, with its own source.
///
/// `name` is the card's; `date` a day in words, or the latest of the rows where it is absent. Nothing is read from a clock.
///
/// # Errors
///
/// Where a row says what cannot be, or no test is among them.
pub fn fit_card(
    rows: &[CouponRow],
    base: &Card,
    name: Option<&str>,
    date: Option<&str>,
) -> Result<Fitted, CouponError> {
    if rows.is_empty() {
        return Err(CouponError::Empty);
    }
    let tests: Vec<CouponTest> =
        rows.iter().enumerate().map(|(k, row)| CouponTest::read(k + 1, row)).collect::<Result<_, _>>()?;
    let latest = rows.iter().filter_map(|row| row.date.as_deref()).max();
    let mut card = base.clone();
    card.name = name.map_or_else(|| format!("{} coupons", base.name), String::from);
    let mut work = LawFit {
        tests: &tests,
        card,
        date: date.or(latest).map(String::from),
        fitted: Vec::new(),
        lines: Vec::new(),
        findings: Vec::new(),
        used: vec![false; tests.len()],
    };
    work.strengths();
    work.moduli();
    work.knockdown();
    // Heat first: the laws that follow count stress over the strength that is left.
    work.warm();
    work.rupture();
    work.fatigue();
    work.creep();
    // As they are read: fatigue before what lasts.
    sort_few_by_key(&mut work.lines, |line| !line.name.starts_with("fatigue"));
    let unused = work.used.iter().filter(|used| !**used).count();
    if unused > 0 {
        work.findings.push(format!(
            "{unused} of {} tests went into no value: too few of their kind, or of a kind that a card does not hold.",
            tests.len()
        ));
    }
    if work.fitted.is_empty() {
        work.findings.push("Nothing could be fitted: the card is the base card under another name.".into());
    }
    // What is written must read back; a fit that no card can hold is refused by the same rules.
    let card = Card::from_toml(&work.card.to_toml()?).map_err(|error| match error {
        crate::material::MaterialError::Implausible { what, value, .. } => CouponError::Unfit { what, value },
        other => other.into(),
    })?;
    // First: whoever reads one line reads this.
    work.findings.splice(0..0, contradictions(&card, &tests));
    Ok(Fitted {
        report: CouponReport {
            schema_version: SCHEMA_VERSION.into(),
            program_version: env!("CARGO_PKG_VERSION").into(),
            card: card.name.clone(),
            base: base.name.clone(),
            date: work.date,
            tests: tests.len(),
            unused,
            confidence: CONFIDENCE,
            fitted: work.fitted,
            lines: work.lines,
            findings: work.findings,
            cautions: CAUTIONS.iter().map(|&text| text.into()).collect(),
        },
        card,
    })
}

struct LawFit<'a> {
    tests: &'a [CouponTest],
    card: Card,
    date: Option<String>,
    fitted: Vec<FittedReport>,
    lines: Vec<FitLineReport>,
    findings: Vec<String>,
    used: Vec<bool>,
}

/// What a number came from.
struct LawFound {
    value: f64,
    /// Relative standard uncertainty.
    spread: f64,
    range: (f64, f64),
    count: usize,
    run_outs: usize,
    how: String,
}

impl LawFit<'_> {
    /// Puts a value into the card and into the report.
    fn put(&mut self, name: &str, unit: &str, of: impl Fn(&mut Card) -> &mut Value, found: &LawFound) {
        let dated = self.date.as_ref().map_or_else(String::new, |date| format!("; {date}"));
        let outs = if found.run_outs > 0 { format!(", {} of them run-outs", found.run_outs) } else { String::new() };
        let slot = of(&mut self.card);
        let before = slot.value;
        *slot = Value {
            value: found.value,
            source: Source::Coupon,
            reference: None,
            spread: Some(found.spread),
            memory: None,
            behind: None,
            note: Some(format!(
                "{}: {} tests{outs}; nine in ten such series lie within {:.4} to {:.4}{dated}.",
                found.how, found.count, found.range.0, found.range.1
            )),
        };
        self.report(name, unit, Some(before), found);
    }

    fn report(&mut self, name: &str, unit: &str, before: Option<f64>, found: &LawFound) {
        self.fitted.push(FittedReport {
            name: name.into(),
            unit: unit.into(),
            value: found.value,
            low: found.range.0,
            high: found.range.1,
            base: before,
            tests: found.count,
            run_outs: found.run_outs,
            how: found.how.clone(),
        });
    }

    /// Results of short-term tests at room temperature, and marks them as used.
    fn short(&mut self, of: impl Fn(&CouponTest) -> Option<f64>) -> Vec<f64> {
        let mut values = Vec::new();
        for (test, used) in self.tests.iter().zip(&mut self.used) {
            let room = (test.temperature - REFERENCE_TEMPERATURE).abs() <= ROOM;
            if let Some(value) = of(test).filter(|_| room && !test.run_out) {
                values.push(value);
                *used = true;
            }
        }
        values
    }
}

use crate::material::{Bears, Card, Source, visit_values};
use crate::numeric::{map_in_order, sort_few};

/// What one value of the material card does to the margin.
#[derive(Debug, Clone, PartialEq)]
pub struct Influence {
    /// Name of the value.
    pub name: &'static str,
    /// What it decides.
    pub bears: Bears,
    /// Where it comes from.
    pub source: Source,
    /// Share of its variance that rests on memory, 0 to 1.
    pub memory: f64,
    /// Change of the natural logarithm of the margin when that of the value falls by its standard deviation.
    pub change: f64,
}

/// How well founded a verdict is.
#[derive(Debug, Clone, PartialEq)]
pub struct Uncertainty {
    /// Values that move the margin, the strongest first.
    pub influences: Vec<Influence>,
    /// Share of the margin's variance that rests on memory, 0 to 1: of each value as much as no published result narrowed.
    pub memory_share: f64,
    /// Standard deviation of the natural logarithm of the margin from all card values together.
    pub deviation: f64,
}

impl Uncertainty {
    /// The value to measure first: the strongest that is not already from coupons.
    pub fn measure_first(&self) -> Option<&Influence> {
        self.influences.iter().find(|influence| influence.source != Source::Coupon)
    }
}

/// The same for any part: `margin_of` gives its margin with another card.
pub(crate) fn uncertainty_of(card: &Card, margin: f64, margin_of: impl Fn(&Card) -> f64 + Sync + Send) -> Uncertainty {
    let margin = margin.max(1e-9);
    let lowered = lowered(card);
    let ratios = map_in_order(lowered.len(), |index| margin_of(&lowered[index].1) / margin);
    let influences = lowered
        .into_iter()
        .zip(ratios)
        .map(|((influence, _), ratio)| Influence { change: libm::log(ratio.clamp(1.0 / CLIFF, CLIFF)), ..influence });
    let mut influences: Vec<Influence> = influences.filter(|influence| influence.change.abs() > 1e-6).collect();
    sort_few(&mut influences, |a, b| b.change.abs().total_cmp(&a.change.abs()).then(a.name.cmp(b.name)));
    // Each value's part of the variance: its change times all changes that go with it.
    let parts: Vec<f64> = influences
        .iter()
        .map(|one| one.change * influences.iter().map(|other| together(card, one, other) * other.change).sum::<f64>())
        .collect();
    let whole = parts.iter().sum::<f64>().max(0.0);
    let memory: f64 = influences.iter().zip(&parts).map(|(influence, part)| influence.memory * part).sum();
    // Where nothing moves the margin, nothing founds it either.
    let memory_share = if whole > 0.0 { (memory / whole).clamp(0.0, 1.0) } else { 1.0 };
    Uncertainty { memory_share, deviation: whole.sqrt(), influences }
}

/// No single value counts for more than this factor on the margin: beyond it the margin has met a cliff (softening), and
/// how far below lies is no measure of what is known.
const CLIFF: f64 = 10.0;

/// No value is lowered by more than this factor, so that none reaches nothing.
const MOST_LOWERED: f64 = 10.0;

/// How far the logarithms of two values go together; one that was measured on test pieces goes by itself.
fn together(card: &Card, one: &Influence, other: &Influence) -> f64 {
    if one.name == other.name {
        return 1.0;
    }
    let drawn = one.source != Source::Coupon && other.source != Source::Coupon;
    card.correlation.as_ref().filter(|_| drawn).map_or(0.0, |known| known.between(one.name, other.name))
}

/// Each value of a card, and the card where that value is lower by its spread.
fn lowered(card: &Card) -> Vec<(Influence, Card)> {
    let mut list = Vec::new();
    let factor = |spread: f64| libm::exp(-spread).max(1.0 / MOST_LOWERED);
    visit_values(&mut card.clone(), |input, value| {
        let memory = value.memory_share();
        list.push((
            Influence { name: input.name, bears: input.bears, source: value.source, memory, change: 0.0 },
            card.clone(),
        ));
    });
    for (index, (_, lower)) in list.iter_mut().enumerate() {
        let mut number = 0;
        visit_values(lower, |_, value| {
            if number == index {
                value.value *= factor(value.relative_spread());
            }
            number += 1;
        });
    }
    // A curve whose powers are uncertain has its uncertainty in them.
    let retention = &card.temperature.retention;
    if retention.strength_power.is_none() && retention.stiffness_power.is_none() {
        let source = retention.source;
        let memory = if source == Source::Memory { 1.0 } else { 0.0 };
        let share = factor(retention.spread.unwrap_or_else(|| source.usual_spread()));
        let mut lower = card.clone();
        for point in &mut lower.temperature.retention.points {
            point.strength *= share;
            point.stiffness *= share;
        }
        let name = "strength kept at temperature";
        list.push((Influence { name, bears: Bears::Strength, source, memory, change: 0.0 }, lower));
    }
    list
}

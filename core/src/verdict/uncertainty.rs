use crate::job::Origin;
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
    /// Change of the natural logarithm of the margin when the value falls by its standard uncertainty.
    pub change: f64,
}

/// How well founded a verdict is.
#[derive(Debug, Clone, PartialEq)]
pub struct Uncertainty {
    /// Values that move the margin, the strongest first.
    pub influences: Vec<Influence>,
    /// Share of the margin's variance that rests on values recalled from memory, 0 to 1.
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
    let original = card;
    let mut influences = Vec::new();
    let mut card = original.clone();
    let mut values = Vec::new();
    visit_values(&mut card, |input, value| values.push((input, value.source, value.relative_spread())));
    let ratios = map_in_order(values.len(), |index| {
        let mut lowered = original.clone();
        let mut number = 0;
        visit_values(&mut lowered, |_, value| {
            if number == index {
                value.value *= 1.0 - values[index].2.min(0.9);
            }
            number += 1;
        });
        margin_of(&lowered) / margin
    });
    for ((input, source, _), ratio) in values.into_iter().zip(ratios) {
        push(&mut influences, (input.name, input.bears), source, ratio);
    }
    let retention = &original.temperature.retention;
    let mut lowered = original.clone();
    let spread = retention.spread.unwrap_or_else(|| retention.source.usual_spread());
    for point in &mut lowered.temperature.retention.points {
        point.strength *= 1.0 - spread;
        point.stiffness *= 1.0 - spread;
    }
    push(
        &mut influences,
        ("strength kept at temperature", Bears::Strength),
        retention.source,
        margin_of(&lowered) / margin,
    );
    sort_few(&mut influences, |a, b| b.change.abs().total_cmp(&a.change.abs()).then(a.name.cmp(b.name)));
    let square = |of: &dyn Fn(&Influence) -> bool| -> f64 {
        influences.iter().filter(|i| of(i)).map(|i| i.change * i.change).sum()
    };
    let whole = square(&|_| true);
    let memory = square(&|i| Origin::from(i.source) == Origin::Memory);
    // Where nothing moves the margin, nothing founds it either.
    Uncertainty { memory_share: if whole > 0.0 { memory / whole } else { 1.0 }, deviation: whole.sqrt(), influences }
}

/// No single value counts for more than this factor on the margin: beyond it the margin has met a cliff (softening), and
/// how far below lies is no measure of what is known.
const CLIFF: f64 = 10.0;

fn push(influences: &mut Vec<Influence>, (name, bears): (&'static str, Bears), source: Source, ratio: f64) {
    let change = libm::log(ratio.clamp(1.0 / CLIFF, CLIFF));
    if change.abs() > 1e-6 {
        influences.push(Influence { name, bears, source, change });
    }
}

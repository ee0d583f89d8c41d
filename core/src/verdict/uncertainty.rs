use crate::engine::Duty;
use crate::life::GAS_CONSTANT_J_MOL_K;
use crate::material::{
    Bears, Card, Creep, HEAT_POWERS, REFERENCE_TEMPERATURE, RUPTURE_ENERGY, Source, Value, visit_values,
};
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

/// How sure a verdict is.
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

/// How a part runs, beside the fatigue tests behind its card.
#[derive(Debug, Clone, Copy)]
pub(crate) struct RunsAt {
    /// Temperature where it is warmest, K.
    kelvin: f64,
    /// Cycles a second.
    hertz: f64,
}

impl RunsAt {
    /// So warm, with the cycles of every step in one repeat of a duty.
    pub(crate) fn new(kelvin: f64, duty: &Duty, cycles: impl Iterator<Item = f64>) -> Self {
        Self { kelvin, hertz: cycles.sum::<f64>() / duty.total_s() }
    }
}

/// The same for any part: `margin_of` gives its margin with another card.
pub(crate) fn uncertainty_of(
    card: &Card,
    runs: RunsAt,
    margin: f64,
    margin_of: impl Fn(&Card) -> f64 + Sync + Send,
) -> Uncertainty {
    let margin = margin.max(1e-9);
    let mut lowered = lowered(card);
    lowered.push(away_from_tests(card, runs));
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
    visit_values(&mut card.clone(), |input, value| {
        let (memory, spread) = (value.memory_share(), value.relative_spread());
        list.push((
            Influence { name: input.name, bears: input.bears, source: value.source, memory, change: 0.0 },
            spread,
        ));
    });
    let lower = |index: usize, name: &str, spread: f64| {
        let mut lower = card.clone();
        if name == RUPTURE_ENERGY {
            flatten(&mut lower.creep, spread);
            return lower;
        }
        let mut number = 0;
        visit_values(&mut lower, |_, value| {
            if number == index {
                value.value *= factor(spread);
            }
            number += 1;
        });
        lower
    };
    let values = list.into_iter().enumerate().filter(|(_, (influence, _))| !HEAT_POWERS.contains(&influence.name));
    let mut cards: Vec<(Influence, Card)> =
        values.map(|(index, (influence, spread))| (influence.clone(), lower(index, influence.name, spread))).collect();
    cards.push(less_kept(card));
    cards
}

/// Temperature and frequency at which plastics are tested in fatigue as a rule, K and 1/s (of the tests in the cards nearly all).
const TESTED: (f64, f64) = (REFERENCE_TEMPERATURE, 10.0);

/// Standard deviation of the logarithm of fatigue over tensile strength that a hundred kelvin and a tenfold frequency bring,
/// both beside what heat takes of the tensile strength itself (memory).
const AWAY: (f64, f64) = (0.25, 0.05);

/// Less fatigue strength over tensile strength, as far as running warmer or faster than tests may ask.
fn away_from_tests(card: &Card, runs: RunsAt) -> (Influence, Card) {
    let mut lower = card.clone();
    let warmer = AWAY.0 * (runs.kelvin - TESTED.0).abs() / 100.0;
    let faster = AWAY.1 * libm::log10((runs.hertz / TESTED.1).max(1e-3)).abs();
    let share = factor((warmer * warmer + faster * faster).sqrt());
    lower.fatigue.ratio_1e6.value *= share;
    lower.fatigue.layer_ratio_1e6.value *= share;
    let (name, bears, source) = ("fatigue at running temperature and frequency", Bears::Life, Source::Memory);
    (Influence { name, bears, source, memory: 1.0, change: 0.0 }, lower)
}

/// Lets strength fall faster with time, by the spread of the energy of rupture.
///
/// What tests tell is how much of the energy lies beyond what a short test spends. That part shrinks at every temperature
/// alike, so the logarithm of the attempt time goes with it: else a plastic that is warm would not last without any load.
fn flatten(creep: &mut Creep, spread: f64) {
    let energy = creep.activation_energy_kj_mol.value;
    let short = libm::log(creep.short_test_s.value / creep.attempt_time_s.value);
    let spent = 1e-3 * GAS_CONSTANT_J_MOL_K * REFERENCE_TEMPERATURE * short;
    let beyond = (1.0 - spent / energy).max(0.01);
    let shrunk = factor(spread / beyond);
    creep.activation_energy_kj_mol.value *= shrunk;
    creep.attempt_time_s.value = creep.short_test_s.value * libm::exp(-shrunk * short);
}

/// By how much a value is lowered.
fn factor(spread: f64) -> f64 {
    libm::exp(-spread).max(1.0 / MOST_LOWERED)
}

/// Less kept warm, of strength and of stiffness together: a plastic that heat leaves stiff it leaves strong. Of curves with
/// powers both powers grow by their spreads, of others the shares shrink.
fn less_kept(card: &Card) -> (Influence, Card) {
    let mut lower = card.clone();
    let retention = &mut lower.temperature.retention;
    let powers: Vec<&mut Value> =
        [&mut retention.strength_power, &mut retention.stiffness_power].into_iter().flatten().collect();
    let (name, bears) = ("strength kept at temperature", Bears::Strength);
    if powers.is_empty() {
        let source = retention.source;
        let memory = if source == Source::Memory { 1.0 } else { 0.0 };
        let share = factor(retention.spread.unwrap_or_else(|| source.usual_spread()));
        for point in &mut retention.points {
            point.strength *= share;
            point.stiffness *= share;
        }
        return (Influence { name, bears, source, memory, change: 0.0 }, lower);
    }
    let source = powers[0].source;
    let (mut whole, mut by_memory) = (0.0, 0.0);
    for power in powers {
        let square = power.relative_spread() * power.relative_spread();
        whole += square;
        by_memory += square * power.memory_share();
        power.value /= factor(power.relative_spread());
    }
    let memory = if whole > 0.0 { by_memory / whole } else { 0.0 };
    (Influence { name, bears, source, memory, change: 0.0 }, lower)
}

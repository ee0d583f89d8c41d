/// A number beside the scale.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Tick {
    /// Where.
    pub(crate) value: f64,
    /// How it is written.
    pub(crate) label: String,
}

/// Pieces into which ticks divide a scale, about.
const PIECES: f64 = 5.0;

/// Share of the scale by which an end must be away from the round numbers to be written beside them.
const ROOM: f64 = 0.13;

/// Round numbers from `low` to `high`, 1, 2 or 5 times a power of ten apart, and the ends where there is room.
pub(crate) fn ticks(low: f64, high: f64) -> Vec<Tick> {
    let wanted = (high - low) / PIECES;
    let power = exponent(wanted);
    let tens = 10_f64.powi(power.abs());
    // The power of ten divides where it can: a tenth is no exact number, ten is.
    let scaled = |number: f64| if power < 0 { number / tens } else { number * tens };
    let step = [1.0, 2.0, 5.0, 10.0].into_iter().find(|&step| scaled(step) >= wanted).unwrap_or(10.0);
    // Ends that are round but for their last digit still get a tick.
    let slack = 1e-9;
    let first = (low / scaled(step) - slack).ceil() as i64;
    let last = (high / scaled(step) + slack).floor() as i64;
    let decimals = if step < 10.0 { -power } else { -power - 1 }.max(0) as usize;
    let mut ticks: Vec<Tick> = (first..=last)
        .map(|count| scaled(count as f64 * step))
        .map(|value| Tick { value, label: format!("{value:.decimals$}") })
        .collect();
    let free = |end: f64, tick: Option<&Tick>| tick.is_none_or(|tick| (tick.value - end).abs() > ROOM * (high - low));
    if free(low, ticks.first()) {
        ticks.insert(0, Tick { value: low, label: rounded(low, high - low) });
    }
    if free(high, ticks.last()) {
        ticks.push(Tick { value: high, label: rounded(high, high - low) });
    }
    ticks
}

/// A number to a thousandth of the length of its scale, without zeros at the end.
pub(crate) fn rounded(number: f64, length: f64) -> String {
    let decimals = (3 - exponent(length)).max(0) as usize;
    let text = format!("{number:.decimals$}");
    let text = if text.contains('.') { text.trim_end_matches('0').trim_end_matches('.') } else { &text };
    if text == "-0" { "0".into() } else { text.into() }
}

/// Power of ten of the first digit, read from the exact decimal form: a logarithm may differ between machines.
fn exponent(number: f64) -> i32 {
    format!("{number:e}").rsplit('e').next().and_then(|power| power.parse().ok()).unwrap_or(0)
}

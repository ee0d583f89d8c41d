//! Numbers as people read them.

/// Times from this on are told as longer than it, s.
pub const TOLD_S: f64 = 1e4 * 3600.0;

/// A duration in the unit that fits it.
pub fn duration(seconds: f64) -> String {
    if seconds <= 0.0 {
        "0 s".into()
    } else if seconds < 120.0 {
        format!("{} s", significant(seconds))
    } else if seconds < 7200.0 {
        format!("{} min", significant(seconds / 60.0))
    } else if seconds < TOLD_S {
        format!("{} h", significant(seconds / 3600.0))
    } else {
        "over 10 000 h".into()
    }
}

/// Three significant digits, thousands apart; a power of ten only for the smallest.
pub fn significant(value: f64) -> String {
    if value == 0.0 || !value.is_finite() {
        return "0".into();
    }
    // Below a millionth the zeros say less than the power.
    if value.abs() < 1e-6 {
        return format!("{value:.2e}");
    }
    let digits = (2 - libm::log10(value.abs()).floor() as i32).clamp(0, 9);
    let scale = libm::pow(10.0, 2.0 - libm::log10(value.abs()).floor());
    grouped(&format!("{:.*}", digits as usize, (value * scale).round() / scale))
}

/// A factor; close to 1 with a digit more, so that it does not read as none.
pub fn times(factor: f64) -> String {
    if factor > 999.0 {
        "x >999".into()
    } else if factor < 0.001 {
        "x <0.001".into()
    } else if (factor - 1.0).abs() < 0.01 {
        format!("x {factor:.3}")
    } else {
        format!("x {}", significant(factor))
    }
}

/// A whole number with thousands apart.
pub fn whole(value: f64) -> String {
    grouped(&format!("{value:.0}"))
}

fn grouped(text: &str) -> String {
    let (whole, fraction) = text.split_once('.').map_or((text, None), |(w, f)| (w, Some(f)));
    let (sign, digits) = whole.strip_prefix('-').map_or(("", whole), |rest| ("-", rest));
    let mut out = String::new();
    for (index, digit) in digits.chars().enumerate() {
        if index > 0 && (digits.len() - index) % 3 == 0 && digits.len() > 4 {
            out.push(' ');
        }
        out.push(digit);
    }
    match fraction {
        Some(fraction) => format!("{sign}{out}.{fraction}"),
        None => format!("{sign}{out}"),
    }
}

//! Numbers of options, with or without their unit.

/// A length, mm.
pub(crate) fn mm(text: &str) -> Result<f64, String> {
    number_in(text, &[("mm", 1.0), ("cm", 10.0), ("in", 25.4)], "mm, cm or in, as 52.5mm")
}

/// A mass, g.
pub(crate) fn grams(text: &str) -> Result<f64, String> {
    number_in(text, &[("kg", 1000.0), ("g", 1.0)], "g or kg, as 96g")
}

/// A pressure, bar; a pound-force per square inch is 0.0689476 bar (by definition of both).
pub(crate) fn bar(text: &str) -> Result<f64, String> {
    number_in(text, &[("bar", 1.0), ("MPa", 10.0), ("psi", 0.068_947_6)], "bar, MPa or psi, as 45bar")
}

/// A temperature, °C.
pub(crate) fn celsius(text: &str) -> Result<f64, String> {
    number_in(text, &[("°C", 1.0), ("C", 1.0)], "°C, as 80C")
}

/// A speed of turning, rpm.
pub(crate) fn rpm(text: &str) -> Result<f64, String> {
    number_in(text, &[("rpm", 1.0)], "rpm, as 5000rpm")
}

/// A share, per cent.
pub(crate) fn percent(text: &str) -> Result<f64, String> {
    number_in(text, &[("%", 1.0)], "per cent, as 40%")
}

/// A time, s; the unit must be said, as two are in use.
pub(crate) fn duration_s(text: &str) -> Result<f64, String> {
    let text = text.trim();
    let wanted = "expected a time above 0 with its unit s, min or h, as 90min";
    if text.parse::<f64>().is_ok_and(|number| number > 0.0) {
        return Err(format!("say the unit: {text}s, {text}min or {text}h"));
    }
    match number_in(text, &[("min", 60.0), ("h", 3600.0), ("s", 1.0)], "") {
        Ok(seconds) if seconds > 0.0 => Ok(seconds),
        _ => Err(wanted.into()),
    }
}

/// A day in words of one's own; one written as in ISO 8601, 2026-11-30, must be one that there is.
pub(crate) fn day(text: &str) -> Result<String, String> {
    let parts: Vec<&str> = text.trim().split('-').collect();
    let digits = |part: &&str| part.bytes().all(|byte| byte.is_ascii_digit());
    let dated = matches!(parts.as_slice(), [year, month, day] if (year.len(), month.len(), day.len()) == (4, 2, 2));
    if dated && parts.iter().all(digits) {
        let [year, month, day] = [0, 1, 2].map(|part| parts[part].parse::<u32>().unwrap_or(0));
        let leap = year % 4 == 0 && (year % 100 != 0 || year % 400 == 0);
        let days = match month {
            1 | 3 | 5 | 7 | 8 | 10 | 12 => 31,
            4 | 6 | 9 | 11 => 30,
            2 if leap => 29,
            2 => 28,
            _ => 0,
        };
        if day == 0 || day > days {
            return Err("there is no such day; write year, month and day, as 2026-11-30".into());
        }
    }
    Ok(text.to_owned())
}

/// A number, its unit behind it or left out; the first unit is tried first.
fn number_in(text: &str, units: &[(&str, f64)], wanted: &str) -> Result<f64, String> {
    let text = text.trim();
    let with_unit = units.iter().find_map(|(unit, factor)| Some((text.strip_suffix(unit)?, *factor)));
    let (number, factor) = with_unit.unwrap_or((text, 1.0));
    // What is no finite number is refused where the job is looked at, with the name of its key.
    number.trim().parse::<f64>().map(|number| number * factor).map_err(|_| format!("expected a number in {wanted}"))
}

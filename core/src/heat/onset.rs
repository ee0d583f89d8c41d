use crate::numeric::halved;

/// Lowest speed of a range at which something ceases to hold, by halving; `None` if it holds at the upper end.
///
/// `holds` is asked at both ends first; what fails at the lower end already is answered with that end. In between one
/// change is assumed, as heat only grows with speed. Ends within the relative width `sharpness`; the closer to the brink,
/// the longer a steady state takes, so a thousandth is a good width.
pub fn onset<E>(
    low: f64,
    high: f64,
    sharpness: f64,
    mut holds: impl FnMut(f64) -> Result<bool, E>,
) -> Result<Option<f64>, E> {
    if holds(high)? {
        return Ok(None);
    }
    if !holds(low)? {
        return Ok(Some(low));
    }
    let (_, first) = halved((low, high), |good, bad| bad - good <= sharpness * bad.abs(), holds)?;
    Ok(Some(first))
}

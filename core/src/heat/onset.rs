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
    /// Halvings after which neighbouring floats are reached in any case.
    const HALVINGS: usize = 60;
    if holds(high)? {
        return Ok(None);
    }
    if !holds(low)? {
        return Ok(Some(low));
    }
    let (mut good, mut bad) = (low, high);
    for _ in 0..HALVINGS {
        if bad - good <= sharpness * bad.abs() {
            break;
        }
        let middle = f64::midpoint(good, bad);
        if holds(middle)? {
            good = middle;
        } else {
            bad = middle;
        }
    }
    Ok(Some(bad))
}

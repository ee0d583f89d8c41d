/// Points of a field that make one place, the worst first.
#[derive(Debug, Clone)]
pub(in crate::verdict) struct Gathered<P> {
    pub(in crate::verdict) place: P,
    /// Whether it lies at a sharp inner corner.
    pub(in crate::verdict) sharp: bool,
    pub(in crate::verdict) points: Vec<usize>,
}

/// Places listed at most.
const MOST: usize = 8;

/// Places at sharp inner corners listed at most.
const CORNERS: usize = 3;

/// Points of one place that are looked at over the whole cycle.
const CLOSER: usize = 6;

/// Places seen with finer cells at most.
const WINDOWS: usize = 6;

/// A place whose margin is more than this above the least of its region does not come to be the worst with finer cells.
const MAY_TAKE_OVER: f64 = 1.25;

/// Joins points, each with its margin and place, to few places: those with the least margins. Of points that are `alike`
/// the worst stands for all.
pub(in crate::verdict) fn gathered<P: Copy>(
    mut points: Vec<(f64, P, usize)>,
    sharp: impl Fn(usize) -> bool,
    alike: impl Fn(&P, &P) -> bool,
) -> Vec<Gathered<P>> {
    points.sort_by(|a, b| a.0.total_cmp(&b.0).then(a.2.cmp(&b.2)));
    let mut places: Vec<Gathered<P>> = Vec::new();
    for (_, place, point) in points {
        let sharp = sharp(point);
        let known = places.iter().position(|known| known.sharp == sharp && alike(&known.place, &place));
        match known {
            Some(known) if places[known].points.len() < CLOSER => places[known].points.push(point),
            // At corners only the worst few are told, so that they do not crowd out what counts.
            None if places.iter().filter(|known| known.sharp == sharp).count() < if sharp { CORNERS } else { MOST } => {
                places.push(Gathered { place, sharp, points: vec![point] });
            }
            Some(_) | None => {}
        }
    }
    places
}

/// Numbers of the places that are seen with finer cells, of all with their margin, region and whether they lie at a sharp
/// corner, the least margin first: those that may come to be the worst of their region.
pub(in crate::verdict) fn worth_a_window<R: PartialEq>(places: impl Iterator<Item = (f64, R, bool)>) -> Vec<usize> {
    let mut least: Vec<(R, f64)> = Vec::new();
    let mut chosen = Vec::new();
    for (number, (margin, region, sharp)) in places.enumerate() {
        let known = least.iter().find(|known| known.0 == region).map(|known| known.1);
        if known.is_none() {
            least.push((region, margin));
        }
        if !sharp && margin < MAY_TAKE_OVER * known.unwrap_or(margin) && chosen.len() < WINDOWS {
            chosen.push(number);
        }
    }
    chosen
}

/// Points of a field that make one place, the worst first.
#[derive(Debug, Clone)]
pub(crate) struct Gathered<P> {
    pub(crate) place: P,
    /// Whether it lies at a sharp inner corner.
    pub(crate) sharp: bool,
    pub(crate) points: Vec<usize>,
}

/// Places listed, more only where a region has none among them.
const MOST: usize = 8;

/// Places at sharp inner corners listed at most.
const CORNERS: usize = 3;

/// Points of one place that are looked at over the whole cycle.
const CLOSER: usize = 6;

/// Places seen with finer cells at most, and of one region.
const WINDOWS: usize = 6;
const IN_REGION: usize = 3;

/// A place whose margin is more than this above the least of its region does not come to be the worst with finer cells: in
/// fillets the stress of the solved cells has come out half too low.
const MAY_TAKE_OVER: f64 = 2.0;

/// Joins points, each with its margin and place, to few places: those with the least margins, and the worst of every region.
/// Of points that are `alike` the worst stands for all.
pub(crate) fn gathered<P: Copy, R: PartialEq>(
    mut points: Vec<(f64, P, usize)>,
    sharp: impl Fn(usize) -> bool,
    region: impl Fn(&P) -> R,
    alike: impl Fn(&P, &P) -> bool,
) -> Vec<Gathered<P>> {
    points.sort_by(|a, b| a.0.total_cmp(&b.0).then(a.2.cmp(&b.2)));
    let mut places: Vec<Gathered<P>> = Vec::new();
    for (_, place, point) in points {
        let sharp = sharp(point);
        let known = places.iter().position(|known| known.sharp == sharp && alike(&known.place, &place));
        let listed = || places.iter().filter(|known| known.sharp == sharp);
        // At corners only the worst few are told, so that they do not crowd out what counts.
        let room = || listed().count() < if sharp { CORNERS } else { MOST };
        let first = || !sharp && listed().all(|known| region(&known.place) != region(&place));
        match known {
            Some(known) if places[known].points.len() < CLOSER => places[known].points.push(point),
            None if room() || first() => places.push(Gathered { place, sharp, points: vec![point] }),
            Some(_) | None => {}
        }
    }
    places
}

/// Numbers of the places that are seen with finer cells, of all with their margin, region and whether they lie at a sharp
/// corner, the least margin first: those that may come to be the worst of their region.
pub(crate) fn worth_a_window<R: PartialEq>(places: impl Iterator<Item = (f64, R, bool)>) -> Vec<usize> {
    // Of each region the least margin, and how many of its places are chosen.
    let mut regions: Vec<(R, f64, usize)> = Vec::new();
    let mut chosen = Vec::new();
    for (number, (margin, region, sharp)) in places.enumerate() {
        let known = regions.iter().position(|known| known.0 == region).unwrap_or_else(|| {
            regions.push((region, margin, 0));
            regions.len() - 1
        });
        let (_, least, taken) = &mut regions[known];
        if !sharp && margin <= MAY_TAKE_OVER * *least && *taken < IN_REGION && chosen.len() < WINDOWS {
            *taken += 1;
            chosen.push(number);
        }
    }
    chosen
}

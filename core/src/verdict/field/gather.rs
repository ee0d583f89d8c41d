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

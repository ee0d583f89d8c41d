use nalgebra::Point3;

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

/// Where a margin stands among others, to a hundred-thousandth of itself. Mirror images are equal but for rounding, which must
/// not choose between them: their facets, and so what finer cells find there, may differ.
pub(crate) fn standing(margin: f64, at: &Point3<f64>) -> (i64, [i64; 3]) {
    /// 1 over the length to which points are told apart, 1/m.
    const NANOMETRE: f64 = 1e9;
    (
        (libm::log(margin.max(f64::MIN_POSITIVE)) * 1e5).round() as i64,
        [at.z, at.y, at.x].map(|c| (c * -NANOMETRE).round() as i64),
    )
}

/// Joins points, each with its place, the worst first, to few places: those with the least margins, and the worst of every
/// region. Of points that are `alike` the worst stands for all.
pub(crate) fn gathered<P: Copy, R: PartialEq>(
    points: Vec<(P, usize)>,
    sharp: impl Fn(usize) -> bool,
    region: impl Fn(&P) -> R,
    alike: impl Fn(&P, &P) -> bool,
) -> Vec<Gathered<P>> {
    let mut places: Vec<Gathered<P>> = Vec::new();
    for (place, point) in points {
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

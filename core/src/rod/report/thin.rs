use nalgebra::Point3;

use crate::part::Rod;
use crate::report::ThinSectionReport;
use crate::rod::model::{Region, RodModel};
use crate::rod::place::RodPlace;

/// Stretches of neighbouring stations whose thinnest wall is below two bead widths.
pub(crate) fn thin_sections(rod: &Rod, model: &RodModel) -> Vec<ThinSectionReport> {
    let limit = 2.0 * model.print.bead_width;
    let mut stretches: Vec<Vec<(usize, f64)>> = Vec::new();
    let mut previous = None;
    for (index, station) in model.load_path() {
        let thin = station.ligament.map(|l| l.thickness).filter(|&thickness| thickness < limit);
        if let Some(thickness) = thin {
            match stretches.last_mut() {
                Some(stretch) if previous == index.checked_sub(1) => stretch.push((index, thickness)),
                _ => stretches.push(vec![(index, thickness)]),
            }
            previous = Some(index);
        }
    }
    let walls = stretches.iter().filter(|stretch| !grazes(model, stretch, limit));
    walls.filter_map(|stretch| described(rod, model, stretch, limit)).collect()
}

/// A cut that only grazes a rounded edge shows a sliver less than this share of a bead thick.
const SLIVER: f64 = 0.1;

/// Whether a stretch is an edge that cuts graze: it runs out to nothing and is shorter along the rod than a wall would have
/// to be thick. Behind the sliver the material goes on.
fn grazes(model: &RodModel, stretch: &[(usize, f64)], limit: f64) -> bool {
    let at = |end: Option<&(usize, f64)>| end.map_or(0.0, |&(index, _)| model.stations[index].section.position);
    let length = at(stretch.last()) - at(stretch.first());
    let runs_out = stretch.iter().any(|&(_, thickness)| thickness < SLIVER * model.print.bead_width);
    runs_out && length < limit
}

fn described(rod: &Rod, model: &RodModel, stretch: &[(usize, f64)], limit: f64) -> Option<ThinSectionReport> {
    let &(worst, thickness) = stretch.iter().min_by(|a, b| a.1.total_cmp(&b.1))?;
    let station = &model.stations[worst];
    let ligament = station.ligament?;
    let position = station.section.position;
    let center_mm = rod.frame.to_file_mm(&Point3::new(position, ligament.center.x, ligament.center.y));
    let at = |index: usize| model.stations[index].section.position * 1e3;
    let place = match station.region {
        Region::Shank => RodPlace::ShankAt { position }.to_string(),
        Region::SmallEnd => format!("small-end eye, {:.1} mm from its centre", position * 1e3),
        Region::BigEnd => format!("big-end eye, {:.1} mm from small-end centre", position * 1e3),
    };
    Some(ThinSectionReport {
        place,
        from_mm: at(stretch.first()?.0),
        to_mm: at(stretch.last()?.0),
        least_thickness_mm: thickness * 1e3,
        center_mm,
        limit_mm: limit * 1e3,
        reason: "thinner than two beads: one bead or a gap, not a sound wall".into(),
    })
}

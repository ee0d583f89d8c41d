use crate::rod::{RodMargin, RodStrength};
use std::sync::Arc;

use super::spots::{RodFieldFindings, RodFieldSpot};
use crate::job::Scenario;
use crate::numeric::sort_few_by_key;
use crate::rod::assess::joined;
use crate::rod::assessment::Assessment;
use crate::rod::model::{Region, RodModel};
use crate::rod::piece::Piece;
use crate::rod::place::{End, RodPlace};
use crate::rod::setting::Setting;
use crate::rod::stressing::Stressing;
use crate::rod::temperatures::Temperatures;
use crate::verdict::field::{ROUNDS, SAME, by_stress};

/// Factors on the stress of the section model that bring its margins down to those of a stress field where the field has
/// the lesser ones: so that speed, heat, changes of the input and all else are answered for what the field found.
///
/// Where the field has the greater margin nothing is lowered: the lesser counts.
#[derive(Debug, Clone, PartialEq)]
pub struct Raise {
    /// Of both eyes.
    pub eyes: [f64; 2],
    /// Of the shank, with the place each is for, m along the rod: the nearest station takes it.
    pub shank: Vec<(f64, f64)>,
}

impl Default for Raise {
    fn default() -> Self {
        Self { eyes: [1.0; 2], shank: Vec::new() }
    }
}

impl Raise {
    /// Whether it changes anything.
    pub fn any(&self) -> bool {
        self.eyes.iter().chain(self.shank.iter().map(|(_, factor)| factor)).any(|&factor| factor > 1.0)
    }

    /// Makes it act on a model that has none yet.
    pub(crate) fn on(&self, mut model: RodModel) -> RodModel {
        for (eye, &factor) in model.eyes.iter_mut().zip(&self.eyes) {
            if let Some(eye) = eye {
                eye.raise = factor;
            }
        }
        for &(position, factor) in &self.shank {
            if let Some(index) = nearest(&model, position) {
                for fibre in &mut model.stations[index].fibres {
                    *fibre = fibre.raised(factor);
                }
            }
        }
        model
    }

    fn add(&mut self, spot: &RodFieldSpot, factor: f64) {
        match spot.place {
            RodPlace::Eye { end, .. } => self.eyes[end as usize] *= factor,
            _ => match self.shank.iter_mut().find(|(at, _)| *at == spot.position.x) {
                Some((_, known)) => *known *= factor,
                None => self.shank.push((spot.position.x, factor)),
            },
        }
    }
}

fn nearest(model: &RodModel, position: f64) -> Option<usize> {
    let away = |k: &usize| (model.stations[*k].section.position - position).abs();
    let shank = (0..model.stations.len()).filter(|&k| model.stations[k].region == Region::Shank);
    shank.min_by(|a, b| away(a).total_cmp(&away(b)))
}

/// The factors that bring the margins of a model's eyes and stations down to those of the field's worst places.
pub(crate) fn raised(
    findings: &RodFieldFindings,
    model: &RodModel,
    loading: &crate::rod::loading::Loading,
    scenario: &Scenario,
    temperatures: &Temperatures,
) -> (Raise, Arc<RodModel>) {
    let mut raise = Raise::default();
    let mut now = Arc::new(model.clone());
    // The worst of each eye, and of the shank the worst alone: its neighbours share its fate.
    let worst_of = |region: Region| findings.spots.iter().find(|spot| spot.counts() && spot.place.region() == region);
    let spots: Vec<&RodFieldSpot> =
        [Region::SmallEnd, Region::Shank, Region::BigEnd].into_iter().filter_map(worst_of).collect();
    for _ in 0..ROUNDS {
        let stressing = Stressing::new(&now, loading, scenario, temperatures);
        let setting = Setting::new(&stressing, scenario, &scenario.card, temperatures);
        let mut changed = false;
        for spot in &spots {
            let piece = match spot.place {
                RodPlace::Eye { end, .. } => Piece::Eye(end),
                _ => nearest(model, spot.position.x).map_or(Piece::Eye(End::Small), Piece::Station),
            };
            let factor = least_by_stress(&setting, piece).map_or(0.0, |mode| mode.margin / spot.mode.margin.max(1e-9));
            if factor.is_finite() && factor > 1.0 + SAME {
                raise.add(spot, factor);
                changed = true;
            }
        }
        if !changed {
            break;
        }
        now = raise.on(model.clone()).into();
    }
    (raise, now)
}

/// What gives way first in a piece by the modes that stress at points makes.
pub(crate) fn least_by_stress(setting: &Setting<'_>, piece: Piece) -> Option<RodMargin> {
    let modes = joined(setting, &[piece]).strength.modes;
    modes.into_iter().filter(|mode| by_stress(mode.mode)).min_by(|a, b| a.margin.total_cmp(&b.margin))
}

/// Gives each mode the place where it truly is worst: of sections that were not raised and of the field's own places
/// whichever has the lesser margin.
///
/// `raised` is the assessment of the model raised to the field: what lasting and repeated load do to each region, and
/// the pieces to look at again, stay its own. `plain` is that of the sections alone, with the stresses they report.
pub(crate) fn named(raised: Assessment, plain: Assessment, findings: &RodFieldFindings) -> Assessment {
    let mut modes = plain.strength.modes;
    for found in findings.spots.iter().filter(|spot| spot.counts()).flat_map(|spot| &spot.modes) {
        match modes.iter_mut().find(|known| known.mode == found.mode) {
            Some(known) if found.margin < known.margin => *known = *found,
            Some(_) => {}
            None => modes.push(*found),
        }
    }
    sort_few_by_key(&mut modes, |known| known.mode);
    let strength = RodStrength { modes, ..raised.strength };
    Assessment { strength, stations: plain.stations, eyes: plain.eyes, pieces: raised.pieces }
}

use super::field::{AnyField, Driven, Judge, Points, Run, Spot, With};
use super::place::AnyPlace;
use super::prepared::PreparedAny;
use super::warmth::Warmth;
use crate::Error;
use crate::job::Scenario;
use crate::life::Link;
use crate::material::Card;
use crate::numeric::{map_in_order, sort_few, sort_few_by_key};
use crate::print::PrintSettings;
use crate::units::ROOM_K;
use crate::verdict::field::Angles;
use crate::verdict::{Mode, ModeMargin, PartStrength, ten_percent_factor};

/// A part with its solved field, ready to be judged with many inputs.
#[derive(Clone, Copy)]
pub(crate) struct AnyCase<'a> {
    pub(crate) prepared: &'a PreparedAny,
    pub(crate) field: &'a AnyField,
    pub(crate) points: &'a Points,
    pub(crate) warmth: &'a Warmth,
    pub(crate) run: &'a Run,
    pub(crate) scenario: &'a Scenario,
    pub(crate) card: &'a Card,
    pub(crate) print: &'a PrintSettings,
    /// Added to all temperatures, K.
    pub(crate) warmer: f64,
    /// Whether the lay of beads may be taken roughly, for many directions.
    pub(crate) roughly: bool,
}

impl<'a> AnyCase<'a> {
    pub(crate) fn judge(&self) -> Judge<'a> {
        let Self { scenario, card, print, warmer, roughly, .. } = *self;
        let with = With { scenario, card, print, warmer, roughly };
        Judge::new((self.prepared, self.field), self.points, self.run, &with)
    }

    /// Highest temperature, K, and where.
    pub(crate) fn hottest(&self) -> (f64, AnyPlace) {
        let (kelvin, place) = self.warmth.hottest();
        let at = place.map_or(AnyPlace::Whole, |region| {
            let found = &self.prepared.found[region];
            AnyPlace::At { region, name: found.name, distance: 0.0, point: found.center }
        });
        (kelvin + self.warmer, at)
    }
}

/// Strength of the part by some of its points: the worst of each mode near each of its places.
pub(crate) fn assess(case: &AnyCase<'_>, spots: &[Spot]) -> PartStrength<AnyPlace> {
    let judge = case.judge();
    let judged = map_in_order(spots.len(), |k| {
        let Spot { point, factor, finer } = spots[k];
        judge.judged(point, if case.roughly { Angles::Few } else { Angles::All }, factor, finer)
    });
    let mut modes: Vec<ModeMargin<AnyPlace>> = Vec::new();
    let mut links: Vec<(Option<usize>, f64, Link)> = Vec::new();
    for (judged, link) in judged.into_iter().flatten() {
        let running = judged.modes.iter().filter(|mode| mode.counts_time());
        let running = running.map(|mode| mode.margin).fold(f64::INFINITY, f64::min);
        judged.modes.into_iter().for_each(|mode| add(&mut modes, mode));
        let region = judged.place.region();
        match links.iter_mut().find(|known| known.0 == region) {
            Some(known) if running < known.1 => *known = (region, running, link),
            Some(_) => {}
            None => links.push((region, running, link)),
        }
    }
    modes.push(softening(case));
    for mode in bearing(case) {
        add(&mut modes, mode);
    }
    sort_few(&mut modes, |a, b| a.mode.cmp(&b.mode).then(a.place.region().cmp(&b.place.region())));
    sort_few_by_key(&mut links, |known| known.0);
    PartStrength {
        modes,
        links: links.into_iter().map(|(_, _, link)| link).collect(),
        strength_scatter: case.card.strength.scatter_log10.value,
        wanted_life: case.scenario.wanted_life,
    }
}

/// Keeps the worst place of each mode near each place of the job.
fn add(modes: &mut Vec<ModeMargin<AnyPlace>>, mode: ModeMargin<AnyPlace>) {
    let same =
        |known: &&mut ModeMargin<AnyPlace>| known.mode == mode.mode && known.place.region() == mode.place.region();
    match modes.iter_mut().find(same) {
        Some(known) if mode.margin < known.margin => *known = mode,
        Some(_) => {}
        None => modes.push(mode),
    }
}

/// The margin is the factor by which the temperature over the 23 °C of a test room could grow.
fn softening(case: &AnyCase<'_>) -> ModeMargin<AnyPlace> {
    let (kelvin, place) = case.hottest();
    let room = (case.card.softening() - ROOM_K).max(0.0);
    let margin = if kelvin >= case.card.softening() { 0.0 } else { (room / (kelvin - ROOM_K).max(1e-3)).min(99.0) };
    ModeMargin::at_once(Mode::Softening, place, margin)
}

/// Mean pressure of each pin on its bore.
fn bearing(case: &AnyCase<'_>) -> Vec<ModeMargin<AnyPlace>> {
    let pins = case.prepared.pins.iter().zip(&case.run.pin_forces);
    let pressed = pins.filter(|(_, force)| **force > 0.0).map(|(pin, force)| {
        let found = &case.prepared.found[pin.place];
        let area = 2.0 * pin.bore.seat.radius * pin.bore.seat.depth();
        let kelvin = case.warmth.at(|place| (found.center - case.prepared.found[place].center).norm()) + case.warmer;
        let material = case.card.at(kelvin.min(case.card.softening() - 0.01), case.scenario.moisture);
        let pressure = (force / area.max(1e-12)).max(1.0);
        let margin = ten_percent_factor(material.strength_scatter) * material.bearing_pressure / pressure;
        let place = AnyPlace::At { region: pin.place, name: found.name, distance: 0.0, point: found.center };
        ModeMargin::at_once(Mode::BearingPressure, place, margin)
    });
    pressed.collect()
}

/// The same with the loads of another speed or size.
///
/// # Errors
///
/// Where its pins cannot hold it.
pub(crate) fn driven(case: &AnyCase<'_>, spots: &[Spot], how: &Driven) -> Result<PartStrength<AnyPlace>, Error> {
    let run = case.field.run(case.prepared, how)?;
    Ok(assess(&AnyCase { run: &run, ..*case }, spots))
}

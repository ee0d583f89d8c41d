//! Eyes that run on their pins without a bearing or a bush.

use core::f64::consts::TAU;

use super::loading::Loading;
use super::model::RodModel;
use super::place::{End, RodMargin, RodPlace};
use super::setting::Setting;
use crate::engine::SliderCrank;
use crate::heat::crossflow_film;
use crate::job::{PartTemperature, Runs, Scenario};
use crate::journal::{JournalValues, Lubrication, PinPath, Sink, Sliding};
use crate::verdict::{Mode, ModeMargin};

/// A bore is worn out when one side of it has lost this share of its diameter (common practice, no source): 0.1 mm of 20 mm,
/// where a pin begins to knock.
const WORN_OUT: f64 = 0.005;

/// Diameter of a crank's webs over its throw, and their faces that air meets (common practice, no source).
const WEB_DIAMETERS: f64 = 2.5;
const WEB_FACES: f64 = 4.0;

/// Film of oil mist on metal, W/(m² K): that on the underside of a piston (memory).
const OIL_MIST: f64 = 300.0;

/// Margins beyond this are no number to compare with.
const MOST_MARGIN: f64 = 99.0;

/// A plastic bore on its pin over the duty.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Journal {
    /// What it slides like.
    pub values: JournalValues,
    /// Mean pressure times speed, Pa m/s.
    pub pressure_speed: f64,
    /// Heat of friction, W.
    pub heat: f64,
    /// By how much that warms the bore in the long run, K.
    pub rise: f64,
    /// Temperature of the bore without it, K.
    pub before: f64,
    /// Depth worn off within the wanted life, m.
    pub worn: f64,
    /// Depth at which the bore is worn out, m.
    pub worn_out: f64,
    /// Temperature at which the plastic softens, K.
    softening: f64,
}

impl Journal {
    /// Of an end, all speeds of the duty times a factor; `None` where the pin runs in a bearing or a bush, or where the eye
    /// could not be measured.
    pub fn of(model: &RodModel, loading: &Loading, scenario: &Scenario, factor: f64, end: End) -> Option<Self> {
        let lubrication = match scenario.runs[end as usize] {
            Runs::Dry => Lubrication::Dry,
            Runs::Greased => Lubrication::Greased,
            Runs::Oiled => Lubrication::Oiled,
            Runs::Bearing | Runs::Bush => return None,
        };
        let eye = model.eyes[end as usize]?;
        let crank = SliderCrank::new(scenario.engine.throw, model.length, scenario.engine.pin_offset).ok()?;
        let sliding = sliding(loading, &crank, factor, end, eye.radius);
        let area = 2.0 * eye.radius * eye.seat_depth;
        let values = JournalValues::of(&scenario.card.name, lubrication);
        let surroundings = &scenario.surroundings;
        let (pin, sink) = match end {
            End::Small => (surroundings.piston_pin, Sink::Held),
            End::Big => (surroundings.crank_pin, webs(loading, scenario, factor, lubrication)?),
        };
        let given = scenario.part_temperature == PartTemperature::Given;
        let heat = values.friction * sliding.force_speed();
        Some(Self {
            values,
            pressure_speed: sliding.pressure_speed(area),
            heat,
            rise: heat * PinPath { radius: eye.radius, length: eye.seat_depth, sink }.rise_per_watt(),
            before: if given { scenario.temperature } else { pin },
            worn: sliding.wear_depth(area, values.wear, scenario.wanted_life),
            worn_out: WORN_OUT * 2.0 * eye.radius,
            softening: scenario.card.softening(),
        })
    }

    /// Factor on all load at which the bore is too hot: by its limit of pressure times speed, or by softening.
    pub fn heat_margin(&self) -> f64 {
        let by_limit = self.values.limit / self.pressure_speed.max(f64::MIN_POSITIVE);
        let by_softening = (self.softening - self.before).max(0.0) / self.rise.max(f64::MIN_POSITIVE);
        by_limit.min(by_softening).min(MOST_MARGIN)
    }

    /// Factor on all load at which the bore is worn out within the wanted life.
    pub fn wear_margin(&self) -> f64 {
        (self.worn_out / self.worn.max(f64::MIN_POSITIVE)).min(MOST_MARGIN)
    }

    /// Temperature of the bore, K; that of its pin where friction softens it, as too much heat is then told by itself.
    pub fn bore(&self) -> f64 {
        let warm = self.before + self.rise;
        if warm < self.softening { warm } else { self.before }
    }
}

/// Margins of an eye that runs on its pin.
pub(crate) fn journal(setting: &Setting<'_>, end: End) -> impl Iterator<Item = RodMargin> {
    let stressing = setting.stressing;
    let found =
        Journal::of(setting.model, stressing.loading, setting.scenario, stressing.speed_factor, end).map(|found| {
            let at = |mode, margin| ModeMargin::at_once(mode, RodPlace::Bore { end }, margin);
            [at(Mode::JournalHeat, found.heat_margin()), at(Mode::JournalWear, found.wear_margin())]
        });
    found.into_iter().flatten()
}

/// Force and sliding speed at every crank angle: a big end turns about once a revolution on its pin, a small end swings.
pub(crate) fn sliding(loading: &Loading, crank: &SliderCrank, factor: f64, end: End, radius: f64) -> Sliding {
    let mut sliding = Sliding::default();
    for (step, &basis) in loading.duty.steps().iter().zip(&loading.basis_of_step) {
        let (basis, speed) = (&loading.bases[basis], step.angular_speed_rad_s() * factor);
        let stride = TAU * loading.turns_per_cycle / basis.angles() as f64;
        let seconds = step.seconds / basis.angles() as f64;
        for angle in 0..basis.angles() {
            // The rod turns against the sense in which its angle counts.
            let swing = crank.at(angle as f64 * stride, 1.0).rod_angular_velocity_rad_s;
            let (force, turning) = match end {
                End::Small => (basis.small_end(angle, speed), swing),
                End::Big => (basis.big_end(angle, speed), 1.0 + swing),
            };
            sliding = sliding.with(libm::hypot(force.along, force.across), turning * speed * radius, seconds);
        }
    }
    sliding
}

/// The crank's webs in the air or the oil mist of the crankcase.
fn webs(loading: &Loading, scenario: &Scenario, factor: f64, lubrication: Lubrication) -> Option<Sink> {
    let throw = scenario.engine.throw;
    let duty = &loading.duty;
    let mut film = 0.0;
    for step in duty.steps() {
        let speed = step.angular_speed_rad_s() * factor * throw;
        film += crossflow_film(speed, throw, scenario.surroundings.air, 1e5).ok()? * step.seconds / duty.total_s();
    }
    if lubrication == Lubrication::Oiled {
        film = film.max(OIL_MIST);
    }
    let face = 0.25 * core::f64::consts::PI * (WEB_DIAMETERS * throw) * (WEB_DIAMETERS * throw);
    Some(Sink::Cooled { area: WEB_FACES * face, film })
}

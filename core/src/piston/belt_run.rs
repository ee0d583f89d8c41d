//! The ring belt through one run: a fin from pin to crown.

use super::crown_run::{Course, CrownWall, RunRow};
use super::model::PistonModel;
use crate::heat::{ChainEnd, Film, Fin, FinCooling, FinMaterial, FinStation, HeatError, StepPace};
use crate::job::{PistonScenario, Scenario};
use crate::material::Card;

/// Stations of the ring belt as a fin: they stand a third of a millimetre apart on a small piston, a sixth of the depth
/// to which heat reaches beside a cooled wall.
const BELT_STATIONS: usize = 60;

/// Steps within a piece of the belt's time, which is short already.
fn belt_pace(seconds: f64) -> StepPace {
    StepPace { first: seconds * 0.02, growth: 2.0, longest: seconds / 4.0 }
}

/// A step in pieces, so that the land's temperature is known as time passes, one of which ends where the crown is lost: where
/// each begins, how long it is and where it ends, s.
fn pieces(seconds: f64, lost: f64) -> Vec<(f64, f64, f64)> {
    const PIECES: u32 = 24;
    let share = seconds / f64::from(PIECES);
    let mut found = Vec::new();
    for piece in 0..PIECES {
        let (from, to) = (share * f64::from(piece), seconds * f64::from(piece + 1) / f64::from(PIECES));
        // A sliver of time is none.
        if lost > from + 1e-3 * share && lost < to - 1e-3 * share {
            found.extend([(from, lost - from, lost), (lost, to - lost, to)]);
        } else {
            found.push((from, share, to));
        }
    }
    found
}

/// The ring belt as a fin from pin to crown, cooled by the cylinder's wall.
pub(crate) struct Belt {
    fin: Fin,
    pub(crate) heights: Vec<f64>,
    top_area: f64,
    /// Station at the lower edge of the top land.
    land: usize,
    film: f64,
    wall: f64,
}

pub(crate) struct BeltCourse {
    pub(crate) judged: Vec<f64>,
    /// Until something is lost.
    pub(crate) hottest_land: f64,
    /// In the whole run.
    pub(crate) reached: f64,
    pub(crate) soft: Option<f64>,
}

impl Belt {
    pub(crate) fn new(
        model: &PistonModel,
        scenario: &Scenario,
        piston: &PistonScenario,
        card: &Card,
    ) -> Result<Self, HeatError> {
        let material = card.at(scenario.temperature, scenario.moisture);
        let crown = model.crown.underside + model.crown.mean;
        let heights: Vec<f64> = (0..=BELT_STATIONS).map(|k| crown * k as f64 / BELT_STATIONS as f64).collect();
        let perimeter = core::f64::consts::TAU * model.crown.radius;
        let stations: Vec<FinStation> = heights
            .iter()
            .map(|&position| FinStation { position, area: model.belt_area(position), perimeter })
            .collect();
        let stuff = FinMaterial {
            conductivity: material.conductivity_along(model.print.build.x),
            volumetric_heat: material.volumetric_heat(),
        };
        let top_area = stations.last().map_or(0.0, |station| station.area);
        let edge = model.top_land_edge.unwrap_or(crown - model.crown_thickness);
        let land = heights.partition_point(|&height| height < edge).min(BELT_STATIONS);
        Ok(Self {
            fin: Fin::new(&stations, stuff)?,
            heights,
            top_area,
            land,
            film: piston.wall_film,
            wall: piston.cylinder_wall,
        })
    }

    pub(crate) fn follow(
        &self,
        crown: &CrownWall,
        course_of_crown: &Course,
        films: &[Film],
        row: &RunRow,
    ) -> Result<BeltCourse, HeatError> {
        let Course { start, softening, judged_at, .. } = *course_of_crown;
        let mut run = self.fin.start(start)?;
        let mut course =
            BeltCourse { judged: run.temperatures.clone(), hottest_land: start, reached: start, soft: None };
        let lost = course_of_crown.soft.unwrap_or(f64::INFINITY);
        let mut passed = 0.0;
        for &(step, seconds) in row {
            let film = films[step];
            for (from, share, to) in pieces(seconds, lost - passed) {
                let top = if crown.plastic == 0 {
                    let conductance = self.top_area * film.coefficient;
                    ChainEnd::Contact { conductance, temperature: film.temperature }
                } else {
                    // What lies on the crown holds back the belt's heat as it does the crown's: both have one face.
                    let from = passed + from;
                    ChainEnd::Held(course_of_crown.face(from).max(course_of_crown.face(from + share)))
                };
                let cooling = FinCooling {
                    film_coefficient: self.film,
                    air_temperature: self.wall,
                    ends: [ChainEnd::Insulated, top],
                };
                let before = (run.seconds, run.temperatures[self.land]);
                self.fin.run(&mut run, &cooling, |_, _| 0.0, share, belt_pace(share), 1e6)?;
                let now = (passed + to, run.temperatures[self.land]);
                course.reached = course.reached.max(now.1);
                if course.soft.is_none() && now.0 <= lost * (1.0 + 1e-9) {
                    course.hottest_land = course.hottest_land.max(now.1.min(softening.max(start)));
                }
                if course.soft.is_none() && now.1 >= softening {
                    let along = if now.1 > before.1 { (softening - before.1) / (now.1 - before.1) } else { 0.0 };
                    course.soft = Some(before.0 + along.clamp(0.0, 1.0) * (now.0 - before.0));
                }
                if now.0 <= judged_at * (1.0 + 1e-9) || judged_at == 0.0 {
                    course.judged.copy_from_slice(&run.temperatures);
                }
            }
            passed += seconds;
        }
        Ok(course)
    }
}

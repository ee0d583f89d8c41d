use super::assess::PistonCase;
use super::belt_run::Belt;
use super::crown_run::{CrownMoment, CrownWall, RunRow};
use super::loading::{GasFilms, PistonLoading};
use super::model::PistonModel;
use crate::heat::{Film, HeatError};
use crate::job::{PartTemperature, PistonScenario, Scenario};
use crate::material::Card;

/// A run that goes on until heat settles is this many time constants of the wall long.
const SETTLED: f64 = 5.0;

/// Steps of a duty that are followed one by one; with more, heat takes their mean.
const FOLLOWED: usize = 60;

/// Rows of the table of softening against time.
const ROWS: usize = 24;

/// A piston in one run from cold.
#[derive(Debug, Clone, PartialEq)]
pub struct WarmPiston {
    /// Depths in the plastic below its upper face, m.
    pub depths: Vec<f64>,
    /// Temperatures there when the crown is judged, K: when its face is hottest, or when it counts as soft.
    pub crown: Vec<f64>,
    /// Heights along the ring belt, m over the pin axis, from below.
    pub belt_heights: Vec<f64>,
    /// Temperatures there when the crown is judged, K.
    pub belt: Vec<f64>,
    /// Highest temperature of the face to the gas, plate or plastic, K; what is lost gets no hotter, here and below.
    pub surface: f64,
    /// Highest temperature of the plastic's own face, K.
    pub plastic_face: f64,
    /// Depth that counts, m, with the highest temperature there, K.
    pub counting_depth: (f64, f64),
    /// Highest temperature of the top land's lower edge, K.
    pub land: f64,
    /// What the depth that counts and the top land's lower edge would reach in the whole run were nothing lost, K: margins
    /// go by that.
    pub reached: [f64; 2],
    /// Time until the depth that counts is soft, s.
    pub crown_soft: Option<f64>,
    /// Time until the top land is soft through, s.
    pub land_soft: Option<f64>,
    /// What happens as time passes.
    pub moments: Vec<CrownMoment>,
    /// Length of the run followed, s.
    pub run: f64,
    /// Temperature before it, K.
    pub start: f64,
    /// Temperature at which the plastic softens, K.
    pub softening: f64,
    /// Heat in less heat stored less heat out, share of the heat in; crown.
    pub imbalance: f64,
    /// Films taken in each step of the duty.
    pub films: Vec<Film>,
    /// Whether strength is taken at these temperatures: not where one is given for the whole part.
    pub counts: bool,
}

impl WarmPiston {
    /// Follows one run at a factor on all speeds, with the material of a card and whichever correlation of the gas film
    /// softens the crown sooner; where neither does, the one that brings the depth that counts to the higher temperature.
    pub fn new(
        model: &PistonModel,
        loading: &PistonLoading,
        scenario: &Scenario,
        piston: &PistonScenario,
        card: &Card,
        factor: f64,
    ) -> Result<Self, HeatError> {
        let films = loading.films(&scenario.engine, factor)?;
        let softening = card.softening();
        let crown = CrownWall::new(model, scenario, piston, card)?;
        let start = match scenario.part_temperature {
            PartTemperature::AfterRun { start, .. } => start,
            _ => piston.start,
        };
        let run = match scenario.part_temperature {
            PartTemperature::AfterRun { seconds, .. } => seconds,
            _ => (SETTLED * crown.time_constant()).max(2.0 * loading.duty.total_s().min(3600.0)),
        };
        // Where the crown is thinnest the least depth softens it through.
        let counting = piston.soft_share * model.thinnest_crown();
        let course = |pick: fn(&GasFilms) -> Film| -> Result<_, HeatError> {
            let (row, films) = row(loading, films.iter().map(pick).collect(), run);
            let followed = crown.follow(&films, &row, (start, softening), counting, f64::INFINITY)?;
            Ok((row, films, followed))
        };
        let (by_hohenberg, by_woschni) = (course(|both| both.hohenberg)?, course(|both| both.woschni)?);
        let (row, severe, mut followed) = if by_woschni.2.sooner(&by_hohenberg.2) { by_woschni } else { by_hohenberg };
        let row = &row;
        let follow = |until: f64| crown.follow(&severe, row, (start, softening), counting, until);
        let belt = Belt::new(model, scenario, piston, card)?;
        let mut cooled = belt.follow(&crown, &followed, &severe, row)?;
        if let Some(lost) = cooled.soft.filter(|&lost| lost < followed.judged_at) {
            // With the top land the piston is lost: the crown is judged as it is then.
            followed = follow(lost)?;
            cooled = belt.follow(&crown, &followed, &severe, row)?;
        }
        let lost = [followed.soft, cooled.soft].into_iter().flatten().fold(f64::INFINITY, f64::min);
        let moments = followed.until(lost);
        let hottest = |pick: fn(&CrownMoment) -> f64| moments.iter().map(pick).fold(start, f64::max);
        let counts = scenario.part_temperature != PartTemperature::Given;
        let taken = |found: Vec<f64>| if counts { found } else { vec![scenario.temperature; found.len()] };
        Ok(Self {
            depths: crown.depths(),
            crown: taken(followed.judged),
            belt_heights: belt.heights,
            belt: taken(cooled.judged),
            surface: hottest(|m| m.surface),
            plastic_face: hottest(|m| m.plastic_face),
            counting_depth: (counting, hottest(|m| m.counting)),
            land: cooled.hottest_land,
            reached: [followed.reached, cooled.reached],
            crown_soft: followed.soft,
            land_soft: cooled.soft,
            start,
            softening,
            moments: thinned(&moments),
            run,
            imbalance: followed.imbalance,
            films: severe,
            counts,
        })
    }

    /// Temperature of the ring belt at a height, K, linear between stations.
    pub fn belt_at(&self, height: f64) -> f64 {
        along(&self.belt_heights, &self.belt, height)
    }

    /// Temperature of the crown at a depth, K, linear between cells.
    pub fn crown_at(&self, depth: f64) -> f64 {
        along(&self.depths, &self.crown, depth)
    }

    /// Mean temperature through the crown, K.
    pub fn crown_mean(&self) -> f64 {
        let parts = self.depths.windows(2).zip(self.crown.windows(2));
        let whole = self.depths.last().copied().unwrap_or(1.0) - self.depths.first().copied().unwrap_or(0.0);
        parts.map(|(z, t)| (z[1] - z[0]) * f64::midpoint(t[0], t[1])).sum::<f64>() / whole
    }

    /// First time at which crown or top land is soft, s.
    pub fn soft(&self) -> Option<f64> {
        [self.crown_soft, self.land_soft].into_iter().flatten().reduce(f64::min)
    }
}

/// Time until the depth that counts is soft by each correlation of the gas film alone, s: Hohenberg, Woschni.
pub(crate) fn soft_by_correlation(case: &PistonCase<'_>) -> Result<[Option<f64>; 2], HeatError> {
    let PistonCase { model, loading, scenario, piston, warm, .. } = *case;
    let films = loading.films(&scenario.engine, case.factor)?;
    let crown = CrownWall::new(model, scenario, piston, &scenario.card)?;
    let soft = |pick: fn(&GasFilms) -> Film| -> Result<Option<f64>, HeatError> {
        let (row, picked) = row(loading, films.iter().map(pick).collect(), warm.run);
        Ok(crown.follow(&picked, &row, (warm.start, warm.softening), warm.counting_depth.0, f64::INFINITY)?.soft)
    };
    Ok([soft(|both| both.hohenberg)?, soft(|both| both.woschni)?])
}

/// Of values at rising places the one at a place, linear between and even beyond.
fn along(places: &[f64], values: &[f64], at: f64) -> f64 {
    let above = places.partition_point(|&place| place <= at).clamp(1, places.len() - 1);
    let share = ((at - places[above - 1]) / (places[above] - places[above - 1])).clamp(0.0, 1.0);
    values[above - 1] + share * (values[above] - values[above - 1])
}

/// The steps of one run, and the film of each; a run of very many steps has their mean instead.
fn row(loading: &PistonLoading, films: Vec<Film>, run: f64) -> (RunRow, Vec<Film>) {
    let steps = loading.duty.steps();
    let repeats = run / loading.duty.total_s();
    if repeats * steps.len() as f64 > FOLLOWED as f64 {
        let weight = |pick: fn(&Film) -> f64| -> f64 {
            steps.iter().zip(&films).map(|(step, film)| step.seconds * pick(film)).sum::<f64>() / loading.duty.total_s()
        };
        let coefficient = weight(|film| film.coefficient);
        let temperature = weight(|film| film.coefficient * film.temperature) / coefficient;
        return (vec![(0, run)], vec![Film { coefficient, temperature }]);
    }
    let mut row = RunRow::new();
    let mut left = run;
    while left > 0.0 {
        for (index, step) in steps.iter().enumerate() {
            let seconds = step.seconds.min(left);
            // A remainder of rounding is no step.
            if seconds > 1e-9 * run {
                row.push((index, seconds));
            }
            left -= seconds;
            if left <= 1e-9 * run {
                return (row, films);
            }
        }
    }
    (row, films)
}

/// Rows at about even ratios of time, first and last among them.
fn thinned(moments: &[CrownMoment]) -> Vec<CrownMoment> {
    let (Some(first), Some(last)) = (moments.first(), moments.last()) else { return Vec::new() };
    let low = first.seconds.max(last.seconds * 1e-3);
    let mut rows: Vec<CrownMoment> = Vec::new();
    for k in 0..ROWS {
        let wanted = low * libm::pow(last.seconds / low, k as f64 / (ROWS - 1) as f64);
        let at = moments.partition_point(|m| m.seconds < wanted * (1.0 - 1e-9)).min(moments.len() - 1);
        if rows.last().is_none_or(|row| row.seconds < moments[at].seconds) {
            rows.push(moments[at]);
        }
    }
    rows
}

use super::loading::{GasFilms, PistonLoading};
use super::model::PistonModel;
use crate::heat::{
    CrownStep, End, Film, Fin, FinCooling, FinMaterial, FinStation, HeatError, Joint, Pace, SoftenedDepth, Wall,
    WallLayer,
};
use crate::job::{PartTemperature, PistonScenario, Scenario};
use crate::material::Card;

/// Cells through the plastic of a crown; sixty follow it within a few thousandths.
const CELLS: usize = 60;

/// Cells through a layer on it: metal is nearly even.
const LAYER_CELLS: usize = 6;

/// Stations of the ring belt as a fin: they stand a third of a millimetre apart on a small piston, a sixth of the depth
/// to which heat reaches beside a cooled wall.
const BELT_STATIONS: usize = 60;

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
    /// Highest temperature of the face to the gas, plate or plastic, K.
    pub surface: f64,
    /// Highest temperature of the plastic's own face, K.
    pub plastic_face: f64,
    /// Depth that counts, m, with the highest temperature there, K.
    pub counting_depth: (f64, f64),
    /// Highest temperature of the top land's lower edge, K.
    pub land: f64,
    /// Time until the depth that counts is soft, s.
    pub crown_soft: Option<f64>,
    /// Time until the top land is soft through, s.
    pub land_soft: Option<f64>,
    /// Time until the depth that counts is soft by each correlation, s: Hohenberg, Woschni.
    pub by_correlation: [Option<f64>; 2],
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

/// The crown at one time.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CrownMoment {
    /// Since the start, s.
    pub seconds: f64,
    /// Face to the gas, K.
    pub surface: f64,
    /// Face of the plastic, K.
    pub plastic_face: f64,
    /// Underside, K.
    pub underside: f64,
    /// Depth of the plastic that is soft, m.
    pub soft_depth: f64,
}

/// What is followed through a run.
struct Course {
    start: f64,
    softening: f64,
    moments: Vec<CrownMoment>,
    soft: Option<f64>,
    judged: Vec<f64>,
    judged_at: f64,
    hottest_face: f64,
    hottest_surface: f64,
    hottest_counting: f64,
    imbalance: f64,
}

impl Course {
    /// The plastic's own face at a time, K, linear between what was followed.
    fn face(&self, seconds: f64) -> f64 {
        let after = self.moments.partition_point(|moment| moment.seconds < seconds);
        let Some(next) = self.moments.get(after) else {
            return self.moments.last().map_or(self.start, |moment| moment.plastic_face);
        };
        let (from, face) = match after.checked_sub(1) {
            Some(before) => (self.moments[before].seconds, self.moments[before].plastic_face),
            None => (0.0, self.start),
        };
        if next.seconds <= from {
            return next.plastic_face;
        }
        face + (seconds - from) / (next.seconds - from) * (next.plastic_face - face)
    }
}

/// Steps of one run, in order: which step of the duty and for how long, s.
type Row = Vec<(usize, f64)>;

impl WarmPiston {
    /// Follows one run at a factor on all speeds, with the material of a card; with both correlations of the gas film.
    pub fn new(
        model: &PistonModel,
        loading: &PistonLoading,
        scenario: &Scenario,
        piston: &PistonScenario,
        card: &Card,
        factor: f64,
    ) -> Result<Self, HeatError> {
        let mut warm = Self::judged(model, loading, scenario, piston, card, factor)?;
        let films = loading.films(&scenario.engine, factor)?;
        let crown = CrownWall::new(model, scenario, piston, card)?;
        let soft = |pick: fn(&GasFilms) -> Film| -> Result<Option<f64>, HeatError> {
            let (row, picked) = row(loading, films.iter().map(pick).collect(), warm.run);
            let counting = warm.counting_depth.0;
            Ok(crown.follow(&picked, &row, warm.start, card.softening(), counting)?.soft)
        };
        warm.by_correlation = [soft(|both| both.hohenberg)?, soft(|both| both.woschni)?];
        Ok(warm)
    }

    /// The same with the more severe correlation alone.
    pub(crate) fn judged(
        model: &PistonModel,
        loading: &PistonLoading,
        scenario: &Scenario,
        piston: &PistonScenario,
        card: &Card,
        factor: f64,
    ) -> Result<Self, HeatError> {
        let films = loading.films(&scenario.engine, factor)?;
        let softening = card.softening();
        let severe: Vec<Film> = films.iter().map(|both| both.severe(softening)).collect();
        let crown = CrownWall::new(model, scenario, piston, card)?;
        let start = match scenario.part_temperature {
            PartTemperature::AfterRun { start, .. } => start,
            _ => piston.start,
        };
        let run = match scenario.part_temperature {
            PartTemperature::AfterRun { seconds, .. } => seconds,
            _ => (SETTLED * crown.time_constant()).max(2.0 * loading.duty.total_s().min(3600.0)),
        };
        let (row, severe) = row(loading, severe, run);
        let row = &row;
        let counting = piston.soft_share * model.crown_thickness;
        let followed = crown.follow(&severe, row, start, softening, counting)?;
        let belt = Belt::new(model, scenario, piston, card)?;
        let cooled = belt.follow(&crown, &followed, &severe, row)?;
        let counts = scenario.part_temperature != PartTemperature::Given;
        let taken = |found: Vec<f64>| if counts { found } else { vec![scenario.temperature; found.len()] };
        Ok(Self {
            depths: crown.depths(),
            crown: taken(followed.judged),
            belt_heights: belt.heights,
            belt: taken(cooled.judged),
            surface: followed.hottest_surface,
            plastic_face: followed.hottest_face,
            counting_depth: (counting, followed.hottest_counting),
            land: cooled.hottest_land,
            crown_soft: followed.soft,
            land_soft: cooled.soft,
            by_correlation: [None; 2],
            start,
            softening,
            moments: thinned(&followed.moments),
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

/// Of values at rising places the one at a place, linear between and even beyond.
fn along(places: &[f64], values: &[f64], at: f64) -> f64 {
    let above = places.partition_point(|&place| place <= at).clamp(1, places.len() - 1);
    let share = ((at - places[above - 1]) / (places[above] - places[above - 1])).clamp(0.0, 1.0);
    values[above - 1] + share * (values[above] - values[above - 1])
}

/// The steps of one run, and the film of each; a run of very many steps has their mean instead.
fn row(loading: &PistonLoading, films: Vec<Film>, run: f64) -> (Row, Vec<Film>) {
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
    let mut row = Row::new();
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

/// Steps that start fine after every change, as the duty's own length asks.
fn pace(seconds: f64) -> Pace {
    Pace { first: (seconds * 1e-4).min(2e-3), growth: 1.12, longest: (seconds / 60.0).max(1e-3) }
}

/// Steps within a piece of the belt's time, which is short already.
fn belt_pace(seconds: f64) -> Pace {
    Pace { first: seconds * 0.02, growth: 2.0, longest: seconds / 4.0 }
}

struct CrownWall {
    wall: Wall,
    plastic: usize,
    back: Film,
    constant: f64,
}

impl CrownWall {
    fn new(model: &PistonModel, scenario: &Scenario, piston: &PistonScenario, card: &Card) -> Result<Self, HeatError> {
        let material = card.at(scenario.temperature, scenario.moisture);
        let mut layers: Vec<WallLayer> = piston
            .layers
            .iter()
            .map(|layer| WallLayer {
                thickness: layer.thickness,
                conductivity: layer.conductivity,
                volumetric_heat: layer.density * layer.specific_heat,
                cells: LAYER_CELLS,
            })
            .collect();
        let joints: Vec<Joint> =
            piston.layers.iter().map(|layer| layer.joint.map_or(Joint::Perfect, Joint::Conductance)).collect();
        let cover = layers.iter().map(|layer| layer.thickness / layer.conductivity).sum::<f64>()
            + piston.layers.iter().filter_map(|layer| layer.joint).map(|joint| 1.0 / joint).sum::<f64>();
        let plastic = WallLayer {
            thickness: model.crown_thickness,
            conductivity: material.conductivity_along(model.print.build.x),
            volumetric_heat: material.volumetric_heat(),
            cells: CELLS,
        };
        layers.push(plastic);
        let capacity: f64 = layers.iter().map(|layer| layer.thickness * layer.volumetric_heat).sum();
        let resistance = cover + plastic.thickness / plastic.conductivity;
        let back = Film { coefficient: piston.underside_film, temperature: scenario.surroundings.air };
        Ok(Self {
            wall: Wall::new(&layers, &joints)?,
            plastic: piston.layers.len(),
            back,
            constant: capacity * resistance,
        })
    }

    /// Heat capacity times resistance, s.
    fn time_constant(&self) -> f64 {
        self.constant
    }

    fn depths(&self) -> Vec<f64> {
        let Some(range) = self.wall.layer(self.plastic) else { return Vec::new() };
        let depths = &self.wall.depths()[range];
        depths.iter().map(|depth| depth - depths[0]).collect()
    }

    fn follow(
        &self,
        films: &[Film],
        row: &Row,
        start: f64,
        softening: f64,
        counting: f64,
    ) -> Result<Course, HeatError> {
        let Some(range) = self.wall.layer(self.plastic) else { return Err(HeatError::NoWayOut) };
        let depths = self.depths();
        let below = depths.partition_point(|&depth| depth < counting).clamp(1, depths.len() - 1);
        let share = (counting - depths[below - 1]) / (depths[below] - depths[below - 1]);
        let mut watch = SoftenedDepth::new(self.plastic, softening, &[counting])?;
        let mut run = self.wall.start(start)?;
        let mut course = Course {
            start,
            softening,
            moments: Vec::new(),
            soft: None,
            judged: vec![start; depths.len()],
            judged_at: 0.0,
            hottest_face: start,
            hottest_surface: start,
            hottest_counting: start,
            imbalance: 0.0,
        };
        let mut judging = f64::NEG_INFINITY;
        for &(step, seconds) in row {
            let step = CrownStep { seconds, gas: films[step], back: self.back };
            self.wall.run(&mut run, &step, pace(seconds), &mut watch, |now, soft_depth| {
                let plastic = &now.temperatures[range.clone()];
                let at_depth = plastic[below - 1] + share * (plastic[below] - plastic[below - 1]);
                course.hottest_counting = course.hottest_counting.max(at_depth);
                course.hottest_face = course.hottest_face.max(plastic[0]);
                course.hottest_surface = course.hottest_surface.max(now.temperatures[0]);
                if course.soft.is_none() && plastic[0] > judging {
                    judging = plastic[0];
                    course.judged.copy_from_slice(plastic);
                    course.judged_at = now.seconds;
                    // What comes after the crown is lost does not matter for the rest.
                    if at_depth >= softening {
                        course.soft = Some(now.seconds);
                    }
                }
                course.moments.push(CrownMoment {
                    seconds: now.seconds,
                    surface: now.temperatures[0],
                    plastic_face: plastic[0],
                    underside: plastic[plastic.len() - 1],
                    soft_depth,
                });
            })?;
        }
        course.soft = watch.marks()[0].1;
        course.imbalance = run.balance.imbalance();
        Ok(course)
    }
}

/// The ring belt as a fin from pin to crown, cooled by the cylinder's wall.
struct Belt {
    fin: Fin,
    heights: Vec<f64>,
    top_area: f64,
    /// Station at the lower edge of the top land.
    land: usize,
    film: f64,
    wall: f64,
}

struct BeltCourse {
    judged: Vec<f64>,
    hottest_land: f64,
    soft: Option<f64>,
}

impl Belt {
    fn new(model: &PistonModel, scenario: &Scenario, piston: &PistonScenario, card: &Card) -> Result<Self, HeatError> {
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

    fn follow(
        &self,
        crown: &CrownWall,
        course_of_crown: &Course,
        films: &[Film],
        row: &Row,
    ) -> Result<BeltCourse, HeatError> {
        let Course { start, softening, judged_at, .. } = *course_of_crown;
        let mut run = self.fin.start(start)?;
        let mut course = BeltCourse { judged: run.temperatures.clone(), hottest_land: start, soft: None };
        let mut passed = 0.0;
        for &(step, seconds) in row {
            let film = films[step];
            // In pieces, so that the land's temperature is known as time passes.
            let pieces = 24;
            for piece in 0..pieces {
                let share = seconds / f64::from(pieces);
                let top = if crown.plastic == 0 {
                    let conductance = self.top_area * film.coefficient;
                    End::Contact { conductance, temperature: film.temperature }
                } else {
                    // What lies on the crown holds back the belt's heat as it does the crown's: both have one face.
                    let from = passed + share * f64::from(piece);
                    End::Held(course_of_crown.face(from).max(course_of_crown.face(from + share)))
                };
                let cooling =
                    FinCooling { film_coefficient: self.film, air_temperature: self.wall, ends: [End::Insulated, top] };
                let before = (run.seconds, run.temperatures[self.land]);
                self.fin.run(&mut run, &cooling, |_, _| 0.0, share, belt_pace(share), 1e6)?;
                let now = (passed + seconds * f64::from(piece + 1) / f64::from(pieces), run.temperatures[self.land]);
                course.hottest_land = course.hottest_land.max(now.1);
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

//! From a mesh and a job to the way it should lie.

use nalgebra::Vector3;

use crate::Error;
use crate::check::{PartSource, PreparedRod, Printed, Question, Stage, Watcher, prepare, stage};
use crate::job::{NamedPose, resolve_pace};
use crate::orient::{DirectionScore, Mirrors, Scorer, Shape, best_around, chosen, equal_area, mirrors, pareto};
use crate::print::PrintSettings;
use crate::report::{CAUTIONS, DirectionReport, DirectionsReport, NamedDirections, Recommended, SCHEMA_VERSION};
use crate::threads::map_in_order;
use crate::verdict::{Assessment, HotSpots, Mode, RodCuts, Stressing, warmth};

/// Directions scored unless said otherwise.
pub const USUAL_DIRECTIONS: usize = 1000;

/// Fewest and most directions.
pub const DIRECTION_RANGE: (usize, usize) = (20, 100_000);

/// The three ways a rod can lie, as its frame has them.
const NAMED: [NamedPose; 3] = [NamedPose::Flat, NamedPose::OnEdge, NamedPose::Upright];

/// Scores build directions of a connecting rod and recommends one.
pub fn directions<'a>(
    source: impl Into<PartSource<'a>>,
    question: &Question<'_>,
    count: usize,
    watcher: &mut dyn Watcher,
) -> Result<DirectionsReport, Error> {
    let (low, high) = DIRECTION_RANGE;
    if !(low..=high).contains(&count) {
        return Err(Error::DirectionCount { count, low, high });
    }
    let prepared = prepare(source, question, watcher)?;
    let (pace, assumptions) = resolve_pace(question.job)?;
    stage(watcher, Stage::Cutting)?;
    let PreparedRod { scenario, rod, print, .. } = &prepared;
    let cuts = RodCuts::new(rod, scenario.stations);
    let printed = Printed::new(&prepared, &cuts)?;
    stage(watcher, Stage::Assessing)?;
    let temperatures = printed.warm(&prepared)?.at(1.0)?.temperatures;
    let stressing = Stressing::new(&printed.model, &printed.loading, scenario, &temperatures);
    let spots = HotSpots::new(&stressing, scenario, &temperatures);
    let shape = Shape::new(&rod.mesh);
    let (low, high) = rod.mesh.bounds();
    let mirrors = mirrors(&shape, f64::midpoint(low.z, high.z));
    let plastic = printed.model.mass.mass() / scenario.card.density_kg_m3.value;
    let frame = &rod.frame;
    let bores = [&rod.small_end, &rod.big_end].map(|eye| frame.direction(&eye.bore.axis).normalize());
    let scorer = Scorer { spots: &spots, shape: &shape, print: *print, pace, plastic, bores };
    stage(watcher, Stage::Directions)?;
    let scores = scored(&scorer, count, mirrors);
    let flags = pareto(&scores);
    let Some(choice) = chosen(&scores) else {
        return Err(Error::DirectionCount { count: 0, low: DIRECTION_RANGE.0, high: DIRECTION_RANGE.1 });
    };
    // What is named is checked in full: infill, mass and heat follow the direction there.
    let mut asked: Vec<Vector3<f64>> = NAMED.iter().map(|pose| pose.in_part_frame()).collect();
    asked.push(scores[choice.index].build);
    let full = map_in_order(asked.len(), |k| checked(&prepared, &cuts, asked[k]));
    let full: Vec<Assessment> = full.into_iter().collect::<Result<_, _>>()?;
    let report = |score: &DirectionScore, pareto: bool| described(&prepared, score, pareto);
    let pose = |k: usize| {
        let index = scores.iter().position(|score| score.build == asked[k]);
        let score = index.map_or_else(|| scorer.score(&asked[k]), |index| scores[index].clone());
        with_check(&report(&score, index.is_some_and(|index| flags[index])), &full[k])
    };
    let named = NamedDirections { flat: pose(0), on_edge: pose(1), upright: pose(2) };
    let direction = with_check(&report(&scores[choice.index], flags[choice.index]), &full[NAMED.len()]);
    let reason = reason(&direction, &named, &scores[choice.index].build, scenario.wanted_life);
    Ok(DirectionsReport {
        schema_version: SCHEMA_VERSION.into(),
        program_version: env!("CARGO_PKG_VERSION").into(),
        title: question.job.title.clone(),
        recommended: Recommended { direction, reason },
        named,
        directions: scores.iter().zip(&flags).map(|(score, &pareto)| report(score, pareto)).collect(),
        assumptions,
        notes: scenario.warned(notes(print, mirrors)),
        cautions: CAUTIONS.iter().map(|&text| text.into()).collect(),
    })
}

/// Everything a check says of one direction.
fn checked(prepared: &PreparedRod, cuts: &RodCuts, build: Vector3<f64>) -> Result<Assessment, Error> {
    let posed = PreparedRod { print: PrintSettings { build, ..prepared.print }, ..prepared.clone() };
    let printed = Printed::new(&posed, cuts)?;
    let mut assessment = printed.assessed(&posed, None)?;
    assessment.add(warmth(&printed.warm(&posed)?)?.margin());
    Ok(assessment)
}

/// Directions over the sphere, the named ones, and those near the strongest, mirror images left out.
fn scored(scorer: &Scorer<'_>, count: usize, mirrors: Mirrors) -> Vec<DirectionScore> {
    let named = NAMED.iter().map(|pose| pose.in_part_frame()).flat_map(|build| [build, -build]);
    let mut builds: Vec<Vector3<f64>> = named.filter(|build| mirrors.keeps(build)).collect();
    builds.extend(equal_area(count).into_iter().filter(|build| mirrors.keeps(build)));
    let mut scores = scorer.all(&builds);
    if let Some(choice) = chosen(&scores) {
        let near = best_around(scorer, &scores[choice.strongest], count);
        scores.extend(near.into_iter().filter(|score| mirrors.keeps(&score.build)));
    }
    scores
}

fn described(prepared: &PreparedRod, score: &DirectionScore, pareto: bool) -> DirectionReport {
    let governing = score.strength.governing();
    let posed = &score.posed;
    DirectionReport {
        build_direction: prepared.rod.frame.direction_to_file(&score.build).into(),
        angle_to_rod_deg: libm::acos(score.build.x.abs().min(1.0)).to_degrees(),
        margin: score.margin,
        life_s: score.strength.life_at(0.1),
        governing_mode: governing.mode,
        governing_place: governing.place.to_string(),
        support_area_mm2: posed.support_area * 1e6,
        support_volume_mm3: posed.support_volume * 1e9,
        height_mm: posed.height * 1e3,
        print_time_s: score.print_time,
        contact_area_mm2: posed.contact_area * 1e6,
        tip_ratio: posed.tip_ratio.is_finite().then_some(posed.tip_ratio),
        bore_angles_deg: score.bore_angles.map(f64::to_degrees),
        stair_step_mm: score.stair_step * 1e3,
        pareto,
    }
}

fn with_check(report: &DirectionReport, full: &Assessment) -> DirectionReport {
    let governing = full.governing();
    DirectionReport {
        margin: full.strength.margin(),
        life_s: full.strength.life_at(0.1),
        governing_mode: governing.mode,
        governing_place: governing.place.to_string(),
        ..report.clone()
    }
}

/// What speaks for the direction, against the three ways a rod can lie.
fn reason(chosen: &DirectionReport, named: &NamedDirections, build: &Vector3<f64>, wanted_life: f64) -> String {
    let lies = if build.z.abs() > 0.9998 {
        "flat, the bores upright".to_string()
    } else if build.y.abs() > 0.9998 {
        "on its edge".to_string()
    } else if build.x.abs() > 0.9998 {
        "upright".to_string()
    } else {
        format!("with the rod at {:.0}° to the layers", 90.0 - chosen.angle_to_rod_deg)
    };
    let others = [("flat", &named.flat), ("on edge", &named.on_edge), ("upright", &named.upright)];
    let margins: Vec<String> = others.iter().map(|(word, pose)| format!("{word} {:.2}", pose.margin)).collect();
    let layers = if named.upright.margin < named.flat.margin {
        let parts = if matches!(named.upright.governing_mode, Mode::FatigueAcrossLayers | Mode::OverloadAcrossLayers) {
            ": upright, every pull on the rod works to part the layers, the weakest way to load a print"
        } else {
            ""
        };
        format!(" Upright is worse than flat{parts}.")
    } else {
        String::new()
    };
    let wanted = format!("{:.1} h", wanted_life / 3600.0);
    let holds = if chosen.margin >= 1.0 {
        format!("holds for the wanted {wanted}")
    } else {
        format!("does not hold for the wanted {wanted}, and no direction found is a tenth stronger")
    };
    format!(
        "Print it {lies}: margin {:.2}, {holds}; of all directions within a tenth of the greatest margin it prints \
         about as quickly as any, supports counted, with the roundest bores. Margins by name: {}.{layers}",
        chosen.margin,
        margins.join(", "),
    )
}

fn notes(print: &PrintSettings, mirrors: Mirrors) -> Vec<String> {
    let mut notes = vec![
        "Directions over the sphere share the stresses and temperatures of the job's own build direction; the recommended \
         one and the three named ones are checked in full."
            .to_string(),
        "Print time is for comparing directions: acceleration, travel and cooling pauses are not in it. Supports are \
         counted from patches of the surface."
            .to_string(),
    ];
    if print.infill < 1.0 {
        notes.push(
            "The inside is not solid: away from the named directions, walls and skins are taken where the job's own \
             direction puts them."
                .into(),
        );
    }
    match (mirrors.side_to_side, mirrors.front_to_back) {
        (true, true) => notes.push("The part mirrors both ways; only a quarter of the sphere is listed.".into()),
        (true, false) | (false, true) => {
            notes.push("The part mirrors one way; only half of the sphere is listed.".into());
        }
        (false, false) => {}
    }
    notes
}

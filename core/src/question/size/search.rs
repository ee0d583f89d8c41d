use super::candidate::{Found, candidate};
use super::sized;
use super::ways::Way;
use crate::Error;
use crate::kind::{LoadedPart, Measures, Question, Sizes, Stage, Trial, Trials, Watcher, stage};
use crate::numeric::halved;
use crate::part::ThicknessFactors;
use crate::question::trial::corrected;
use crate::report::{NumbersBy, Varied};
use crate::verdict::FieldRequest;

/// Steps in which a range is walked before the least factor is narrowed.
const STEPS: usize = 10;

/// Relative width to which a factor is found: a twentieth of a millimetre on a thickness of ten.
const SHARPNESS: f64 = 5e-3;

/// Looks for sizes by sections, raised to the stress field where one is asked for.
pub(super) struct SizeSearch<'a> {
    pub(super) ways: &'a [Way],
    question: &'a Question<'a>,
    /// Of the mesh.
    measures: Measures,
    /// The part in each direction, with the field's own answer for the first way that is printed so.
    posed: Vec<Posed>,
}

struct Posed {
    trials: Box<dyn Trials>,
    solved: Option<(usize, Trial)>,
}

impl<'a> SizeSearch<'a> {
    pub(super) fn new(
        loaded: &LoadedPart,
        question: &'a Question<'a>,
        ways: &'a [Way],
        (field, stations): (Option<FieldRequest>, usize),
        watcher: &mut dyn Watcher,
    ) -> Result<Self, Error> {
        stage(watcher, Stage::Cutting)?;
        let part = &loaded.part;
        let mut posed: Vec<Posed> = Vec::new();
        for (number, way) in ways.iter().enumerate() {
            if way.posed < posed.len() {
                continue;
            }
            let mut trials = part.clone().trials(loaded, stations);
            let solved = match field {
                Some(field) => Some((number, corrected(&mut *trials, loaded, &way.ask(question), field, watcher)?)),
                None => None,
            };
            posed.push(Posed { trials, solved });
        }
        Ok(Self { ways, question, measures: part.clone().measures(loaded, question)?, posed })
    }

    /// The mesh as it is, made in a way.
    pub(super) fn unchanged(&self, way: usize) -> Result<Found, Error> {
        let solved = self.posed[self.ways[way].posed].solved.as_ref().filter(|(number, _)| *number == way);
        match solved {
            Some((_, trial)) => self.found(way, (None, Sizes::default(), 1.0), trial, NumbersBy::Field),
            None => self.corrected(way, None, Sizes::default(), 1.0),
        }
    }

    /// The least sizes of the range that reach the wanted life, or those of the greatest margin; margins of sections are taken
    /// so many `times`.
    pub(super) fn least(&self, way: usize, varied: Varied, range: (f64, f64), times: f64) -> Result<Found, Error> {
        let margin = |sizes: &Sizes| Ok(self.trial(way, sizes)?.margin * times);
        if varied != Varied::Each {
            let sizes = walked(range, |factor| sized(varied, factor), margin)?;
            return self.corrected(way, Some(varied), sizes, times);
        }
        // From the least even thickness each part is thinned in turn, the heaviest first, as far as the others allow.
        let mut sizes = walked(range, |factor| sized(Varied::Whole, factor), margin)?;
        if margin(&sizes)? >= 1.0 {
            for part in [Varied::Shank, Varied::BigEnd, Varied::SmallEnd] {
                let with = |factor: f64| {
                    let mut changed = sizes;
                    *part_of(&mut changed.rod, part) = factor;
                    changed
                };
                let mut now = sizes.rod;
                let now = *part_of(&mut now, part);
                if now > range.0 {
                    sizes = walked((range.0, now), with, margin)?;
                }
            }
        }
        self.corrected(way, Some(varied), sizes, times)
    }

    /// The same by a field solved at its very sizes; `None` where no such mesh can be made.
    pub(super) fn solved(
        &self,
        found: &Found,
        field: FieldRequest,
        watcher: &mut dyn Watcher,
    ) -> Result<Option<Found>, Error> {
        let way = &self.ways[found.way];
        let trials = &self.posed[way.posed].trials;
        let solved = trials.solved(&way.ask(self.question), &found.sizes, field, watcher)?;
        let made = (found.report.varied, found.sizes, found.times);
        let told = solved.map(|trial| self.found(found.way, made, &trial, NumbersBy::Field));
        told.transpose()
    }

    fn trial(&self, way: usize, sizes: &Sizes) -> Result<Trial, Error> {
        let way = &self.ways[way];
        self.posed[way.posed].trials.assessed(&way.ask(self.question), sizes)
    }

    /// By sections, raised where a field was solved, with margins so many `times`.
    fn corrected(&self, way: usize, varied: Option<Varied>, sizes: Sizes, times: f64) -> Result<Found, Error> {
        let mut trial = self.trial(way, &sizes)?;
        trial.margin *= times;
        let raised = self.posed[self.ways[way].posed].solved.is_some();
        let numbers = if raised { NumbersBy::CorrectedSections } else { NumbersBy::Sections };
        self.found(way, (varied, sizes, times), &trial, numbers)
    }

    fn found(
        &self,
        way: usize,
        (varied, sizes, times): (Option<Varied>, Sizes, f64),
        trial: &Trial,
        by: NumbersBy,
    ) -> Result<Found, Error> {
        let made = &self.ways[way];
        let trials = &*self.posed[made.posed].trials;
        let report = candidate(made, (self.question, trials), (varied, &sizes, self.measures), trial, by)?;
        Ok(Found { way, sizes, times, report })
    }
}

/// Walks a range upward to the first factor that reaches the wanted life and narrows it; more plastic is more mass
/// and more heat too, so that neither end settles what lies between.
fn walked(
    (low, high): (f64, f64),
    sized: impl Fn(f64) -> Sizes,
    margin: impl Fn(&Sizes) -> Result<f64, Error>,
) -> Result<Sizes, Error> {
    let ratio = high / low;
    let mut best = (f64::NEG_INFINITY, low);
    let mut bad: Option<f64> = None;
    for step in 0..=STEPS {
        let factor = if step == STEPS { high } else { low * libm::pow(ratio, step as f64 / STEPS as f64) };
        let here = margin(&sized(factor))?;
        if here >= 1.0 {
            let Some(bad) = bad else { return Ok(sized(factor)) };
            let near = |good: f64, bad: f64| good - bad <= SHARPNESS * good;
            let (good, _) = halved((factor, bad), near, |middle| Ok::<_, Error>(margin(&sized(middle))? >= 1.0))?;
            return Ok(sized(good));
        }
        if here > best.0 {
            best = (here, factor);
        }
        bad = Some(factor);
    }
    Ok(sized(best.1))
}

pub(super) fn part_of(thickness: &mut ThicknessFactors, varied: Varied) -> &mut f64 {
    match varied {
        Varied::SmallEnd => &mut thickness.small_end,
        Varied::BigEnd => &mut thickness.big_end,
        _ => &mut thickness.shank,
    }
}

use nalgebra::Vector3;

use super::assess::{AnyCase, assess};
use super::field::{AnyField, AnyFindings, Driven, Points, Run, Spot, candidates, findings};
use super::prepared::PreparedAny;
use super::warmed::WarmedAny;
use super::warmth::Warmth;
use crate::Error;
use crate::field::{FieldModel, Grid};
use crate::job::Scenario;
use crate::kind::{Checkable, Loaded, Stage, Warm, Watcher, stage};
use crate::print::PrintSettings;
use crate::verdict::NamedStrength;
use crate::verdict::field::FieldRequest;

impl Checkable for PreparedAny {
    fn scenario(&self) -> &Scenario {
        &self.scenario
    }

    fn print(&self) -> &PrintSettings {
        &self.print
    }

    fn load(&self) -> Result<Box<dyn Loaded + '_>, Error> {
        Ok(Box::new(LoadedAny::new(self.clone())?))
    }
}

/// A part of any kind, with its stress field once that is solved.
pub(crate) struct LoadedAny {
    pub(crate) prepared: PreparedAny,
    /// Mass of its plastic, kg.
    plastic: f64,
    pub(crate) solved: Option<Solved>,
}

/// A stress field with what it found.
pub(crate) struct Solved {
    pub(crate) field: AnyField,
    pub(crate) points: Points,
    pub(crate) warmth: Warmth,
    pub(crate) run: Run,
    pub(crate) findings: AnyFindings,
    /// What counts of that.
    pub(crate) spots: Vec<Spot>,
    /// What may count in another build direction.
    pub(crate) candidates: Vec<Spot>,
}

/// Cells that tell how much of a part is infill.
const WEIGHED: usize = 20_000;

impl LoadedAny {
    pub(crate) fn new(prepared: PreparedAny) -> Result<Self, Error> {
        let plastic = plastic(&prepared)?;
        Ok(Self { prepared, plastic, solved: None })
    }

    /// The part as it is judged.
    pub(crate) fn case(&self) -> Result<(AnyCase<'_>, &Solved), Error> {
        let solved = self.solved.as_ref().ok_or(Error::FieldOnly)?;
        Ok((solved.case(&self.prepared, &self.prepared.scenario, &self.prepared.print), solved))
    }

    /// Strength in another build direction, with stresses of this one; `roughly` takes layers to bond as those of this one do.
    pub(crate) fn facing(&self, build: &Vector3<f64>, roughly: bool) -> Result<NamedStrength, Error> {
        let solved = self.solved.as_ref().ok_or(Error::FieldOnly)?;
        let print = PrintSettings { build: *build, ..self.prepared.print }.checked()?;
        let mut scenario = self.prepared.scenario.clone();
        if roughly {
            // Heights that it is told by are those of this direction: the card has its weakest.
            scenario.bond = None;
        } else {
            scenario.bond(&self.prepared.part.mesh, &print);
        }
        let case = AnyCase { roughly, ..solved.case(&self.prepared, &scenario, &print) };
        Ok(assess(&case, &solved.candidates).named())
    }
}

impl Solved {
    pub(crate) fn case<'a>(
        &'a self,
        prepared: &'a PreparedAny,
        scenario: &'a Scenario,
        print: &'a PrintSettings,
    ) -> AnyCase<'a> {
        let Self { field, points, warmth, run, .. } = self;
        AnyCase {
            prepared,
            field,
            points,
            warmth,
            run,
            scenario,
            card: &scenario.card,
            print,
            warmer: 0.0,
            roughly: false,
        }
    }
}

/// Mass of the plastic with its infill, kg.
fn plastic(prepared: &PreparedAny) -> Result<f64, Error> {
    let PreparedAny { scenario, part, print, .. } = prepared;
    let whole = part.mesh.mass_properties().volume * scenario.material().density;
    if print.infill >= 1.0 {
        return Ok(whole);
    }
    let stiffness = scenario.material().stiffness(&print.build)?;
    let model =
        FieldModel::with_inside(part.mesh.clone(), Grid::round(&part.mesh, WEIGHED)?, stiffness, &print.into())?;
    let solid = model.solid_share();
    Ok(whole * (solid + (1.0 - solid) * print.infill))
}

impl Loaded for LoadedAny {
    fn plastic(&self) -> f64 {
        self.plastic
    }

    fn solve_field(&mut self, request: FieldRequest, facets: bool, watcher: &mut dyn Watcher) -> Result<(), Error> {
        stage(watcher, Stage::Field)?;
        let prepared = &self.prepared;
        let mut solving = |name: &str, number: usize, of: usize| watcher.solving(name, number, of);
        let field = AnyField::new(prepared, request, &mut solving)?;
        let warmth = Warmth::new(prepared);
        let points = Points::new(prepared, &field, &warmth);
        let run = field.run(prepared, &Driven::as_given(prepared))?;
        let (scenario, print) = (&prepared.scenario, &prepared.print);
        let (found, spots, candidates) = {
            let case = AnyCase {
                prepared,
                field: &field,
                points: &points,
                warmth: &warmth,
                run: &run,
                scenario,
                card: &scenario.card,
                print,
                warmer: 0.0,
                roughly: false,
            };
            let judge = case.judge();
            let (found, spots) = findings(&judge, facets, &mut solving)?;
            let candidates = candidates(&judge, &spots);
            (found, spots, candidates)
        };
        self.solved = Some(Solved { field, points, warmth, run, findings: found, spots, candidates });
        Ok(())
    }

    fn warm(&self) -> Result<Box<dyn Warm + '_>, Error> {
        Ok(Box::new(WarmedAny::new(self)?))
    }

    fn printed_along(
        &self,
        build: &Vector3<f64>,
        field: Option<FieldRequest>,
        watcher: &mut dyn Watcher,
    ) -> Result<NamedStrength, Error> {
        let Some(wanted) = field else { return self.facing(build, false) };
        let print = PrintSettings { build: *build, ..self.prepared.print }.checked()?;
        let mut loaded = Self::new(self.prepared.posed(print))?;
        loaded.solve_field(wanted, false, watcher)?;
        let (case, solved) = loaded.case()?;
        Ok(assess(&case, &solved.spots).named())
    }
}

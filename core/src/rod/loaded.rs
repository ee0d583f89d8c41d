use nalgebra::Vector3;

use super::assess::assess;
use super::assessment::Assessment;
use super::field::{RodField, RodFieldFindings, raised};
use super::model::RodCuts;
use super::prepared::PreparedRod;
use super::printed::Printed;
use super::stressing::Stressing;
use super::temperatures::Temperatures;
use super::warmed::WarmedRod;
use crate::Error;
use crate::job::{NamedPose, Pressures, Scenario};
use crate::kind::{Checkable, Loaded, Stage, Warm, Watcher, stage};
use crate::numeric::both;
use crate::print::PrintSettings;
use crate::verdict::NamedStrength;
use crate::verdict::field::FieldRequest;

impl Checkable for PreparedRod {
    fn scenario(&self) -> &Scenario {
        &self.scenario
    }

    fn print(&self) -> &PrintSettings {
        &self.print
    }

    fn load(&self) -> Result<Box<dyn Loaded + '_>, Error> {
        Ok(Box::new(LoadedRod::new(self)?))
    }
}

/// A rod cut and driven.
pub(super) struct LoadedRod {
    pub(crate) prepared: PreparedRod,
    pub(crate) cuts: RodCuts,
    /// Highest absolute cylinder pressure, Pa.
    pub(crate) peak_pressure: f64,
    pub(crate) printed: Printed,
    pub(crate) field: Option<FieldOfRod>,
}

/// A stress field solved for a rod, with what the sections said before.
pub(crate) struct FieldOfRod {
    pub(crate) findings: RodFieldFindings,
    pub(crate) sections: Assessment,
    /// At which it was solved.
    pub(crate) temperatures: Temperatures,
}

impl LoadedRod {
    pub(crate) fn new(prepared: &PreparedRod) -> Result<Self, Error> {
        let cut = || RodCuts::new(&prepared.rod, prepared.scenario.stations);
        let (cuts, pressures): (RodCuts, Result<Pressures, _>) = both(cut, || prepared.pressures());
        let pressures = pressures?;
        let printed = Printed::driven(prepared, &cuts, &pressures)?;
        Ok(Self { prepared: prepared.clone(), cuts, peak_pressure: pressures.peak(), printed, field: None })
    }

    pub(crate) fn warmed(&self) -> Result<WarmedRod<'_>, Error> {
        WarmedRod::new(self)
    }

    /// The field over the duty, solved for the part as it stands.
    pub(crate) fn solved(
        &self,
        (request, facets): (FieldRequest, bool),
        watcher: &mut dyn Watcher,
    ) -> Result<(RodField, FieldOfRod), Error> {
        stage(watcher, Stage::Field)?;
        let Self { prepared, printed, .. } = self;
        let scenario = &prepared.scenario;
        let temperatures = printed.warm(prepared)?.at(1.0)?.temperatures;
        let stressing = Stressing::new(&printed.model, &printed.loading, scenario, &temperatures);
        let mut solving = |case: &str, number: usize, of: usize| watcher.solving(case, number, of);
        let field = RodField::new(prepared, stressing.model, &temperatures, request, &mut solving)?;
        let findings = field.findings(&stressing, scenario, &temperatures, facets, &mut solving)?;
        let sections = assess(&stressing, scenario, &temperatures);
        Ok((field, FieldOfRod { findings, sections, temperatures }))
    }
}

impl Loaded for LoadedRod {
    fn plastic(&self) -> f64 {
        self.printed.model.mass.mass()
    }

    fn solve_field(&mut self, request: FieldRequest, facets: bool, watcher: &mut dyn Watcher) -> Result<(), Error> {
        let (_, field) = self.solved((request, facets), watcher)?;
        let Printed { model, loading } = &self.printed;
        let (raise, model) = raised(&field.findings, model, loading, &self.prepared.scenario, &field.temperatures);
        self.prepared.raise = raise;
        self.printed.model = model;
        self.field = Some(field);
        Ok(())
    }

    fn warm(&self) -> Result<Box<dyn Warm + '_>, Error> {
        Ok(Box::new(self.warmed()?))
    }

    fn printed_along(
        &self,
        build: &Vector3<f64>,
        field: Option<FieldRequest>,
        watcher: &mut dyn Watcher,
    ) -> Result<NamedStrength, Error> {
        // As a check hears of it: in the coordinates of the file.
        let frame = &self.prepared.rod.frame;
        let build = if NamedPose::ALL.iter().any(|pose| pose.in_part_frame() == *build) {
            *build
        } else {
            frame.direction(&frame.direction_to_file(build).normalize())
        };
        let print = PrintSettings { build, ..self.prepared.print }.checked()?;
        let posed = self.prepared.posed(print);
        let printed = Printed::new(&posed, &self.cuts)?;
        let (cuts, peak_pressure) = (self.cuts.clone(), self.peak_pressure);
        let mut posed = Self { prepared: posed, cuts, peak_pressure, printed, field: None };
        if let Some(wanted) = field {
            posed.solve_field(wanted, false, watcher)?;
        }
        Ok(posed.warmed()?.whole()?.strength.named())
    }
}

/// Solves the stress field of a rod over its duty: the field, and where it finds the most harm.
///
/// # Errors
///
/// Where the part cannot be cut or driven, the field cannot be solved, or the watcher stops it.
pub fn stress_field(
    prepared: &PreparedRod,
    request: FieldRequest,
    watcher: &mut dyn Watcher,
) -> Result<(RodField, RodFieldFindings), Error> {
    stage(watcher, Stage::Cutting)?;
    let (field, found) = LoadedRod::new(prepared)?.solved((request, false), watcher)?;
    Ok((field, found.findings))
}

use std::sync::{Arc, OnceLock};

use super::assess::{PistonAssessment, assess_piston};
use super::field::PistonRaise;
use super::loaded::LoadedPiston;
use super::model::PistonModel;
use super::prepared::PreparedPiston;
use super::warm::WarmPiston;
use super::warmed::WarmedPiston;
use crate::Error;
use crate::job::resolve_pace;
use crate::kind::{Correction, Kept, Loaded, LoadedPart, Question, Sizes, Trial, Trials, Watcher, print_key};
use crate::orient::{Posed, Shape};
use crate::part::Piston;
use crate::print::PrintSettings;
use crate::verdict::field::FieldRequest;

/// A piston measured once for every way it is printed.
pub(crate) struct TrialPiston {
    piston: Arc<Piston>,
    file: LoadedPart,
    shape: OnceLock<Shape>,
    models: Kept<PistonModel>,
    /// What a stress field adds; nothing until one was solved.
    raise: PistonRaise,
}

impl TrialPiston {
    pub(crate) fn new(piston: Arc<Piston>, file: &LoadedPart) -> Self {
        let raise = PistonRaise::default();
        Self { models: Kept::default(), shape: OnceLock::new(), file: file.clone(), piston, raise }
    }

    /// The piston of a job, measured.
    fn measured(&self, prepared: &PreparedPiston) -> Result<Arc<PistonModel>, Error> {
        let given = &prepared.given;
        let by_hand = |value: Option<f64>| value.unwrap_or(-1.0);
        let mut key = print_key(&prepared.print).to_vec();
        key.extend([prepared.scenario.material().density, given.ring_mass, given.pin_mass]);
        key.extend([by_hand(given.crown_thickness), by_hand(given.plate_radius), prepared.scenario.stations as f64]);
        key.extend(given.layers.iter().flat_map(|layer| [layer.density, layer.thickness]));
        self.models.get(&key, || prepared.model())
    }
}

impl Trials for TrialPiston {
    fn assessed(&self, question: &Question<'_>, changed: &Sizes) -> Result<Trial, Error> {
        let crown = changed.crown;
        let mut prepared = PreparedPiston::new(self.piston.clone(), &self.file, question)?;
        prepared.scenario.card = changed.card(prepared.scenario.card);
        prepared.raise = self.raise;
        let as_it_is = self.measured(&prepared)?;
        let model = if crown == 1.0 {
            as_it_is
        } else {
            Arc::new(with_crown(&as_it_is, crown, prepared.scenario.material().density))
        };
        let loading = prepared.loading(&model)?;
        let PreparedPiston { scenario, given, .. } = &prepared;
        let warm = WarmPiston::new(&model, &loading, scenario, given, &scenario.card, 1.0)?;
        let case = prepared.case(&model, &loading, &warm, 1.0);
        let assessment = assess_piston(&case, &scenario.card)?;
        Ok(trial(model.mass.plastic(), &assessment))
    }

    fn take(&mut self, correction: &Correction) {
        if let Some(raise) = correction.raise.downcast_ref::<PistonRaise>() {
            self.raise = *raise;
        }
    }

    /// Of the mesh's own crown alone: how walls and bosses would meet a thicker one is not known from its mesh.
    fn solved(
        &self,
        question: &Question<'_>,
        sizes: &Sizes,
        request: FieldRequest,
        watcher: &mut dyn Watcher,
    ) -> Result<Option<Trial>, Error> {
        if sizes.crown != 1.0 {
            return Ok(None);
        }
        let mut prepared = PreparedPiston::new(self.piston.clone(), &self.file, question)?;
        prepared.scenario.card = sizes.card(prepared.scenario.card);
        let mut loaded = LoadedPiston::new(prepared)?;
        loaded.solve_field(request, false, watcher)?;
        WarmedPiston::new(&loaded)?.trial().map(Some)
    }

    fn posed(&self, question: &Question<'_>, _: &Sizes) -> Result<(PrintSettings, Posed), Error> {
        // As in a check: axis upright unless the job says otherwise.
        let prepared = PreparedPiston::new(self.piston.clone(), &self.file, question)?;
        let (pace, _) = resolve_pace(question.job)?;
        let shape = self.shape.get_or_init(|| Shape::new(&self.piston.mesh));
        let posed = shape.posed(&prepared.print.build, pace.overhang, prepared.print.layer_height);
        Ok((prepared.print, posed))
    }
}

/// What an assessment came to; mass in kg.
pub(super) fn trial(mass: f64, assessment: &PistonAssessment) -> Trial {
    let governing = assessment.strength.governing();
    Trial {
        mass,
        margin: assessment.strength.margin(),
        life_b10: assessment.life_at(0.1),
        life_b50: assessment.life_at(0.5),
        peak: assessment.hottest,
        mode: governing.mode,
        place: governing.place.to_string(),
        link: assessment.strength.weakest_link(),
    }
}

/// The same piston with a crown thicker or thinner on its underside: stiffness, heat and mass follow; where walls and
/// bosses meet it stays. `density` is that of the solid plastic, kg/m³.
pub(crate) fn with_crown(model: &PistonModel, factor: f64, density: f64) -> PistonModel {
    let more = model.crown_thickness * (factor - 1.0);
    let area = core::f64::consts::PI * model.plate_radius * model.plate_radius;
    let middle = model.crown.underside - more / 2.0;
    let mass = model.mass.with_plastic(middle, area * more * density);
    let mut crown = model.crown.clone();
    crown.bridges.iter_mut().for_each(|bridge| bridge.thickness *= factor);
    PistonModel {
        crown,
        crown_thickness: model.crown_thickness * factor,
        volume: model.volume + area * more,
        mass,
        ..model.clone()
    }
}

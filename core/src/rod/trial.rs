use std::sync::{Arc, OnceLock};

use nalgebra::Vector3;

use super::assess::assess;
use super::field::Raise;
use super::loaded::LoadedRod;
use super::model::{RodCuts, RodModel};
use super::prepared::PreparedRod;
use super::printed::Printed;
use super::stressing::Stressing;
use super::warmth::{self_heating, settles_beyond};
use crate::Error;
use crate::job::{resolve, resolve_pace};
use crate::kind::{Correction, Kept, Loaded, LoadedPart, Question, Sizes, Trial, Trials, Watcher, posed_in, print_key};
use crate::mesh::Mesh;
use crate::orient::{Posed, Shape};
use crate::part::{Rod, ThicknessFactors};
use crate::print::PrintSettings;
use crate::rod::RodStrength;
use crate::stress::EyeFamily;
use crate::verdict::field::FieldRequest;

/// A rod cut once for many jobs and sizes.
pub(crate) struct TrialRod {
    rod: Arc<Rod>,
    file: LoadedPart,
    whole: Arc<RodCuts>,
    shape: OnceLock<Shape>,
    cuts: Kept<RodCuts>,
    models: Kept<RodModel>,
    /// What a stress field adds; nothing until one was solved.
    raise: Raise,
}

impl TrialRod {
    pub(crate) fn new(rod: Arc<Rod>, file: &LoadedPart, stations: usize) -> Self {
        Self {
            cuts: Kept::default(),
            models: Kept::default(),
            raise: Raise::default(),
            whole: Arc::new(RodCuts::new(&rod, stations)),
            shape: OnceLock::new(),
            file: file.clone(),
            rod,
        }
    }
}

impl Trials for TrialRod {
    fn assessed(&self, question: &Question<'_>, changed: &Sizes) -> Result<Trial, Error> {
        let thickness = changed.rod;
        let mut prepared = PreparedRod::new(self.rod.clone(), &self.file, question)?;
        prepared.scenario.card = changed.card(prepared.scenario.card);
        let density = prepared.scenario.material().density;
        let sizes = [thickness.small_end, thickness.shank, thickness.big_end];
        let cuts = if thickness == ThicknessFactors::default() {
            self.whole.clone()
        } else {
            self.cuts.get(&sizes, || Ok(self.whole.with_thickness(&self.rod, thickness)))?
        };
        let key: Vec<f64> = sizes.into_iter().chain(print_key(&prepared.print)).chain([density]).collect();
        let angles = EyeFamily::embedded().angles();
        let made = || Ok(self.raise.on(RodModel::new(&self.rod, &cuts, prepared.print, density, angles)));
        let model = self.models.get(&key, made)?;
        let printed = Printed::loaded(model, &prepared)?;
        let warm = printed.warm(&prepared)?;
        let temperatures = warm.at(1.0)?.temperatures;
        let peak = temperatures.peak();
        let scenario = &prepared.scenario;
        let stressing = Stressing::new(&printed.model, &printed.loading, scenario, &temperatures);
        let mut assessment = assess(&stressing, scenario, &temperatures);
        if !settles_beyond(&warm, 1.0, assessment.governing().margin)? {
            assessment.add(self_heating(&warm, 1.0)?);
        }
        Ok(trial(printed.model.mass.mass(), peak, &assessment.strength))
    }

    fn take(&mut self, correction: &Correction) {
        if let Some(raise) = correction.raise.downcast_ref::<Raise>() {
            self.raise = raise.clone();
            self.models = Kept::default();
        }
    }

    fn solved(
        &self,
        question: &Question<'_>,
        sizes: &Sizes,
        request: FieldRequest,
        watcher: &mut dyn Watcher,
    ) -> Result<Option<Trial>, Error> {
        let made = if sizes.rod == ThicknessFactors::default() {
            self.rod.clone()
        } else {
            Arc::new(self.rod.with_thickness(&sizes.rod)?)
        };
        let mut prepared = PreparedRod::new(made, &self.file, question)?;
        prepared.scenario.card = sizes.card(prepared.scenario.card);
        let mut loaded = LoadedRod::new(&prepared)?;
        loaded.solve_field(request, false, watcher)?;
        loaded.warmed()?.trial().map(Some)
    }

    fn posed(&self, question: &Question<'_>, sizes: &Sizes) -> Result<(PrintSettings, Posed), Error> {
        let rod = &self.rod;
        let (scenario, _) = resolve(question.job, question.card_text, question.pressure_text)?;
        let (pace, _) = resolve_pace(question.job)?;
        let print = posed_in(scenario.pose, scenario.print, &rod.frame)?;
        let shape = self.shape.get_or_init(|| Shape::new(&rod.mesh));
        let posed = shape.posed(&print.build, pace.overhang, print.layer_height);
        let height = height(&rod.mesh, &print.build, |x| sizes.rod.at(x, rod));
        let grown = height / posed.height;
        Ok((print, Posed { height, support_volume: posed.support_volume * grown, ..posed }))
    }
}

/// What an assessment came to; mass in kg, the highest temperature in K.
pub(super) fn trial(mass: f64, peak: f64, strength: &RodStrength) -> Trial {
    let governing = strength.governing();
    Trial {
        mass,
        margin: strength.margin(),
        life_b10: strength.life_at(0.1),
        life_b50: strength.life_at(0.5),
        peak,
        mode: governing.mode,
        place: governing.place.to_string(),
        link: strength.weakest_link(),
    }
}

/// Height of a mesh over a bed square to `build`, each point's `z` times the factor at its `x`.
fn height(mesh: &Mesh, build: &Vector3<f64>, factor: impl Fn(f64) -> f64) -> f64 {
    let reach = mesh.points().iter().map(|p| build.x * p.x + build.y * p.y + build.z * p.z * factor(p.x));
    let (low, high) = reach.fold((f64::INFINITY, f64::NEG_INFINITY), |(l, h), r| (f64::min(l, r), f64::max(h, r)));
    high - low
}

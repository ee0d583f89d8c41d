use std::sync::Arc;

use super::assess::{assess, assess_again};
use super::assessment::Assessment;
use super::loading::Loading;
use super::model::{RodCuts, RodModel};
use super::prepared::PreparedRod;
use super::stressing::Stressing;
use super::warm::WarmRod;
use crate::Error;
use crate::heat::HeatError;
use crate::job::Pressures;
use crate::stress::EyeFamily;

/// A rod as printed, with its loads.
pub(crate) struct Printed {
    pub(crate) model: Arc<RodModel>,
    pub(crate) loading: Loading,
}

impl Printed {
    pub(crate) fn new(prepared: &PreparedRod, cuts: &RodCuts) -> Result<Self, Error> {
        Self::driven(prepared, cuts, &prepared.pressures()?)
    }

    /// With pressures worked out already.
    pub(crate) fn driven(prepared: &PreparedRod, cuts: &RodCuts, pressures: &Pressures) -> Result<Self, Error> {
        let model = Arc::new(prepared.printed(cuts, EyeFamily::embedded().angles()));
        let loading = prepared.loading_by(&model, pressures)?;
        Ok(Self { model, loading })
    }

    /// A rod measured already, with the loads of another job.
    pub(crate) fn loaded(model: Arc<RodModel>, prepared: &PreparedRod) -> Result<Self, Error> {
        let loading = prepared.loading(&model)?;
        Ok(Self { model, loading })
    }

    pub(crate) fn warm<'a>(&'a self, prepared: &'a PreparedRod) -> Result<WarmRod<'a>, HeatError> {
        WarmRod::new(&self.model, &self.loading, &prepared.scenario, prepared.crank.throw_m())
    }

    /// Strength and life; of the places that governed in an earlier assessment, or of all.
    pub(crate) fn assessed(&self, prepared: &PreparedRod, earlier: Option<&Assessment>) -> Result<Assessment, Error> {
        let warm_rod = self.warm(prepared)?;
        let temperatures = warm_rod.at(1.0)?.temperatures;
        let stressing = Stressing::new(&self.model, &self.loading, &prepared.scenario, &temperatures);
        let scenario = &prepared.scenario;
        Ok(match earlier {
            Some(earlier) => assess_again(&stressing, scenario, &temperatures, earlier),
            None => assess(&stressing, scenario, &temperatures),
        })
    }
}

use std::cell::RefCell;

use super::assess::{AnyCase, assess, driven};
use super::changes::changes;
use super::field::Driven;
use super::place::AnyPlace;
use super::report::{AnyParts, build};
use super::warmed::WarmedAny;
use crate::Error;
use crate::job::Every;
use crate::kind::{Answers, Assessed, Changes};
use crate::report::Report;
use crate::verdict::{PartStrength, RunsAt, SpeedLimit, Uncertainty, uncertainty_of, walked};

/// A part of any kind held against its material.
pub(crate) struct AssessedAny<'a> {
    warmed: &'a WarmedAny<'a>,
    strength: PartStrength<AnyPlace>,
}

impl<'a> AssessedAny<'a> {
    pub(crate) fn new(warmed: &'a WarmedAny<'a>, strength: PartStrength<AnyPlace>) -> Self {
        Self { warmed, strength }
    }
}

impl Assessed for AssessedAny<'_> {
    fn highest_speed(&self) -> Result<SpeedLimit, Error> {
        let WarmedAny { case, solved, .. } = self.warmed;
        let given = &case.prepared.given;
        let failed = RefCell::new(None);
        let at = |factor: f64| {
            let how = Driven::at_speed(case.prepared, factor);
            Ok(driven(case, &solved.spots, &how).map_or_else(
                |error| {
                    failed.borrow_mut().get_or_insert(error);
                    0.0
                },
                |strength| strength.margin(),
            ))
        };
        // Where nothing goes with the speed one answer does for all of them.
        let goes = given.loads.iter().any(|load| load.follows_speed) || matches!(given.history.every, Every::Turns(_));
        if goes {
            let limit = walked(at)?;
            return failed.into_inner().map_or(Ok(limit), Err);
        }
        let margin = self.strength.margin();
        Ok(walked(|_| Ok(margin))?)
    }

    fn uncertainty(&self) -> Uncertainty {
        let WarmedAny { case, solved, .. } = self.warmed;
        let runs = RunsAt::new(case.hottest().0, &case.scenario.duty, case.run.cycles.iter().copied());
        uncertainty_of(case.card, runs, self.strength.margin(), |card| {
            assess(&AnyCase { card, ..*case }, &solved.spots).margin().max(1e-9)
        })
    }

    fn changes(&self) -> Changes {
        let WarmedAny { case, solved, .. } = self.warmed;
        changes(case, &solved.spots, &self.strength)
    }

    fn report(&self, answers: Answers) -> Result<Report, Error> {
        let WarmedAny { case, solved, loaded } = self.warmed;
        build(&AnyParts {
            answers: &answers,
            case,
            plastic: crate::kind::Loaded::plastic(*loaded),
            strength: &self.strength,
            findings: &solved.findings,
        })
    }

    fn facets(&self) -> Option<Vec<Option<f64>>> {
        self.warmed.solved.findings.facets.clone()
    }
}

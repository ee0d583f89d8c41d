//! What the answer names is solved, until nothing unsolved would be named.

use super::candidate::Found;
use super::search::SizeSearch;
use crate::Error;
use crate::kind::Watcher;
use crate::report::{CandidateReport, NumbersBy, Varied};
use crate::verdict::FieldRequest;

/// Candidates that an answer names, by their number.
pub(super) struct Chosen {
    pub(super) lightest: Option<usize>,
    pub(super) quickest: Option<usize>,
    pub(super) without_change: Option<usize>,
    pub(super) strongest: usize,
}

impl Chosen {
    /// Of those that `may` be named.
    pub(super) fn of(candidates: &[CandidateReport], may: impl Fn(&CandidateReport) -> bool) -> Self {
        let best = |of: &dyn Fn(&CandidateReport) -> f64, among: &dyn Fn(&CandidateReport) -> bool| {
            let among = candidates.iter().enumerate().filter(|(_, c)| may(c) && among(c));
            among.min_by(|a, b| of(a.1).total_cmp(&of(b.1))).map(|(k, _)| k)
        };
        Self {
            lightest: best(&|c| c.mass_g, &|c| c.reaches),
            quickest: best(&|c| c.print_time_s, &|c| c.reaches),
            without_change: best(&|c| c.mass_g, &|c| c.reaches && c.varied.is_none()),
            strongest: best(&|c| -c.margin, &|_| true).unwrap_or(0),
        }
    }

    /// Those that the sentences name: the strongest only where none reaches what is wanted.
    fn named(&self) -> impl Iterator<Item = usize> {
        let strongest = if self.lightest.is_none() { Some(self.strongest) } else { None };
        [self.lightest, self.quickest, self.without_change, strongest].into_iter().flatten()
    }
}

/// Fields solved for one answer at most; what is left over is told as corrected and is not named.
const MOST: usize = 12;

/// Times that one thickness in one way is looked for again from what its field said.
const AGAIN: usize = 3;

/// A margin so little above what was wanted needs no better sizes.
const CLOSE: f64 = 0.02;

/// Sizes are looked for again with an eye on so much more than what was wanted, as the field of the next may say a little less.
const AIM: f64 = 1.005;

/// Whether an answer may name it: what a field was solved for or sections alone were asked of, and a crown, whose mesh cannot
/// be made.
pub(super) fn nameable(candidate: &CandidateReport) -> bool {
    candidate.by != NumbersBy::CorrectedSections || candidate.crown_mm.is_some()
}

/// Solves the field of what would be named. Where it says something else than corrected sections did, the sizes are looked for
/// anew with sections corrected by as much.
pub(super) fn settle(
    search: &SizeSearch<'_>,
    found: &mut Vec<Found>,
    range: (f64, f64),
    field: FieldRequest,
    watcher: &mut dyn Watcher,
) -> Result<(), Error> {
    let mut tried: Vec<(usize, Varied)> = Vec::new();
    // A crown's mesh is not made: its numbers stay those of plates, rings and cuts, and are told so.
    let mut unmade: Vec<usize> = Vec::new();
    for _ in 0..MOST {
        let reports: Vec<CandidateReport> = found.iter().map(|one| one.report.clone()).collect();
        let open = |number: &usize| found[*number].report.by != NumbersBy::Field && !unmade.contains(number);
        let Some(next) = Chosen::of(&reports, |_| true).named().find(open) else { return Ok(()) };
        let Some(solved) = search.solved(&found[next], field, watcher)? else {
            unmade.push(next);
            continue;
        };
        let (thought, margin) = (reports[next].margin, solved.report.margin);
        let slot = solved.report.varied.map(|varied| (solved.way, varied));
        let times = solved.times * margin / (thought * AIM);
        found[next] = solved;
        let Some(slot) = slot.filter(|_| !(1.0..=1.0 + CLOSE).contains(&margin) && times > 0.0) else { continue };
        if tried.iter().filter(|known| **known == slot).count() < AGAIN {
            tried.push(slot);
            found.push(search.least(slot.0, slot.1, range, times)?);
        }
    }
    Ok(())
}

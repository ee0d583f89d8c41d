use libm::{exp, hypot, log};

use super::place::region_of;
use crate::bench::life_power;
use crate::life::normal_probability;
use crate::numeric::sort_few;
use crate::report::Report;
use crate::verdict::{Mode, ten_percent_factor};

/// How strength and life differ from print to print: standard deviations of log10, as the material card has them.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Scatter {
    /// Of strength.
    pub strength: f64,
    /// Of life at one stress.
    pub life: f64,
}

/// What the model expects of one failure mode in a run of a known time.
#[derive(Debug, Clone, PartialEq)]
pub struct Expected {
    /// The mode.
    pub mode: Mode,
    /// Where it is worst, in words.
    pub place: String,
    /// Margin of the run: 10 % of parts fail by it where all stress is that much greater.
    pub margin: f64,
    /// Share of such breaks by region, in the order of the part's regions.
    pub shares: Vec<f64>,
    /// Logarithm of the factor on all stress at which half the parts fail in the run.
    middle: f64,
    /// Standard deviation of it: from print to print, and by what is not known of the inputs.
    deviation: f64,
    timing: Timing,
}

/// When a mode ends a part.
#[derive(Debug, Clone, Copy, PartialEq)]
enum Timing {
    /// Harm adds up: life falls with stress to this power.
    AddsUp(f64),
    /// It happens within a while of the load being there: logarithm of the middle time, s, and its standard deviation.
    SoonAfter(f64, f64),
}

/// What the model leaves out: a part's stress and its margin of heat are known to within this factor's logarithm even where the
/// material is known (memory; `tests/EVIDENCE.md` has sections from 40 % too low to 7 % too high).
const MODEL: f64 = 0.15;

/// The same of heat and growth, which rest on more that is not measured (memory).
const MODEL_OF_HEAT: f64 = 0.25;

/// The same of a plastic bore on its pin: what bears pressure times speed, and how fast it wears, differ from book to book by
/// factors (Neale's Tribology Handbook has 0.035 to 0.11 MPa m/s for one kind of plastic, dry).
const MODEL_OF_JOURNAL: f64 = 0.6;

/// One break in seven comes from an input that is far off: a bond at half its strength, a notch, a bore out of size, a load that
/// nobody thought of (common practice). Such inputs are off by a factor whose logarithm has this standard deviation.
const GROSS: (f64, f64) = (0.15, 0.7);

/// How much less often a mode ends a part in a region whose margin against it is greater: the logarithm of a margin that is worth
/// a factor e. About the deviation of stress from what sections say.
const REGION: f64 = 0.2;

/// Margins of regions that a report does not tell are taken to be greater by this factor.
const ELSEWHERE: f64 = 1.35;

/// Share of breaks by a mode that come up where the model does not have them.
const ANYWHERE: f64 = 0.06;

impl Expected {
    /// Every mode of a report that a run of `seconds` could end by. The wanted life of the report is that time.
    pub fn all(report: &Report, scatter: Scatter, regions: &[&'static str]) -> Vec<Self> {
        let wanted = report.verdict.wanted_life_s;
        let settles = settling(report);
        let known = log(report.uncertainty.margin_factor.max(1.0));
        let mut list: Vec<Self> = Vec::new();
        for entry in &report.modes {
            let margin = entry.margin.clamp(1e-3, 1e3);
            let timing = timing(entry.mode, margin, entry.life_b10_s, wanted, settles);
            let ln10 = core::f64::consts::LN_10;
            let (middle, deviation) = if entry.mode.asks_for_strength() {
                let of_life = if let Timing::AddsUp(power) = timing { scatter.life / power } else { 0.0 };
                let prints = hypot(scatter.strength, of_life);
                // The margin is where 10 % fail; the middle lies so many deviations of prints beyond.
                (log(margin / ten_percent_factor(prints)), hypot(prints * ln10, hypot(known, MODEL)))
            } else {
                let journal = matches!(entry.mode, Mode::JournalHeat | Mode::JournalWear);
                (log(margin), if journal { MODEL_OF_JOURNAL } else { MODEL_OF_HEAT })
            };
            let shares = shares(report, entry.mode, &entry.place, margin, regions);
            list.push(Self { mode: entry.mode, place: entry.place.clone(), margin, shares, middle, deviation, timing });
        }
        sort_few(&mut list, |a, b| a.margin.total_cmp(&b.margin).then(a.mode.cmp(&b.mode)));
        // Of a mode that a report has at two places the worse counts.
        let mut seen: Vec<Mode> = Vec::new();
        list.retain(|mode| {
            let new = !seen.contains(&mode.mode);
            seen.push(mode.mode);
            new
        });
        list
    }

    /// The two kinds of parts: such as the inputs say, and such whose inputs are far off, each with its share.
    fn kinds(&self) -> [(f64, f64); 2] {
        [(1.0 - GROSS.0, self.deviation), (GROSS.0, hypot(self.deviation, GROSS.1))]
    }

    /// Share of parts that fail by it within the run, were the inputs right within their uncertainty.
    pub fn failed_within(&self) -> f64 {
        normal_probability(-self.middle / self.deviation)
    }

    /// The same with inputs that may be far off.
    fn failed(&self) -> f64 {
        self.kinds().into_iter().map(|(share, deviation)| share * normal_probability(-self.middle / deviation)).sum()
    }

    /// Density over the logarithm of the factor on all stress at which it ends a part.
    pub(super) fn density_of_factor(&self, ln_factor: f64) -> f64 {
        self.kinds().into_iter().map(|(share, deviation)| share * density(ln_factor - self.middle, deviation)).sum()
    }

    /// Share of parts that bear a factor on all stress, given as its logarithm.
    pub(super) fn bears(&self, ln_factor: f64) -> f64 {
        let each = self.kinds().into_iter();
        each.map(|(share, deviation)| share * normal_probability((self.middle - ln_factor) / deviation)).sum()
    }

    /// Density over the logarithm of time of a break by it at the end of the run.
    pub(super) fn density_of_time(&self, seconds: f64) -> f64 {
        match self.timing {
            Timing::AddsUp(power) => self.density_of_factor(0.0) / power,
            Timing::SoonAfter(middle, deviation) => self.failed() * density(log(seconds) - middle, deviation),
        }
    }

    /// Share of parts that it has not ended by then.
    pub(super) fn left_after(&self, seconds: f64) -> f64 {
        match self.timing {
            Timing::AddsUp(_) => self.bears(0.0),
            Timing::SoonAfter(middle, deviation) => {
                1.0 - self.failed() * normal_probability((log(seconds) - middle) / deviation)
            }
        }
    }
}

fn density(off: f64, deviation: f64) -> f64 {
    exp(-0.5 * (off / deviation) * (off / deviation)) / (deviation * core::f64::consts::TAU.sqrt())
}

/// How soon heat settles in a run, s.
fn settling(report: &Report) -> f64 {
    let crown = report.piston.as_ref().and_then(|piston| piston.crown_heat.softening_time_s);
    // A rod of these sizes is warm in some minutes (common practice).
    crown.map_or(300.0, |seconds| seconds.clamp(1.0, 3600.0))
}

fn timing(mode: Mode, margin: f64, life_b10_s: Option<f64>, wanted: f64, settles: f64) -> Timing {
    match mode {
        Mode::FatigueAcrossLayers
        | Mode::FatigueInLayerPlane
        | Mode::CreepRuptureAcrossLayers
        | Mode::CreepRuptureInLayerPlane => Timing::AddsUp(life_power(margin, life_b10_s, wanted)),
        // Depth of wear grows with the way slid, and that with time.
        Mode::JournalWear => Timing::AddsUp(1.0),
        // Creep goes with about the fourth root of time (Findley's exponent of such plastics, memory).
        Mode::LooseRing | Mode::OpenJoint => Timing::AddsUp(4.0),
        // Of growth toward the head about half is heat and pull, which time does not add to.
        Mode::HeadContact => Timing::AddsUp(8.0),
        // One load that is too much is met in the first seconds at that speed; some minutes where it is run up slowly.
        Mode::OverloadAcrossLayers
        | Mode::OverloadInLayerPlane
        | Mode::Crushing
        | Mode::Buckling
        | Mode::BearingPressure
        | Mode::SkirtPressure => Timing::SoonAfter(log(20.0), 1.5),
        // When pressed in, or when first warm.
        Mode::SplitByRing => Timing::SoonAfter(log(60.0), 2.5),
        Mode::Softening | Mode::SelfHeating | Mode::Seizure | Mode::JournalHeat => Timing::SoonAfter(log(settles), 1.2),
    }
}

/// Share of breaks by a mode in each region, by the margins there that the report tells.
fn shares(report: &Report, mode: Mode, place: &str, margin: f64, regions: &[&'static str]) -> Vec<f64> {
    let even = 1.0 / regions.len().max(1) as f64;
    let Some(own) = region_of(place, regions) else {
        // The whole part: heat shows anywhere.
        return vec![even; regions.len()];
    };
    let spots = report.field.iter().flat_map(|field| &field.hot_spots).filter(|spot| spot.mode == mode);
    let told: Vec<(&str, f64)> = spots.map(|spot| (spot.place.as_str(), spot.margin)).collect();
    let weight = |region: &&'static str| {
        let there =
            told.iter().filter(|(place, _)| region_of(place, regions) == Some(*region)).map(|(_, margin)| *margin);
        let least = there.fold(f64::INFINITY, f64::min);
        let ratio = if *region == own {
            1.0
        } else if least.is_finite() {
            (least / margin).max(1.0)
        } else {
            ELSEWHERE
        };
        exp(-log(ratio) / REGION)
    };
    let weights: Vec<f64> = regions.iter().map(weight).collect();
    let sum: f64 = weights.iter().sum();
    weights.into_iter().map(|weight| (1.0 - ANYWHERE) * weight / sum + ANYWHERE * even).collect()
}

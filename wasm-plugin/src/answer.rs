//! Answers that live as long as their handles.

use layload_core::Walls;
use layload_core::report::{CAUTIONS, DirectionsReport, Report, SweepPoint, SweepReport, json};
use serde::Serialize;

use crate::interface::checker::{
    AnswerWords, AreaStep, Assumption, DirectionScore, Explanation, GuestChecked, GuestDirected, GuestMeasured,
    GuestSwept, Heat, HotSpot, Life, NamedDirection, Refusal, Sensitivity, SpeedPoint, Station, ThinRegion,
    Uncertainty, Verdict,
};
use crate::record;

/// JSON as the command line prints it, without the last line break.
pub(crate) fn pretty(report: &impl Serialize) -> Result<String, Refusal> {
    json(report).map_err(|error| {
        Refusal::Other(Explanation {
            code: "report-unwritable".into(),
            key: None,
            message: format!("the report cannot be written: {error}"),
            help: "report this; the numbers are still in the records".into(),
        })
    })
}

/// What every report says.
pub(crate) fn cautions() -> Vec<String> {
    CAUTIONS.iter().map(|&text| text.into()).collect()
}

/// One number a facet; NaN where there is none.
fn per_facet(values: &[Option<f64>]) -> Vec<f32> {
    values.iter().map(|value| value.map_or(f32::NAN, |value| value as f32)).collect()
}

/// Answer of a check.
#[derive(Debug)]
pub(crate) struct Checked {
    pub(crate) report: Report,
    pub(crate) utilisation: Vec<Option<f64>>,
    /// Where other speeds were asked for.
    pub(crate) speeds: Vec<SweepPoint>,
}

impl GuestChecked for Checked {
    fn verdict(&self) -> Verdict {
        record::verdict(&self.report)
    }

    fn state(&self) -> String {
        self.report.verdict.state.key().into()
    }

    fn words(&self) -> AnswerWords {
        record::words(&self.report)
    }

    fn speeds(&self) -> Vec<SpeedPoint> {
        self.speeds.iter().map(record::speed_point).collect()
    }

    fn life(&self) -> Life {
        let life = &self.report.life;
        Life {
            b50_s: life.b50_s,
            b10_s: life.b10_s,
            b1_s: life.b1_s,
            b10_low_s: life.b10_low_s,
            b10_high_s: life.b10_high_s,
        }
    }

    fn hot_spots(&self) -> Vec<HotSpot> {
        self.report.modes.iter().map(record::hot_spot).collect()
    }

    fn stations(&self) -> Vec<Station> {
        self.report.stations.iter().map(record::station).collect()
    }

    fn facet_utilisation(&self) -> Vec<f32> {
        per_facet(&self.utilisation)
    }

    fn uncertainty(&self) -> Uncertainty {
        let uncertainty = &self.report.uncertainty;
        Uncertainty {
            memory_share: uncertainty.memory_share,
            margin_factor: uncertainty.margin_factor,
            measure_first: uncertainty.measure_first.clone(),
        }
    }

    fn heat(&self) -> Heat {
        let heat = &self.report.heat;
        let rod = self.report.rod.as_ref();
        Heat {
            taken_c: heat.taken_c,
            rod_peak_c: rod.and(heat.hottest.temperature_c),
            runaway_rpm: rod.and_then(|rod| rod.runaway_rpm),
        }
    }

    fn sensitivities(&self) -> Vec<Sensitivity> {
        let known = self.report.sensitivities.iter();
        known
            .map(|known| Sensitivity {
                input: known.input.clone(),
                change: known.change.clone(),
                life_factor: known.life_factor,
                margin_factor: known.margin_factor,
            })
            .collect()
    }

    fn assumptions(&self) -> Vec<Assumption> {
        self.report.assumptions.iter().map(record::assumption).collect()
    }

    fn notes(&self) -> Vec<String> {
        self.report.notes.clone()
    }

    fn cautions(&self) -> Vec<String> {
        self.report.cautions.clone()
    }

    fn json(&self) -> Result<String, Refusal> {
        pretty(&self.report)
    }
}

/// Answer of a search for the best build direction.
#[derive(Debug)]
pub(crate) struct Directed(pub(crate) DirectionsReport);

impl GuestDirected for Directed {
    fn recommended(&self) -> DirectionScore {
        record::direction_score(&self.0.recommended.direction)
    }

    fn reason(&self) -> String {
        self.0.recommended.reason.clone()
    }

    fn named(&self) -> Vec<NamedDirection> {
        let named = &self.0.named;
        [("flat", &named.flat), ("on-edge", &named.on_edge), ("upright", &named.upright)]
            .map(|(name, score)| NamedDirection { name: name.into(), score: record::direction_score(score) })
            .into()
    }

    fn scores(&self) -> Vec<DirectionScore> {
        self.0.directions.iter().map(record::direction_score).collect()
    }

    fn notes(&self) -> Vec<String> {
        self.0.notes.clone()
    }

    fn cautions(&self) -> Vec<String> {
        self.0.cautions.clone()
    }

    fn json(&self) -> Result<String, Refusal> {
        pretty(&self.0)
    }
}

/// Answer of a look for thin walls.
#[derive(Debug)]
pub(crate) struct Measured(pub(crate) Walls);

impl GuestMeasured for Measured {
    fn least_thickness_mm(&self) -> Option<f64> {
        self.0.report.least_thickness_mm
    }

    fn limit_mm(&self) -> f64 {
        self.0.limit_mm
    }

    fn thin_regions(&self) -> Vec<ThinRegion> {
        self.0.report.thin_regions.iter().map(record::thin_region).collect()
    }

    fn area_steps(&self) -> Vec<AreaStep> {
        let steps = self.0.report.area_steps.iter();
        steps
            .map(|step| AreaStep {
                from_mm: step.from_mm,
                to_mm: step.to_mm,
                area_from_mm2: step.area_from_mm2,
                area_to_mm2: step.area_to_mm2,
                concentration: step.concentration,
            })
            .collect()
    }

    fn facet_thickness_mm(&self) -> Vec<f32> {
        per_facet(&self.0.thickness_mm.values)
    }

    fn notes(&self) -> Vec<String> {
        self.0.report.notes.clone()
    }

    fn cautions(&self) -> Vec<String> {
        self.0.report.cautions.clone()
    }

    fn json(&self) -> Result<String, Refusal> {
        pretty(&self.0.report)
    }
}

/// Answer of life against speed.
#[derive(Debug)]
pub(crate) struct Swept(pub(crate) SweepReport);

impl GuestSwept for Swept {
    fn points(&self) -> Vec<SpeedPoint> {
        self.0.sweep.iter().map(record::speed_point).collect()
    }

    fn wanted_life_s(&self) -> f64 {
        self.0.wanted_life_s
    }

    fn cautions(&self) -> Vec<String> {
        self.0.cautions.clone()
    }

    fn json(&self) -> Result<String, Refusal> {
        pretty(&self.0)
    }
}

use layload_core::{Stage, Watcher};

/// Told what begins, in a few words, and which share of the work lies behind, from 0 up to 1 and never less than before;
/// false stops the work. A stage of a large mesh may take seconds.
pub type Progress<'a> = &'a mut dyn FnMut(&str, f64) -> bool;

/// How much work the stages of a question are together, by [`weight`].
#[derive(Debug, Clone, Copy)]
pub(crate) struct Plan(f64);

impl Plan {
    /// Of reading a part.
    pub(crate) const READING: Self = Self(weight(Stage::Reading) + weight(Stage::Recognising));

    const LOADED: f64 = weight(Stage::Cutting) + weight(Stage::Assessing);

    /// Of a check.
    pub(crate) fn check(field: bool) -> Self {
        Self(Self::LOADED + weight(Stage::Speed) + weight(Stage::Changes) + f64::from(u8::from(field)) * FIELD)
    }

    /// Of two checks.
    pub(crate) fn compare(field: bool) -> Self {
        Self(2.0 * Self::check(field).0)
    }

    /// Of life against speed.
    pub(crate) fn sweep(field: bool) -> Self {
        Self(Self::LOADED + weight(Stage::Speed) + f64::from(u8::from(field)) * FIELD)
    }

    /// Of build directions, four of which are solved.
    pub(crate) fn directions(field: bool) -> Self {
        Self(Self::LOADED + weight(Stage::Directions) + 4.0 * f64::from(u8::from(field)) * FIELD)
    }

    /// Of walls.
    pub(crate) fn walls() -> Self {
        Self(weight(Stage::Assessing) + weight(Stage::Walls))
    }
}

const FIELD: f64 = weight(Stage::Field);

/// Time of a stage over that of the shortest, roughly: measured on the sample rods with the usual number of cells.
const fn weight(stage: Stage) -> f64 {
    match stage {
        Stage::Field => 60.0,
        Stage::Speed | Stage::Changes | Stage::Directions => 3.0,
        Stage::Walls => 2.0,
        Stage::Reading | Stage::Recognising | Stage::Cutting | Stage::Assessing => 1.0,
    }
}

/// Stages of the core as shares of the whole.
pub(crate) struct Shares<'a> {
    whole: f64,
    /// Work of the stages that are over.
    over: f64,
    stage: Option<Stage>,
    told: f64,
    progress: Progress<'a>,
}

impl<'a> Shares<'a> {
    pub(crate) fn new(Plan(whole): Plan, progress: Progress<'a>) -> Self {
        Self { whole, over: 0.0, stage: None, told: 0.0, progress }
    }

    fn tell(&mut self, words: &str, within: f64) -> bool {
        let now = self.stage.map_or(0.0, |stage| within * weight(stage));
        self.told = self.told.max(((self.over + now) / self.whole).min(1.0));
        (self.progress)(words, self.told)
    }
}

impl Watcher for Shares<'_> {
    fn enter(&mut self, stage: Stage) -> bool {
        self.over += self.stage.replace(stage).map_or(0.0, weight);
        self.tell(stage.words(), 0.0)
    }

    fn solving(&mut self, case: &str, number: usize, of: usize) -> bool {
        let words = format!("{}, {} of {of}: {case}", Stage::Field.words(), number + 1);
        self.tell(&words, number as f64 / of.max(1) as f64)
    }
}

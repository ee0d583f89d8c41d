use std::time::Instant;

use wasmtime::component::ResourceAny;
use wasmtime::{Engine, Store, UpdateDeadline};

use crate::bindings::{World, WorldPre, host};
use crate::checker::{AnswerWords, Guest, Pose, Refusal, Verdict};
use crate::limits::Meter;
use crate::{Cancel, HostError, Limits};

type Progress = Box<dyn FnMut(&str, u32, u32) + Send + Sync>;

/// What the store of one sandbox holds on our side.
pub(crate) struct State {
    meter: Meter,
    cancel: Cancel,
    progress: Progress,
    limits: Limits,
    begun: Instant,
}

impl host::Host for State {
    fn advance(&mut self, stage: String, step: u32, steps: u32) -> bool {
        (self.progress)(&stage, step, steps);
        !self.cancel.is_cancelled()
    }
}

/// A job file with the texts of the files it names.
#[derive(Debug, Clone, Copy, Default)]
pub struct JobTexts<'a> {
    /// The job file.
    pub job: &'a str,
    /// Its material card.
    pub card: Option<&'a str>,
    /// Its pressure table.
    pub pressure: Option<&'a str>,
    /// The table of its history.
    pub history: Option<&'a str>,
}

impl<'a> From<&'a str> for JobTexts<'a> {
    fn from(job: &'a str) -> Self {
        Self { job, card: None, pressure: None, history: None }
    }
}

/// How the stress of a part is found.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq)]
pub enum Stress {
    /// By the stress field, with the usual number of cells.
    #[default]
    Field,
    /// By the stress field, with about so many cells.
    Cells(u32),
    /// By sections alone, at once: that may find a fault, and never says that a part holds.
    Sections,
}

impl Stress {
    /// Cells that are asked for by number.
    fn cells(self) -> Option<u32> {
        match self {
            Self::Cells(cells) => Some(cells),
            Self::Field | Self::Sections => None,
        }
    }

    fn checked(
        self,
        checker: &Guest,
        store: &mut Store<State>,
        (part, job): (ResourceAny, ResourceAny),
        paint: bool,
    ) -> Result<ResourceAny, CallError> {
        Ok(match self {
            Self::Field => checker.part().call_check(store, part, job, paint)??,
            Self::Cells(cells) => checker.part().call_check_field(store, part, job, paint, cells)??,
            Self::Sections => checker.part().call_quick_look(store, part, job, paint)??,
        })
    }
}

/// A running plugin. After any error but [`HostError::Refused`] it is spent: open another.
pub struct Session {
    store: Store<State>,
    world: World,
}

impl Session {
    pub(crate) fn start(
        engine: &Engine,
        world: &WorldPre<State>,
        limits: Limits,
        cancel: Cancel,
        progress: Progress,
    ) -> Result<Self, HostError> {
        let state = State { meter: Meter::new(limits.memory_mib), cancel, progress, limits, begun: Instant::now() };
        let mut store = Store::new(engine, state);
        store.limiter(|state| &mut state.meter);
        store.set_epoch_deadline(1);
        store.epoch_deadline_callback(|context| {
            let state = context.data();
            if state.cancel.is_cancelled() {
                return Err(HostError::Cancelled.into());
            }
            if state.begun.elapsed() > state.limits.deadline {
                return Err(HostError::Deadline { limit_ms: state.limits.deadline.as_millis() }.into());
            }
            Ok(UpdateDeadline::Continue(1))
        });
        let world = world.instantiate(&mut store).map_err(|error| HostError::of_call(&error))?;
        Ok(Self { store, world })
    }

    /// Memory the sandbox has taken so far.
    pub fn memory_bytes(&self) -> usize {
        self.store.data().meter.taken()
    }

    /// The verdict of a check, typed.
    pub fn verdict(&mut self, stl: &[u8], job: &JobTexts<'_>, stress: Stress) -> Result<Verdict, HostError> {
        self.about_part(stl, job, |checker, store, part, job| {
            let answer = stress.checked(checker, &mut *store, (part, job), false)?;
            let verdict = checker.checked().call_verdict(&mut *store, answer)?;
            answer.resource_drop(store)?;
            Ok(verdict)
        })
    }

    /// The answer of a check in plain English, as the command line prints it.
    pub fn words(&mut self, stl: &[u8], job: &JobTexts<'_>, stress: Stress) -> Result<AnswerWords, HostError> {
        self.about_part(stl, job, |checker, store, part, job| {
            let answer = stress.checked(checker, &mut *store, (part, job), false)?;
            let words = checker.checked().call_words(&mut *store, answer)?;
            answer.resource_drop(store)?;
            Ok(words)
        })
    }

    /// The usual ways for a part to lie on the bed.
    pub fn poses(&mut self, stl: &[u8], job: &JobTexts<'_>) -> Result<Vec<Pose>, HostError> {
        self.about_part(stl, job, |checker, store, part, _| Ok(checker.part().call_poses(store, part)?))
    }

    /// The report of a check as JSON.
    pub fn check(&mut self, stl: &[u8], job: &JobTexts<'_>, stress: Stress) -> Result<String, HostError> {
        self.about_part(stl, job, |checker, store, part, job| {
            let answer = stress.checked(checker, &mut *store, (part, job), false)?;
            let json = checker.checked().call_json(&mut *store, answer)??;
            answer.resource_drop(store)?;
            Ok(json)
        })
    }

    /// The same with one number for every facet to paint it by, see `checked.facet-utilisation` of the interface.
    pub fn check_painted(
        &mut self,
        stl: &[u8],
        job: &JobTexts<'_>,
        stress: Stress,
    ) -> Result<(String, Vec<f32>), HostError> {
        self.about_part(stl, job, |checker, store, part, job| {
            let answer = stress.checked(checker, &mut *store, (part, job), true)?;
            let json = checker.checked().call_json(&mut *store, answer)??;
            let used = checker.checked().call_facet_utilisation(&mut *store, answer)?;
            answer.resource_drop(store)?;
            Ok((json, used))
        })
    }

    /// The report on build directions as JSON.
    pub fn directions(
        &mut self,
        stl: &[u8],
        job: &JobTexts<'_>,
        count: u32,
        stress: Stress,
    ) -> Result<String, HostError> {
        self.about_part(stl, job, |checker, store, part, job| {
            let answer = match stress {
                Stress::Field => checker.part().call_directions(&mut *store, part, job, count)??,
                _ => checker.part().call_directions_by(&mut *store, part, job, count, stress.cells())??,
            };
            let json = checker.directed().call_json(&mut *store, answer)??;
            answer.resource_drop(store)?;
            Ok(json)
        })
    }

    /// The report on walls as JSON.
    pub fn walls(&mut self, stl: &[u8], job: &JobTexts<'_>, least_mm: Option<f64>) -> Result<String, HostError> {
        self.about_part(stl, job, |checker, store, part, job| {
            let answer = checker.part().call_walls(&mut *store, part, job, least_mm)??;
            let json = checker.measured().call_json(&mut *store, answer)??;
            answer.resource_drop(store)?;
            Ok(json)
        })
    }

    /// The report on life at `count` top speeds as JSON.
    pub fn sweep(
        &mut self,
        stl: &[u8],
        job: &JobTexts<'_>,
        from_rpm: f64,
        to_rpm: f64,
        count: u32,
        stress: Stress,
    ) -> Result<String, HostError> {
        self.about_part(stl, job, |checker, store, part, job| {
            let part_of = checker.part();
            let answer = match stress {
                Stress::Field => part_of.call_sweep(&mut *store, part, job, from_rpm, to_rpm, count)??,
                _ => part_of.call_sweep_by(&mut *store, part, job, from_rpm, to_rpm, count, stress.cells())??,
            };
            let json = checker.swept().call_json(&mut *store, answer)??;
            answer.resource_drop(store)?;
            Ok(json)
        })
    }

    /// Reads job and part, asks, and lets both go again, answered or refused.
    fn about_part<T>(
        &mut self,
        stl: &[u8],
        texts: &JobTexts<'_>,
        ask: impl FnOnce(&Guest, &mut Store<State>, ResourceAny, ResourceAny) -> Result<T, CallError>,
    ) -> Result<T, HostError> {
        let (checker, store) = (self.world.layload_parts_checker(), &mut self.store);
        store.data_mut().begun = Instant::now();
        let answer = (|| {
            let job = checker.job().call_from_text(&mut *store, texts.job)??;
            if let Some(card) = texts.card {
                checker.job().call_attach_card(&mut *store, job, card)?;
            }
            if let Some(pressure) = texts.pressure {
                checker.job().call_attach_pressure_table(&mut *store, job, pressure)?;
            }
            if let Some(history) = texts.history {
                checker.job().call_attach_history(&mut *store, job, history)??;
            }
            let answer = match checker.part().call_load(&mut *store, stl, job)? {
                Ok(part) => {
                    let answer = ask(checker, &mut *store, part, job);
                    if !matches!(answer, Err(CallError::Broken(_))) {
                        part.resource_drop(&mut *store)?;
                    }
                    answer
                }
                Err(refusal) => Err(refusal.into()),
            };
            if !matches!(answer, Err(CallError::Broken(_))) {
                job.resource_drop(&mut *store)?;
            }
            answer
        })();
        answer.map_err(CallError::told)
    }
}

/// How a call can end without an answer.
enum CallError {
    /// The sandbox was left; nothing can be called any more.
    Broken(wasmtime::Error),
    /// The plugin said why.
    Refused(Refusal),
}

impl CallError {
    fn told(self) -> HostError {
        match self {
            Self::Broken(error) => HostError::of_call(&error),
            Self::Refused(refusal) => refusal.into(),
        }
    }
}

impl From<wasmtime::Error> for CallError {
    fn from(error: wasmtime::Error) -> Self {
        Self::Broken(error)
    }
}

impl From<Refusal> for CallError {
    fn from(refusal: Refusal) -> Self {
        Self::Refused(refusal)
    }
}

use std::sync::Arc;
use std::sync::atomic::{AtomicBool, Ordering};
use std::sync::mpsc::{RecvTimeoutError, channel};
use std::thread;
use std::time::Duration;

use layload_ask::{Progress, Refusal};
use pyo3::prelude::*;
use pyo3::types::PyBool;

use crate::held::{Answer, Job, Part};
use crate::refused::raised;

/// How long Python may have to wait for its signals.
const LOOK: Duration = Duration::from_millis(50);

/// Asks a part.
#[pyfunction]
pub(crate) fn ask(
    py: Python<'_>,
    part: &Part,
    job: &Job,
    question: String,
    progress: Option<Py<PyAny>>,
) -> PyResult<Answer> {
    let (part, job) = (Arc::clone(&part.0), job.now());
    worked(py, progress, move |told| layload_ask::ask(&part, &job, &question, told)).map(Answer)
}

/// Compares two parts, each with its job.
#[pyfunction]
#[pyo3(signature = (old_part, old_job, new_part, new_job, question, progress))]
pub(crate) fn compare(
    py: Python<'_>,
    old_part: &Part,
    old_job: &Job,
    new_part: &Part,
    new_job: &Job,
    question: String,
    progress: Option<Py<PyAny>>,
) -> PyResult<Answer> {
    let (old, new) = ((Arc::clone(&old_part.0), old_job.now()), (Arc::clone(&new_part.0), new_job.now()));
    let work = move |told: Progress<'_>| layload_ask::compare((&old.0, &old.1), (&new.0, &new.1), &question, told);
    worked(py, progress, work).map(Answer)
}

/// What the thread that works tells.
enum Said<T> {
    Stage(String, f64),
    Done(Result<T, Refusal>),
}

/// Tells the thread that works to stop, however its question ends.
struct Stopping(Arc<AtomicBool>);

impl Drop for Stopping {
    fn drop(&mut self) {
        self.0.store(true, Ordering::Relaxed);
    }
}

/// Works in a thread of its own while this one listens to Python's signals and tells `progress`. An interrupt, an exception of
/// `progress` or its false end the question at once; the thread then stops at its next stage, without Python.
pub(crate) fn worked<T: Send + 'static>(
    py: Python<'_>,
    progress: Option<Py<PyAny>>,
    work: impl FnOnce(Progress<'_>) -> Result<T, Refusal> + Send + 'static,
) -> PyResult<T> {
    let stopping = Stopping(Arc::new(AtomicBool::new(false)));
    let stopped = Arc::clone(&stopping.0);
    let (say, mut said) = channel();
    thread::spawn(move || {
        let mut told = |stage: &str, share: f64| {
            say.send(Said::Stage(stage.into(), share)).is_ok() && !stopped.load(Ordering::Relaxed)
        };
        let result = work(&mut told);
        // Nobody listens any more where the question was ended.
        let _ = say.send(Said::Done(result));
    });
    loop {
        let (back, heard) = py.detach(move || {
            let heard = said.recv_timeout(LOOK);
            (said, heard)
        });
        said = back;
        match heard {
            Ok(Said::Done(result)) => return result.map_err(|refusal| raised(py, refusal)),
            Ok(Said::Stage(stage, share)) => {
                if let Some(progress) = &progress
                    && progress.call1(py, (stage, share))?.bind(py).cast::<PyBool>().is_ok_and(|go_on| !go_on.is_true())
                {
                    return Err(raised(py, Refusal::own("cancelled", "stopped on request", "run it again")));
                }
            }
            Err(RecvTimeoutError::Timeout) => {}
            Err(RecvTimeoutError::Disconnected) => {
                let fault = Refusal::own(
                    "fault",
                    "the library has a fault and gave up this question",
                    "report this with the mesh and the job",
                );
                return Err(raised(py, fault));
            }
        }
        py.check_signals()?;
    }
}

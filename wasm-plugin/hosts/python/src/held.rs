use std::path::PathBuf;
use std::sync::{Arc, Mutex, PoisonError};

use layload_ask::{Purpose, Refusal, Triangles};
use pyo3::prelude::*;
use pyo3::pybacked::PyBackedBytes;
use pyo3::types::PyBytes;

use crate::asked::worked;
use crate::refused::raised;
use crate::{bytes_of, rows_of};

/// A job that Python holds.
#[pyclass(frozen, module = "layload._native")]
pub(crate) struct Job(Mutex<layload_ask::Job>);

impl Job {
    /// The job as it is now.
    pub(crate) fn now(&self) -> layload_ask::Job {
        // A job is whole after every change.
        self.0.lock().unwrap_or_else(PoisonError::into_inner).clone()
    }
}

fn purpose(word: &str) -> Result<Purpose, Refusal> {
    let known = [Purpose::Card, Purpose::PressureTable];
    known.into_iter().find(|purpose| purpose.word() == word).ok_or_else(|| {
        let words = known.map(Purpose::word).join(" and ");
        Refusal::own("purpose-unknown", format!("there are no files for `{word}`"), format!("files are for {words}"))
    })
}

#[pymethods]
impl Job {
    #[staticmethod]
    fn from_text(py: Python<'_>, text: &str) -> PyResult<Self> {
        layload_ask::Job::from_text(text).map(|job| Self(Mutex::new(job))).map_err(|refusal| raised(py, refusal))
    }

    #[staticmethod]
    fn from_json(py: Python<'_>, text: &str) -> PyResult<Self> {
        layload_ask::Job::from_json(text).map(|job| Self(Mutex::new(job))).map_err(|refusal| raised(py, refusal))
    }

    fn to_text(&self, py: Python<'_>) -> PyResult<String> {
        self.now().to_text().map_err(|refusal| raised(py, refusal))
    }

    fn key(&self, py: Python<'_>, name: &str) -> PyResult<Option<String>> {
        self.now().key(name).map_err(|refusal| raised(py, refusal))
    }

    #[pyo3(signature = (name, value))]
    fn set_key(&self, py: Python<'_>, name: &str, value: Option<&str>) -> PyResult<()> {
        let mut job = self.0.lock().unwrap_or_else(PoisonError::into_inner);
        job.set_key(name, value).map_err(|refusal| raised(py, refusal))
    }

    fn missing_files(&self) -> Vec<(String, &'static str)> {
        self.now().missing_files().into_iter().map(|file| (file.name, file.purpose.word())).collect()
    }

    fn attach(&self, py: Python<'_>, purpose_word: &str, text: String) -> PyResult<()> {
        let purpose = purpose(purpose_word).map_err(|refusal| raised(py, refusal))?;
        self.0.lock().unwrap_or_else(PoisonError::into_inner).attach(purpose, text);
        Ok(())
    }
}

/// A part that Python holds.
#[pyclass(frozen, module = "layload._native")]
pub(crate) struct Part(pub(crate) Arc<layload_ask::Part>);

impl From<layload_ask::Part> for Part {
    fn from(part: layload_ask::Part) -> Self {
        Self(Arc::new(part))
    }
}

/// Largest file that is read, bytes: that of the most facets.
const FILE_MOST: u64 = (2 << 30) + 84;

#[pymethods]
impl Part {
    #[staticmethod]
    fn from_bytes(py: Python<'_>, stl: PyBackedBytes, job: &Job, progress: Option<Py<PyAny>>) -> PyResult<Self> {
        let job = job.now();
        worked(py, progress, move |told| layload_ask::Part::from_stl(&stl, &job, told)).map(Self::from)
    }

    #[staticmethod]
    fn from_file(py: Python<'_>, path: PathBuf, job: &Job, progress: Option<Py<PyAny>>) -> PyResult<Self> {
        let length = std::fs::metadata(&path)?.len();
        if length > FILE_MOST {
            let message = format!("{} is larger than {} MiB and was not read", path.display(), FILE_MOST >> 20);
            return Err(raised(py, Refusal::own("mesh-too-many", message, "export with a coarser tessellation")));
        }
        let (stl, job) = (py.detach(|| std::fs::read(&path))?, job.now());
        worked(py, progress, move |told| layload_ask::Part::from_stl(&stl, &job, told)).map(Self::from)
    }

    /// `points` are the bytes of three doubles each, `corners` of three unsigned numbers of 32 bits.
    #[staticmethod]
    fn from_triangles(
        py: Python<'_>,
        points: PyBackedBytes,
        corners: PyBackedBytes,
        job: &Job,
        progress: Option<Py<PyAny>>,
    ) -> PyResult<Self> {
        let job = job.now();
        let read = move |told: layload_ask::Progress<'_>| {
            let (points, corners) = (rows_of(&points, f64::from_ne_bytes), rows_of(&corners, u32::from_ne_bytes));
            layload_ask::Part::from_triangles(Triangles { points: &points, corners: &corners }, &job, told)
        };
        worked(py, progress, read).map(Self::from)
    }

    #[getter]
    fn kind(&self) -> &'static str {
        self.0.kind()
    }
}

/// An answer that Python holds.
#[pyclass(frozen, module = "layload._native")]
pub(crate) struct Answer(pub(crate) layload_ask::Answer);

#[pymethods]
impl Answer {
    #[getter]
    fn json(&self) -> &str {
        self.0.json()
    }

    #[getter]
    fn words(&self) -> &str {
        self.0.words()
    }

    /// Points, corners and values as the bytes of their numbers; none where nothing was painted.
    #[getter]
    fn painted<'py>(&self, py: Python<'py>) -> Option<[Bound<'py, PyBytes>; 3]> {
        let painted = self.0.painted()?;
        let points = bytes_of(painted.points_mm.iter().flatten().map(|number| number.to_ne_bytes()));
        let corners = bytes_of(painted.corners.iter().flatten().map(|number| number.to_ne_bytes()));
        let values = bytes_of(painted.values.iter().map(|number| number.to_ne_bytes()));
        Some([points, corners, values].map(|bytes| PyBytes::new(py, &bytes)))
    }
}

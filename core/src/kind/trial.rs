use std::any::Any;
use std::collections::BTreeMap;
use std::sync::{Arc, Mutex, PoisonError};

use super::{Question, Sizes, Watcher};
use crate::Error;
use crate::life::WeakestLink;
use crate::orient::Posed;
use crate::print::PrintSettings;
use crate::verdict::Mode;
use crate::verdict::field::FieldRequest;

/// One part asked many times with changed inputs, without reading or cutting its mesh again.
pub trait Trials: Send + Sync {
    /// Assesses the part for a job at some sizes by its sections, raised to the stress field where one was solved.
    ///
    /// # Errors
    ///
    /// As a check of that job.
    fn assessed(&self, question: &Question<'_>, sizes: &Sizes) -> Result<Trial, Error>;

    /// From now on sections are raised by what a field found over them: at its job the margin is then that of a check; at others,
    /// and at other sizes, it is corrected by as much. Nothing changes where the part has no sections.
    fn take(&mut self, _correction: &Correction) {}

    /// Assesses the part by a stress field solved at its very sizes; `None` where no mesh of those sizes can be made of it.
    ///
    /// # Errors
    ///
    /// As a check of that job, and where the watcher stops the work.
    fn solved(
        &self,
        _question: &Question<'_>,
        _sizes: &Sizes,
        _request: FieldRequest,
        _watcher: &mut dyn Watcher,
    ) -> Result<Option<Trial>, Error> {
        Err(Error::FieldOnly)
    }

    /// How it lies on the bed for a job at some sizes. Supports of a part made thicker are taken to grow as its height does.
    ///
    /// # Errors
    ///
    /// Where the job does not belong to the part.
    fn posed(&self, question: &Question<'_>, sizes: &Sizes) -> Result<(PrintSettings, Posed), Error>;
}

/// What one trial came to; the same numbers as a check's where the sizes are those of the mesh.
#[derive(Debug, Clone, PartialEq)]
pub struct Trial {
    /// Mass of the plastic, kg.
    pub mass: f64,
    /// Factor by which all stress could grow before one part in ten fails within the wanted life.
    pub margin: f64,
    /// Running time that nine in ten reach, s.
    pub life_b10: f64,
    /// Running time that half reach, s.
    pub life_b50: f64,
    /// Highest temperature at which strength was taken, K.
    pub peak: f64,
    /// What fails first: the mode whose own margin is least.
    pub mode: Mode,
    /// Where.
    pub place: String,
    /// All places that can fail, with their scatter; heat that takes a piston is not among them.
    pub link: WeakestLink,
}

/// What the stress field of a part found over its sections, at the job it was solved for.
#[derive(Debug, Clone)]
pub struct Correction {
    /// Of the kind's own type.
    pub(crate) raise: Arc<dyn Any + Send + Sync>,
    /// What a check says of the part there.
    pub(crate) at_duty: Trial,
}

/// Things measured once, by what they depend on; which are kept never changes a result.
pub(crate) struct Kept<T>(Mutex<BTreeMap<Vec<u64>, Arc<T>>>);

impl<T> Default for Kept<T> {
    fn default() -> Self {
        Self(Mutex::default())
    }
}

/// Models kept at a time: enough for a table of materials, directions and walls.
const KEPT: usize = 48;

impl<T> Kept<T> {
    pub(crate) fn get(&self, key: &[f64], make: impl FnOnce() -> Result<T, Error>) -> Result<Arc<T>, Error> {
        let key: Vec<u64> = key.iter().map(|number| number.to_bits()).collect();
        if let Some(known) = self.0.lock().unwrap_or_else(PoisonError::into_inner).get(&key) {
            return Ok(known.clone());
        }
        // Made outside the lock: two threads may make the same, which is dearer than waiting only once.
        let made = Arc::new(make()?);
        let mut kept = self.0.lock().unwrap_or_else(PoisonError::into_inner);
        if kept.len() >= KEPT {
            kept.clear();
        }
        kept.insert(key, made.clone());
        Ok(made)
    }
}

/// What of the print settings a measured part depends on.
pub(crate) fn print_key(print: &PrintSettings) -> [f64; 8] {
    let PrintSettings { build, bead_width, layer_height, walls, skin_layers, infill } = print;
    [build.x, build.y, build.z, *bead_width, *layer_height, f64::from(*walls), f64::from(*skin_layers), *infill]
}

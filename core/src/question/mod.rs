mod check;
mod compare;
mod directions;
mod learn;
mod record;
mod size;
mod study;
mod sweep;
mod trial;
mod walls;

pub use check::{
    CheckRequest, Checked, LoadedPart, PartSource, PreparedRod, Question, SolvedField, Stage, Watcher, check,
    check_facets, check_with, load, prepare, stress_field,
};
pub(crate) use check::{Printed, facet_values, posed_in, stage};
pub use compare::{Revision, compare};
pub use directions::{DIRECTION_RANGE, USUAL_DIRECTIONS, directions};
pub use learn::{LoggedRun, learn};
pub use record::{Record, record};
pub use size::{FACTOR_RANGE, SizeRequest, size};
pub use study::{CaseResult, Study};
pub(crate) use sweep::Swept;
pub use sweep::{SPEEDS_RANGE, SpeedRange, USUAL_SPEEDS, sweep};
pub(crate) use trial::with_crown;
pub use walls::{WallRequest, Walls, walls};

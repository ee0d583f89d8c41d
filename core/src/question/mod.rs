//! One page a question: from bytes and a job to an answer, written once for every kind of part.

mod check;
mod compare;
mod diagnose;
mod directions;
mod learn;
mod learn_by_mode;
mod learned_card;
mod learned_laws;
mod load;
mod places;
mod plan;
mod record;
mod size;
mod study;
mod sweep;
mod trial;
mod walls;

pub use check::{check, check_with, quick_look};
pub use compare::{Revision, compare};
pub use diagnose::{SeenAt, SeenBreak, diagnose};
pub use directions::{DIRECTION_RANGE, USUAL_DIRECTIONS, directions};
pub use learn::{LoggedRun, learn};
pub use load::{PartSource, load, load_triangles, of_kind, prepare};
pub use places::places;
pub use plan::{PART_COUNTS, plan};
pub use record::{Record, record};
pub use size::{SizeRequest, size};
pub use study::{CaseResult, Study};
pub use sweep::{check_and_sweep, sweep};
pub use walls::{WallRequest, Walls, walls};

use crate::Error;

/// Stages of the questions, each question going through some of them in order.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Stage {
    /// Reading the mesh.
    Reading,
    /// Recognising the part.
    Recognising,
    /// Cutting sections.
    Cutting,
    /// Assessing life at the duty.
    Assessing,
    /// Solving the stress field.
    Field,
    /// Looking for the highest speed.
    Speed,
    /// Looking at changes of the input.
    Changes,
    /// Scoring build directions.
    Directions,
    /// Measuring walls.
    Walls,
}

impl Stage {
    /// Stages that one question goes through, at most.
    pub const COUNT: usize = 7;

    /// What is going on, in words.
    pub fn words(self) -> &'static str {
        match self {
            Self::Reading => "reading the mesh",
            Self::Recognising => "recognising the part",
            Self::Cutting => "cutting sections",
            Self::Assessing => "assessing life",
            Self::Field => "solving the stress field",
            Self::Speed => "looking for the highest speed",
            Self::Changes => "looking at changes of the input",
            Self::Directions => "scoring build directions",
            Self::Walls => "measuring walls",
        }
    }
}

/// Told of each stage as it begins; may stop the work.
pub trait Watcher {
    /// Whether to go on.
    fn enter(&mut self, stage: Stage) -> bool;

    /// Told of each case of the stress field as its solution begins, and then of each closer look at a place, `number` of
    /// `of`; whether to go on.
    fn solving(&mut self, _case: &str, _number: usize, _of: usize) -> bool {
        true
    }
}

/// Watches nothing.
impl Watcher for () {
    fn enter(&mut self, _: Stage) -> bool {
        true
    }
}

/// Tells of a stage; fails where the work is stopped.
///
/// # Errors
///
/// [`Error::Cancelled`] where the watcher does not want to go on.
pub fn stage(watcher: &mut dyn Watcher, stage: Stage) -> Result<(), Error> {
    if watcher.enter(stage) { Ok(()) } else { Err(Error::Cancelled) }
}

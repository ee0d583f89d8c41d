//! Stages of the core, told to the host.

use layload_core::{Stage, Watcher};

use crate::interface::host::advance;

/// Tells the host of each stage and asks whether to go on.
#[derive(Debug, Default)]
pub(crate) struct HostWatcher {
    begun: u32,
}

impl Watcher for HostWatcher {
    fn enter(&mut self, stage: Stage) -> bool {
        let steps = Stage::COUNT as u32;
        self.begun = (self.begun + 1).min(steps);
        advance(stage.words(), self.begun, steps)
    }

    fn solving(&mut self, case: &str, number: usize, of: usize) -> bool {
        let words = format!("{}, {} of {of}: {case}", Stage::Field.words(), number + 1);
        advance(&words, self.begun, Stage::COUNT as u32)
    }
}

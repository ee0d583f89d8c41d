use std::time::{Duration, Instant};

use indicatif::{ProgressBar, ProgressStyle};
use layload_core::{Stage, Watcher};

/// Work shorter than this shows no bar.
const PATIENCE: Duration = Duration::from_millis(500);

/// A bar on stderr for long checks; nothing when stderr is not a terminal.
pub(crate) struct StageBar {
    begun: Instant,
    entered: u64,
    bar: Option<ProgressBar>,
}

impl StageBar {
    pub(crate) fn new() -> Self {
        Self { begun: Instant::now(), entered: 0, bar: None }
    }
}

impl StageBar {
    /// Shows what begins now, once the work has taken a while.
    pub(crate) fn show(&mut self, words: &str) {
        if self.bar.is_none() && self.begun.elapsed() >= PATIENCE {
            let bar = ProgressBar::new(Stage::COUNT as u64);
            if let Ok(style) = ProgressStyle::with_template("{wide_bar} {msg}") {
                bar.set_style(style);
            }
            self.bar = Some(bar);
        }
        if let Some(bar) = &self.bar {
            bar.set_position(self.entered);
            bar.set_message(words.to_string());
        }
        self.entered += 1;
    }
}

impl Watcher for StageBar {
    fn enter(&mut self, stage: Stage) -> bool {
        self.show(stage.words());
        true
    }
}

impl Drop for StageBar {
    fn drop(&mut self) {
        if let Some(bar) = &self.bar {
            bar.finish_and_clear();
        }
    }
}

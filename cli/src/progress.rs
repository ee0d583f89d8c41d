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
    /// When each solution of the stress field began, and what came after the last.
    solving: Vec<Instant>,
    solved: Option<Instant>,
}

impl StageBar {
    pub(crate) fn new() -> Self {
        Self { begun: Instant::now(), entered: 0, bar: None, solving: Vec::new(), solved: None }
    }

    /// How long each solution of the stress field took; the last with what followed it until the field was done.
    pub(crate) fn solves(&self) -> Vec<Duration> {
        let ends = self.solving.iter().skip(1).chain(&self.solved);
        self.solving.iter().zip(ends).map(|(from, to)| *to - *from).collect()
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
        if !self.solving.is_empty() && self.solved.is_none() {
            self.solved = Some(Instant::now());
        }
        self.show(stage.words());
        true
    }

    fn solving(&mut self, case: &str, number: usize, of: usize) -> bool {
        self.solving.push(Instant::now());
        if let Some(bar) = &self.bar {
            bar.set_message(format!("{}, {} of {of}: {case}", Stage::Field.words(), number + 1));
        }
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

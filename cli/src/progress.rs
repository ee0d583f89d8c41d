use std::time::{Duration, Instant};

use indicatif::{ProgressBar, ProgressStyle};
use layload_core::{Stage, Watcher};

use crate::text::wrap::width;
use crate::visible::visible;

/// Work shorter than this shows no bar.
const PATIENCE: Duration = Duration::from_millis(500);

/// Solutions of the stress field that begin within this are solved together.
const TOGETHER: Duration = Duration::from_millis(2);

/// A bar on stderr for long checks; nothing when stderr is not a terminal.
pub(crate) struct StageBar {
    /// Nothing is drawn.
    silent: bool,
    begun: Instant,
    entered: u64,
    bar: Option<ProgressBar>,
    /// What stands over the bar.
    head: String,
    /// When each solution of the stress field began, and what came after the last.
    solving: Vec<Instant>,
    solved: Option<Instant>,
}

impl StageBar {
    pub(crate) fn new() -> Self {
        Self {
            silent: false,
            begun: Instant::now(),
            entered: 0,
            bar: None,
            head: String::new(),
            solving: Vec::new(),
            solved: None,
        }
    }

    /// One that is never drawn.
    pub(crate) fn silent() -> Self {
        let mut bar = Self::new();
        bar.silent = true;
        bar
    }

    /// How long each solution of the stress field took; those solved together share their time alike, and the last have
    /// what followed until the field was done.
    pub(crate) fn solves(&self) -> Vec<Duration> {
        let Some(solved) = self.solved else { return Vec::new() };
        let together = self.solving.chunk_by(|a, b| *b - *a < TOGETHER);
        let begins: Vec<(Instant, usize)> = together.filter_map(|some| Some((*some.first()?, some.len()))).collect();
        let ends = begins.iter().skip(1).map(|(begin, _)| *begin).chain([solved]);
        let shares = begins.iter().zip(ends).map(|(&(begin, count), end)| ((end - begin) / count as u32, count));
        shares.flat_map(|(share, count)| std::iter::repeat_n(share, count)).collect()
    }
}

impl StageBar {
    /// Puts words over the bar, which go with it when the work is done.
    pub(crate) fn head(&mut self, words: &str) {
        self.head = textwrap::fill(&visible(words), width()) + "\n";
        self.draw();
    }

    fn draw(&mut self) {
        let bar = ProgressBar::new(Stage::COUNT as u64);
        if let Ok(style) = ProgressStyle::with_template("{prefix}{wide_bar} {msg}") {
            bar.set_style(style);
        }
        bar.set_prefix(self.head.clone());
        self.bar = Some(bar);
    }

    /// Shows what begins now, once the work has taken a while.
    pub(crate) fn show(&mut self, words: &str) {
        if self.bar.is_none() && !self.silent && self.begun.elapsed() >= PATIENCE {
            self.draw();
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

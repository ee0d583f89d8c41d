//! A report in sentences of plain English, the same ones in a terminal, on a page and from the plugin.

mod actions;
mod advice;
mod answer;
mod change;
mod confidence;
mod fits;
mod heat;
/// Numbers as people read them.
pub mod numbers;
mod places;
mod setting;
mod taken;
mod unchecked;

pub use actions::Action;
pub use answer::Line;

use super::{Report, WarningReport};

/// What a report says, in words.
///
/// ```
/// use layload_core::job::Job;
/// use layload_core::report::words::Words;
/// use layload_core::{Question, quick_look};
///
/// # fn main() -> Result<(), Box<dyn std::error::Error>> {
/// # let samples = concat!(env!("CARGO_MANIFEST_DIR"), "/../samples/");
/// # let stl = std::fs::read(format!("{samples}plain_rod.stl"))?;
/// # let job = Job::from_toml(&std::fs::read_to_string(format!("{samples}bench_single.toml"))?)?;
/// let report = quick_look(&stl, &Question { job: &job, card_text: None, pressure_text: None }, &mut ())?;
/// let words = Words(&report);
/// println!("{}: {}", words.word(), words.sentence());
/// for line in words.lines() {
///     println!("{}: {}", line.about, line.text);
/// }
/// # assert!(!words.advice().is_empty());
/// # Ok(())
/// # }
/// ```
#[derive(Debug, Clone, Copy)]
pub struct Words<'a>(pub &'a Report);

impl Words<'_> {
    /// The answer in a word or a few.
    pub fn word(self) -> &'static str {
        answer::word(self.0)
    }

    /// The answer in a sentence, to follow its word.
    pub fn sentence(self) -> String {
        answer::sentence(self.0)
    }

    /// A look at sections in one sentence, to stand until the stress field is solved.
    pub fn first_look(self) -> String {
        answer::quick(self.0)
    }

    /// The verdict in one paragraph: its word, its sentence, the margin of all modes together and the top speed.
    pub fn verdict(self) -> String {
        answer::verdict(self.0)
    }

    /// How fast it may turn.
    pub fn highest(self) -> String {
        answer::highest(self.0)
    }

    /// What the part is called.
    pub fn noun(self) -> &'static str {
        answer::noun(self.0)
    }

    /// The lines under the answer, in their order.
    pub fn lines(self) -> Vec<Line> {
        answer::lines(self.0)
    }

    /// What the answer is worth: how far it may be off, and what was not checked.
    pub fn doubts(self) -> Vec<Line> {
        answer::doubts(self.0)
    }

    /// Engine and print as taken, heat and fits.
    pub fn setting(self) -> Vec<Line> {
        answer::setting(self.0)
    }

    /// A line for every input that is hardly meant.
    pub fn unusual(warnings: &[WarningReport]) -> Vec<Line> {
        answer::unusual(warnings)
    }

    /// What to do, best first: what the failure asks for and walls too thin to print, then changes by what they give.
    pub fn actions(self) -> Vec<Action> {
        actions::actions(self.0)
    }

    /// What to do, in sentences with numbers, best first; then what to avoid and what to measure.
    pub fn advice(self) -> Vec<String> {
        advice::advice(self.0)
    }

    /// How far the margin may be off, why, and what to measure first.
    pub fn confidence(self) -> String {
        confidence::confidence(self.0)
    }

    /// How lives scatter, and how far they can be off; none where the first load breaks half of the parts.
    pub fn lives(self) -> Option<String> {
        confidence::lives(self.0)
    }

    /// How hot it gets.
    pub fn heat(self) -> String {
        heat::heat(self.0)
    }

    /// How the layer bond comes about: time of a layer and warmth of the one below.
    pub fn bond(self) -> Option<String> {
        setting::bond(self.0)
    }

    /// The effects in sentences, as they follow the notes on the limits of the estimate.
    pub fn effects(self) -> Vec<String> {
        unchecked::effects(self.0)
    }
}

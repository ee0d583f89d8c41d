use serde::{Deserialize, Serialize};

use super::error::BenchError;
use crate::engine::DutyStep;
use crate::input::meant_in;
use crate::verdict::Mode;

/// How a run ended.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum RunOutcome {
    /// The part was whole when it was stopped.
    Survived,
    /// The part broke, melted or was out of shape.
    Failed,
}

/// One run of one part: a line of the log.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct BenchEntry {
    /// Parts that are alike: what one teaches holds for the others.
    pub family: String,
    /// How it ended.
    pub outcome: RunOutcome,
    /// Everything it ran since new, in order.
    pub steps: Vec<DutyStep>,
    /// Running time at which it was last seen whole, s; a failure lies between then and the end.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub sound_s: Option<f64>,
    /// Temperature of the part, °C, if it was measured; the model's own otherwise.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub temperature_c: Option<f64>,
    /// Where it failed, in the user's words.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub place: Option<String>,
    /// How, in the user's words.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub how: Option<String>,
    /// The failure mode it failed by, where the break was read: then only what decides that mode is learned from it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub mode: Option<Mode>,
    /// Names of what was seen of the break.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub seen: Vec<String>,
    /// Mesh file, from the folder of the log; that of the question otherwise.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub mesh: Option<String>,
    /// Job file likewise.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub job: Option<String>,
    /// Day, as the user writes it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub date: Option<String>,
    /// For the user.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub note: Option<String>,
}

impl BenchEntry {
    /// Running time, s.
    pub fn seconds(&self) -> f64 {
        self.steps.iter().map(|step| step.seconds).sum()
    }

    /// Checks every number.
    ///
    /// # Errors
    ///
    /// Where a step has no speed or time, or it was last seen whole after its end.
    pub fn checked(self) -> Result<Self, BenchError> {
        if self.steps.is_empty() {
            return Err(BenchError::NoSteps);
        }
        let implausible = |what, value| Err(BenchError::Implausible { what, value });
        for step in &self.steps {
            for (what, value) in [("speed", step.rpm), ("time", step.seconds)] {
                if !(value.is_finite() && value > 0.0) {
                    return implausible(what, value);
                }
            }
            if !(0.0..=1.0).contains(&step.throttle) {
                return implausible("throttle", step.throttle);
            }
        }
        match self.sound_s {
            Some(sound) if !(sound >= 0.0 && sound < self.seconds()) => implausible("time last seen whole", sound),
            _ => Ok(self),
        }
    }

    /// The entry as a line, its end included.
    ///
    /// # Errors
    ///
    /// Where it cannot be written as JSON.
    pub fn line(&self) -> Result<String, BenchError> {
        written(self)
    }
}

/// A line that takes a run back: the run stays in the log and is no longer counted.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct TakeBack {
    /// Number of its line, from 1.
    pub takes_back: usize,
    /// Why, in the user's words.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub note: Option<String>,
}

impl TakeBack {
    /// It as a line, its end included.
    ///
    /// # Errors
    ///
    /// Where it cannot be written as JSON.
    pub fn line(&self) -> Result<String, BenchError> {
        written(self)
    }
}

fn written(line: &impl Serialize) -> Result<String, BenchError> {
    let text =
        serde_json::to_string(line).map_err(|error| BenchError::Format { line: 0, reason: error.to_string() })?;
    Ok(text + "\n")
}

/// A log as it stands in its file.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct LogLines {
    /// Runs that count, each with the number of its line, from 1.
    pub entries: Vec<(usize, BenchEntry)>,
    /// Numbers of the lines of runs that were taken back.
    pub taken_back: Vec<usize>,
    /// Number of the last line, if that was never finished.
    pub unfinished: Option<usize>,
}

/// Reads a log: one entry a line, empty lines and lines that begin with `#` left out, and so are runs that were taken back.
///
/// A last line that stops within an entry was being written when the power went: it is left out, and its number, from 1, is
/// the second value. One that is whole but for the end of its line is an entry.
///
/// # Errors
///
/// Where a line is no entry; the last line may be unfinished, its number is given beside the entries before it.
///
/// ```
/// use layload_core::bench::read_log;
///
/// let log = "{\"family\":\"rods\",\"outcome\":\"failed\",\"steps\":[{\"rpm\":6000.0,\"throttle\":1.0,\"seconds\":40.0}]}\n";
/// let (entries, unfinished) = read_log(log).unwrap();
/// assert_eq!((entries[0].seconds(), unfinished), (40.0, None));
/// ```
pub fn read_log(text: &str) -> Result<(Vec<BenchEntry>, Option<usize>), BenchError> {
    let lines = read_lines(text)?;
    Ok((lines.entries.into_iter().map(|(_, entry)| entry).collect(), lines.unfinished))
}

/// The same with the numbers of lines.
///
/// # Errors
///
/// As [`read_log`].
pub fn read_lines(text: &str) -> Result<LogLines, BenchError> {
    let finished = text.rfind('\n').map_or(0, |end| end + 1);
    let mut lines = LogLines::default();
    let mut start = 0;
    for (number, whole) in text.split_inclusive('\n').enumerate() {
        let (number, is_last) = (number + 1, start >= finished);
        start += whole.len();
        let line = whole.trim();
        if line.is_empty() || line.starts_with('#') {
            continue;
        }
        let format = |reason: String| BenchError::Format { line: number, reason };
        let read = if line.contains("\"takes_back\"") {
            serde_json::from_str(line).map(Line::TakeBack)
        } else {
            serde_json::from_str(line).map(|entry| Line::Run(Box::new(entry)))
        };
        match read {
            Ok(Line::Run(entry)) => {
                lines.entries.push((number, entry.checked().map_err(|error| format(error.to_string()))?));
            }
            Ok(Line::TakeBack(back)) => lines.take_back(back.takes_back).map_err(format)?,
            Err(error) if is_last && error.is_eof() && line.starts_with('{') => {
                lines.unfinished = Some(number);
                return Ok(lines);
            }
            Err(error) => {
                let told = error.to_string();
                let meant = meant_in(&told).map_or_else(String::new, |name| format!("; did you mean `{name}`?"));
                return Err(format(told + &meant));
            }
        }
    }
    Ok(lines)
}

enum Line {
    Run(Box<BenchEntry>),
    TakeBack(TakeBack),
}

impl LogLines {
    /// Leaves out the run of a line; says why not, where there is none.
    pub fn take_back(&mut self, line: usize) -> Result<(), String> {
        if self.taken_back.contains(&line) {
            return Err(format!("the run of line {line} was taken back before"));
        }
        let Some(place) = self.entries.iter().position(|(number, _)| *number == line) else {
            return Err(format!("line {line}, which it takes back, is no run before it"));
        };
        self.entries.remove(place);
        self.taken_back.push(line);
        Ok(())
    }
}

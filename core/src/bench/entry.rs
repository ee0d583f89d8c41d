use serde::{Deserialize, Serialize};

use super::BenchError;
use crate::engine::DutyStep;

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
    pub fn line(&self) -> Result<String, BenchError> {
        let text =
            serde_json::to_string(self).map_err(|error| BenchError::Format { line: 0, reason: error.to_string() })?;
        Ok(text + "\n")
    }
}

/// Reads a log: one entry a line, empty lines and lines that begin with `#` left out.
///
/// A last line without an end was being written when the power went: it is no finished entry, and is left out and
/// reported by the second value.
pub fn read_log(text: &str) -> Result<(Vec<BenchEntry>, bool), BenchError> {
    let finished = text.rfind('\n').map_or(0, |end| end + 1);
    let torn = !text[finished..].trim().is_empty();
    let mut entries = Vec::new();
    for (number, line) in text[..finished].lines().enumerate() {
        let line = line.trim();
        if line.is_empty() || line.starts_with('#') {
            continue;
        }
        let entry: BenchEntry = serde_json::from_str(line)
            .map_err(|error| BenchError::Format { line: number + 1, reason: error.to_string() })?;
        let entry =
            entry.checked().map_err(|error| BenchError::Format { line: number + 1, reason: error.to_string() })?;
        entries.push(entry);
    }
    Ok((entries, torn))
}

use std::time::Duration;

use wasmtime::{ResourceLimiter, Result};

use crate::HostError;

/// How much a plugin may take.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Limits {
    /// Memory of a session, MiB; a mesh of a million facets takes some hundreds.
    pub memory_mib: usize,
    /// Time for one question.
    pub deadline: Duration,
}

impl Default for Limits {
    fn default() -> Self {
        Self { memory_mib: 1024, deadline: Duration::from_secs(600) }
    }
}

/// Tables hold function references of 8 or 16 bytes; the plugin has some thousands.
const TABLE_ENTRIES: usize = 100_000;

/// Counts the memory of a session and refuses what is beyond the limit.
#[derive(Debug)]
pub(crate) struct Meter {
    limit_mib: usize,
    taken: usize,
}

impl Meter {
    pub(crate) fn new(limit_mib: usize) -> Self {
        Self { limit_mib, taken: 0 }
    }
}

impl Meter {
    /// Bytes that are taken now; memory of a sandbox only grows.
    pub(crate) fn taken(&self) -> usize {
        self.taken
    }
}

impl ResourceLimiter for Meter {
    fn memory_growing(&mut self, current: usize, desired: usize, _: Option<usize>) -> Result<bool> {
        self.taken = self.taken.saturating_add(desired.saturating_sub(current));
        if self.taken > self.limit_mib.saturating_mul(1 << 20) {
            return Err(HostError::Memory { limit_mib: self.limit_mib }.into());
        }
        Ok(true)
    }

    fn table_growing(&mut self, _: usize, desired: usize, _: Option<usize>) -> Result<bool> {
        Ok(desired <= TABLE_ENTRIES)
    }
}

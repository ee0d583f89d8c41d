use std::sync::Arc;
use std::sync::atomic::{AtomicBool, Ordering};

/// Stops whatever a session is doing, from any thread, within some milliseconds.
#[derive(Debug, Clone, Default)]
pub struct Cancel(Arc<AtomicBool>);

impl Cancel {
    /// Not cancelled yet.
    pub fn new() -> Self {
        Self::default()
    }

    /// Stops the session for good.
    pub fn cancel(&self) {
        self.0.store(true, Ordering::Relaxed);
    }

    /// Whether it was called.
    pub fn is_cancelled(&self) -> bool {
        self.0.load(Ordering::Relaxed)
    }
}

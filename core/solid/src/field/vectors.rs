//! Vector registers as wide as the machine's.

/// Calls `work` as compiled for the widest registers the machine has, which must be inlined whole: what it calls too is
/// compiled for them only where it is inlined.
///
/// Each lane computes what it would alone and products are rounded before they are added, so that the answer is the same
/// on every machine.
#[inline(always)]
#[allow(clippy::inline_always)] // A call would be compiled for the narrowest registers.
pub(super) fn widest<R>(work: impl FnOnce() -> R) -> R {
    #[cfg(target_arch = "x86_64")]
    {
        pulp::Arch::new().dispatch(work)
    }
    #[cfg(not(target_arch = "x86_64"))]
    {
        work()
    }
}

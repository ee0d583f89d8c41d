use crate::verdict::mode::Mode;

/// Rounds in which the margins are brought together; a pressed ring's own stress is not raised, so that one may not do.
pub(crate) const ROUNDS: usize = 8;

/// Margins that lie so close are the same.
pub(crate) const SAME: f64 = 1e-4;

/// Whether stress at a point makes the mode, so that a field has its say in it.
pub(crate) fn by_stress(mode: Mode) -> bool {
    mode.counts_time() || matches!(mode, Mode::OverloadAcrossLayers | Mode::OverloadInLayerPlane | Mode::Crushing)
}

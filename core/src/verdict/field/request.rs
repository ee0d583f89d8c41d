/// What is asked of the stress field.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct FieldRequest {
    /// About so many cells in the part.
    pub cells: usize,
}

impl FieldRequest {
    /// Cells unless said otherwise: about fifteen across a small end's bore, answered in seconds.
    pub const USUAL_CELLS: usize = 60_000;
}

impl Default for FieldRequest {
    fn default() -> Self {
        Self { cells: Self::USUAL_CELLS }
    }
}

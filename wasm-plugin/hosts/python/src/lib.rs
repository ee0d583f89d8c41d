//! The checks of `layload` as an extension module. What Python programs see is in the folder `layload`, which is built on this.

mod asked;
mod held;
mod refused;

use pyo3::prelude::*;

/// The library behind the package.
#[pymodule]
mod _native {
    #[pymodule_export]
    use super::asked::{ask, compare};
    #[pymodule_export]
    use super::held::{Answer, Job, Part};

    /// Version of the program inside.
    #[pymodule_export]
    const VERSION: &str = layload_ask::VERSION;
}

/// A list of points or corners as the bytes of its numbers.
pub(crate) fn bytes_of<const N: usize>(numbers: impl Iterator<Item = [u8; N]>) -> Vec<u8> {
    numbers.flatten().collect()
}

/// Rows of three numbers from their bytes; what is left over is no row.
pub(crate) fn rows_of<T, const N: usize>(bytes: &[u8], number: fn([u8; N]) -> T) -> Vec<[T; 3]> {
    let number = |at: &[u8]| {
        let mut own = [0; N];
        own.copy_from_slice(at);
        number(own)
    };
    let rows = bytes.chunks_exact(3 * N);
    rows.map(|row| [number(&row[..N]), number(&row[N..2 * N]), number(&row[2 * N..])]).collect()
}

//! A study on disk: finished cases go into journals as they come, results are written when all are there.

mod folder;
#[cfg(feature = "parquet")]
mod parquet;
mod table;

pub(crate) use folder::Folder;
#[cfg(feature = "parquet")]
pub(crate) use parquet::parquet;
pub(crate) use table::{Row, header, row_of};

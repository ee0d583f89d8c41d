//! A study on disk: finished cases go into journals as they come, results are written when all are there.

mod folder;
mod table;

pub(crate) use folder::Folder;
pub(crate) use table::{Row, header, row_of};

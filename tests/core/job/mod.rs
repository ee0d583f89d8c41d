//! Jobs as files and as entries of a form.

mod keys;
mod long_line;
mod plausible;

//! Jobs as files and as entries of a form.

mod keys;

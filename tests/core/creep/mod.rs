//! Creep strain, and how much longer a rod becomes.

use std::error::Error;

mod cards;
mod findley;
mod stretch;

type Tested = Result<(), Box<dyn Error>>;

mod bar;
mod cells;
mod contact;
pub(crate) mod known_solids;
mod refused;
mod shapes;
mod solver;

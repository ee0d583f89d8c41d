mod bar;
mod cells;
mod contact;
mod drawn_out;
pub(crate) mod known_solids;
mod pulled_rods;
mod refused;
mod shapes;
mod solver;

mod bar;
mod cells;
mod contact;
mod known_solids;
mod refused;
mod shapes;
mod solver;

mod cards;
mod off_axis;
mod temperature;

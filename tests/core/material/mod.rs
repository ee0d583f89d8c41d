mod cards;
mod evidence_rows;
mod notch;
mod off_axis;
mod posterior;
mod temperature;

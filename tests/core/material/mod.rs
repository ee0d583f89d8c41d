mod cards;
mod evidence_rows;
mod off_axis;
mod posterior;
mod temperature;

mod bed;
mod column;
mod monotone;
mod published;

mod column;
mod monotone;
mod published;

mod bearing_size;
mod clamp;
mod column;
mod eye_family;
mod fibre;
mod fit_limits;
mod plate;
mod press_fit;

mod column;
mod eye_family;
mod fibre;

//! From test pieces to a card: fits, run-outs, confidence.

mod against;
mod card;
mod censored;
mod coverage;
mod gives_back;
mod quantiles;

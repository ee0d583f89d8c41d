//! From test pieces to a card: fits, run-outs, confidence.

mod card;
mod censored;
mod coverage;
mod quantiles;

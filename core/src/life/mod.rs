//! From a stress history to a life.
//!
//! **Turning points** are the peaks and valleys of a history; **rainflow** pairs them into **cycles** of a *range*
//! (peak to valley) and a *mean*. The **amplitude** is half the range. A **mean-stress rule** turns amplitude and
//! mean into the amplitude that does the same harm at zero mean, *fully reversed*. The **stress-life line** gives
//! the cycles that amplitude may be repeated, **Miner's sum** adds the used shares. **Static fatigue** is rupture
//! under load that merely lasts, with time and heat. **B10** and **B50** are the lives by which 10 % and 50 % have
//! failed; **scatter** is given as the standard deviation of log10. A part is a row of **links** and fails where its
//! **weakest link** does.
//!
//! Stress in Pa, time in s, temperature in K throughout, tension positive. Rainflow itself takes any unit.

mod basquin;
mod bearing;
mod draws;
mod error;
mod findley;
mod lasting;
mod laws;
mod levels;
mod mean_stress;
mod miner;
mod normal;
mod rainflow;
mod scatter;
mod stretch;
mod weakest_link;
mod zhurkov;

pub use basquin::StressLife;
pub use bearing::{BearingLoad, RollingElement, basic_rating_life, equivalent_load};
pub use draws::{drawn_life_at, drawn_lives};
pub use error::LifeError;
pub use findley::{CreepStep, Findley};
pub use lasting::Lasting;
pub use levels::TensionLevels;
pub use mean_stress::{EquivalentAmplitude, MeanStress, WalkerExponent};
pub use miner::{DamageStep, DutyLife, damage_of_cycles, duty_life};
pub use normal::{normal_probability, normal_quantile};
pub use rainflow::{Cycle, RainflowScratch, rainflow, rainflow_repeating};
pub use scatter::{LogNormalLife, combined_deviation_log10};
pub use stretch::{RodStretch, StretchStation, rod_stretch};
pub(crate) use weakest_link::Prints;
pub use weakest_link::{ENDLESS_S, GREATEST_MARGIN, Link, Odds, WeakestLink};
pub use zhurkov::{GAS_CONSTANT_J_MOL_K, KineticStrength};

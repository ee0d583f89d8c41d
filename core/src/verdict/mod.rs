//! Will it hold, for how long, and what fails first.
//!
//! What every kind of part shares: a **margin** for every mode, the factor by which all stress could grow before one part in
//! ten fails within the wanted life; what repeated and lasting load do to one place; how several places add up to a part. What
//! fails first is the mode whose own margin is least; the margin of all modes together, by which a part holds or not, may be a
//! little lower.

pub mod field;
mod harm;
mod lay;
mod margin;
mod mode;
mod part_strength;
mod quantile;
mod running;
mod speed_limit;
mod spot_stress;
mod state;
mod uncertainty;

pub use field::{FieldCase, FieldFindings, FieldRequest, FieldSpot, Moment};
pub(crate) use harm::{
    Harm, Known, NO_DAMAGE, TESTED_CYCLES, cycle_damage, damage_per_repeat, fatigue_line, mean_stress_rule,
    nothing_holds, running_modes, rupture_exponents,
};
pub(crate) use lay::{lay_under, wall_lay};
pub use margin::ModeMargin;
pub use mode::Mode;
pub use part_strength::{NamedStrength, PartStrength};
pub(crate) use quantile::{ln_ten_percent_factor, ten_percent_factor};
pub(crate) use running::{Running, Wanted};
pub use speed_limit::SpeedLimit;
pub(crate) use speed_limit::{SHARPNESS, walked};
pub(crate) use spot_stress::{Counted, Reach, SpotStress, extremes};
pub use state::{Basis, State};
pub use uncertainty::{Influence, Uncertainty};
pub(crate) use uncertainty::{RunsAt, uncertainty_of};

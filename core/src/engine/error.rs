use strum::{IntoStaticStr, VariantNames};
use thiserror::Error;

/// Why a crank cannot be built.
#[derive(Debug, Clone, Copy, PartialEq, Error, IntoStaticStr, VariantNames)]
#[strum(serialize_all = "kebab-case", prefix = "crank-")]
#[non_exhaustive]
pub enum CrankError {
    /// A length that must be above zero is not, or is not a number.
    #[error("the {quantity} must be a positive length, not {value} m")]
    NotPositive {
        /// Which length.
        quantity: &'static str,
        /// The value given, in m.
        value: f64,
    },
    /// The pin offset is infinite or not a number.
    #[error("the pin offset is not a finite number")]
    OffsetNotFinite,
    /// The rod is too short for the crank to pass.
    #[error(
        "the crank cannot turn: throw {:.3} mm plus pin offset {:.3} mm reach the rod length {:.3} mm",
        throw_m * 1e3,
        pin_offset_m.abs() * 1e3,
        rod_length_m * 1e3
    )]
    CannotTurn {
        /// Crank throw.
        throw_m: f64,
        /// Centre distance of the rod.
        rod_length_m: f64,
        /// Pin offset.
        pin_offset_m: f64,
    },
}

impl CrankError {
    /// What the user can do about it.
    pub fn help(&self) -> String {
        match self {
            Self::NotPositive { .. } => "give the length as a number above zero".into(),
            Self::OffsetNotFinite => "give the pin offset as a number; zero for a pin on the cylinder axis".into(),
            Self::CannotTurn { .. } => {
                "check stroke (twice the throw), rod centre distance and pin offset; rods are usually three to five throws long"
                    .into()
            }
        }
    }
}

/// Why a cylinder cannot be built.
#[derive(Debug, Clone, Copy, PartialEq, Error, IntoStaticStr, VariantNames)]
#[strum(serialize_all = "kebab-case", prefix = "cylinder-")]
#[non_exhaustive]
pub enum CylinderError {
    /// The bore is not a positive length.
    #[error("the bore must be a positive length, not {value_m} m")]
    Bore {
        /// The value given.
        value_m: f64,
    },
    /// The compression ratio is not above one.
    #[error("the compression ratio must be above 1, not {value}")]
    CompressionRatio {
        /// The value given.
        value: f64,
    },
}

impl CylinderError {
    /// What the user can do about it.
    pub fn help(&self) -> String {
        match self {
            Self::Bore { .. } => "give the cylinder's bore diameter as a number above zero".into(),
            Self::CompressionRatio { .. } => {
                "give largest over smallest cylinder volume; small spark-ignition engines lie between 6 and 11".into()
            }
        }
    }
}

/// Why a duty is not accepted. Steps are counted from 1.
#[derive(Debug, Clone, Copy, PartialEq, Error, IntoStaticStr, VariantNames)]
#[strum(serialize_all = "kebab-case", prefix = "duty-")]
#[non_exhaustive]
pub enum DutyError {
    /// No steps.
    #[error("the duty has no steps")]
    Empty,
    /// More steps than the program holds.
    #[error("the duty has {count} steps; {limit} are the most")]
    TooMany {
        /// Steps given.
        count: usize,
        /// The limit.
        limit: usize,
    },
    /// A speed out of range.
    #[error("step {number} of the duty: the speed must lie above 0 and up to {limit_rpm} rpm, not {rpm}")]
    Speed {
        /// Which step.
        number: usize,
        /// The speed given.
        rpm: f64,
        /// The highest accepted.
        limit_rpm: f64,
    },
    /// A throttle out of range.
    #[error("step {number} of the duty: the throttle must lie within 0 and 1, not {throttle}")]
    Throttle {
        /// Which step.
        number: usize,
        /// The throttle given.
        throttle: f64,
    },
    /// A time out of range.
    #[error("step {number} of the duty: the time must be above 0 and up to {limit_s} seconds, not {seconds}")]
    Time {
        /// Which step.
        number: usize,
        /// The time given.
        seconds: f64,
        /// The longest accepted.
        limit_s: f64,
    },
}

impl DutyError {
    /// What the user can do about it.
    pub fn help(&self) -> String {
        match self {
            Self::Empty => "give at least one step of speed, throttle and time".into(),
            Self::TooMany { .. } => "merge steps of nearly the same speed and throttle".into(),
            Self::Speed { .. } => "give the crank speed in turns a minute; leave standing time out".into(),
            Self::Throttle { .. } => "give the throttle as a share: 0 closed, 0.5 half open, 1 fully open".into(),
            Self::Time { .. } => "give how long the step lasts, in seconds".into(),
        }
    }
}

/// Why a pressure trace is not accepted. Lines are counted from 1.
#[derive(Debug, Clone, PartialEq, Error, IntoStaticStr, VariantNames)]
#[strum(serialize_all = "kebab-case", prefix = "pressure-")]
#[non_exhaustive]
pub enum PressureError {
    /// Too few or too many samples.
    #[error("a pressure trace takes {least} to {most} samples a cycle, not {count}")]
    SampleCount {
        /// Samples given or asked for.
        count: usize,
        /// Fewest accepted.
        least: usize,
        /// Most accepted.
        most: usize,
    },
    /// A sample that is no absolute pressure.
    #[error("sample {index} of the pressure trace is {value_pa} Pa: absolute pressure is a number above zero")]
    BadSample {
        /// Which sample, from 0.
        index: usize,
        /// Its value.
        value_pa: f64,
    },
    /// The table has no numbers.
    #[error("the pressure table has no rows of numbers")]
    EmptyTable,
    /// More rows than the program holds.
    #[error("line {line} of the pressure table: more than {limit} rows")]
    TooManyRows {
        /// The first line too many.
        line: usize,
        /// The limit.
        limit: usize,
    },
    /// A row without exactly two fields.
    #[error("line {line} of the pressure table: two fields are expected, found {found}")]
    FieldCount {
        /// Where.
        line: usize,
        /// Fields on the line.
        found: usize,
    },
    /// Numbers written with a comma.
    #[error("line {line} of the pressure table: its numbers have a decimal comma")]
    DecimalComma {
        /// Where.
        line: usize,
    },
    /// A heading that names other columns.
    #[error("line {line} of the pressure table: the heading names {what}")]
    Heading {
        /// Where.
        line: usize,
        /// What it names.
        what: &'static str,
    },
    /// A field that is not a number. What stands there is not told on: the table may be any file that a job names.
    #[error("line {line} of the pressure table: a field is not a number")]
    NotANumber {
        /// Where.
        line: usize,
        /// What stands there, shortened.
        text: String,
    },
    /// A number that is infinite or far outside any crank angle.
    #[error("line {line} of the pressure table: the crank angle {angle_deg} deg is out of range")]
    AngleRange {
        /// Where.
        line: usize,
        /// The angle.
        angle_deg: f64,
    },
    /// A pressure that is not finite and positive.
    #[error("line {line} of the pressure table: {pressure_bar} bar is no absolute pressure")]
    PressureRange {
        /// Where.
        line: usize,
        /// The pressure.
        pressure_bar: f64,
    },
    /// Crank angles that do not rise.
    #[error("line {line} of the pressure table: the crank angle {angle_deg} deg does not rise from {before_deg} deg")]
    NotRising {
        /// Where.
        line: usize,
        /// The angle there.
        angle_deg: f64,
        /// The angle before.
        before_deg: f64,
    },
    /// A stretch of the cycle without rows.
    #[error("line {line} of the pressure table: no row for {gap_deg:.3} deg of crank; {limit_deg} deg is the most")]
    Gap {
        /// The line after the gap; the first row's for a gap round the end of the cycle.
        line: usize,
        /// Its width.
        gap_deg: f64,
        /// The widest accepted.
        limit_deg: f64,
    },
    /// More than one cycle.
    #[error(
        "line {line} of the pressure table: {span_deg:.3} deg from the first row is more than one cycle of {cycle_deg} deg"
    )]
    TooLong {
        /// The first line outside the cycle.
        line: usize,
        /// Angle from the first row.
        span_deg: f64,
        /// The cycle.
        cycle_deg: f64,
    },
    /// The first and last row are the same angle of the cycle and disagree.
    #[error(
        "line {line} of the pressure table closes the cycle with {last_bar} bar where the first row has {first_bar} bar"
    )]
    NotClosed {
        /// The last line.
        line: usize,
        /// Its pressure.
        last_bar: f64,
        /// The first row's pressure.
        first_bar: f64,
    },
    /// The peak lies where no firing or compression peak can.
    #[error("the pressure peak lies at {angle_deg:.1} deg; it belongs near angle 0, the firing top dead centre")]
    PeakMisplaced {
        /// Where the peak is, from -half to +half a cycle.
        angle_deg: f64,
    },
}

impl PressureError {
    /// What the user can do about it.
    pub fn help(&self) -> String {
        match self {
            Self::SampleCount { .. } => "one sample a degree of crank is plenty".into(),
            Self::BadSample { .. } | Self::PressureRange { .. } => {
                "give absolute pressure; add about 1.013 bar to gauge pressure".into()
            }
            Self::DecimalComma { .. } => "write numbers with a point, as 25.3, and part the two columns by a semicolon or a comma".into(),
            Self::Heading { .. } => "the first column is the crank angle in degrees, the second the absolute pressure in bar; head them angle_deg,pressure_bar or leave the heading out".into(),
            Self::EmptyTable | Self::FieldCount { .. } | Self::NotANumber { .. } => {
                "each row holds the crank angle in degrees and the absolute pressure in bar, parted by a comma, a semicolon or a tab; decimals take a point; one heading row may come first"
                    .into()
            }
            Self::TooManyRows { .. } => "thin the table out or average it over cycles first".into(),
            Self::AngleRange { .. } => "give crank angles in degrees from the firing top dead centre".into(),
            Self::NotRising { .. } => "sort the rows by crank angle and drop repeated ones".into(),
            Self::Gap { .. } => "give the whole cycle: 360 degrees for a two-stroke, 720 for a four-stroke".into(),
            Self::TooLong { .. } => "give one cycle; average several cycles first".into(),
            Self::NotClosed { .. } => "average over many cycles, or leave the closing row out".into(),
            Self::PeakMisplaced { .. } => {
                "shift the angles so that 0 is the top dead centre of firing, not of gas exchange".into()
            }
        }
    }
}

/// Why the cycle model cannot be run.
#[derive(Debug, Clone, PartialEq, Error, IntoStaticStr, VariantNames)]
#[strum(serialize_all = "kebab-case", prefix = "gas-")]
#[non_exhaustive]
pub enum GasError {
    /// A number outside what the model takes.
    #[error("the {quantity} must be {range}, not {value}")]
    OutOfRange {
        /// Which number.
        quantity: &'static str,
        /// What is accepted.
        range: &'static str,
        /// The value given, in SI units.
        value: f64,
    },
    /// Timing that does not follow the order of the cycle.
    #[error("'{second}' ({second_deg:.1} deg) must come after '{first}' ({first_deg:.1} deg)")]
    AngleOrder {
        /// The earlier event.
        first: &'static str,
        /// The later event.
        second: &'static str,
        /// Angle of the earlier event.
        first_deg: f64,
        /// Angle of the later event.
        second_deg: f64,
    },
    /// Combustion while the cylinder is open.
    #[error(
        "combustion from {burn_from_deg:.1} to {burn_to_deg:.1} deg leaves the closed period from {closed_from_deg:.1} to {closed_to_deg:.1} deg"
    )]
    BurnOutside {
        /// Start of combustion.
        burn_from_deg: f64,
        /// End of combustion.
        burn_to_deg: f64,
        /// Start of the closed period.
        closed_from_deg: f64,
        /// End of the closed period.
        closed_to_deg: f64,
    },
    /// Timing of valves with a two-stroke trace, or of ports with a four-stroke trace.
    #[error("the timing and the pressure trace do not belong to the same number of strokes")]
    StrokesDiffer,
    /// A stated peak pressure that this cycle cannot have.
    #[error(
        "a peak of {:.2} bar is out of reach: this cycle gives {:.2} bar without fuel and {:.2} bar with far more heat than its fuel holds",
        peak_pa / 1e5,
        least_pa / 1e5,
        most_pa / 1e5
    )]
    PeakOutOfReach {
        /// The stated peak.
        peak_pa: f64,
        /// Peak of the motored cycle; the stated one must be above it.
        least_pa: f64,
        /// Peak with the most heat accepted.
        most_pa: f64,
    },
    /// The computed trace is not one of pressures.
    #[error("the cycle model gave no usable pressure: {0}")]
    Trace(#[from] PressureError),
}

impl GasError {
    /// What the user can do about it.
    pub fn help(&self) -> String {
        match self {
            Self::OutOfRange { .. } => "correct the number; the defaults are a start".into(),
            Self::AngleOrder { .. } => {
                "give every timing as an angle of the cycle, counted from the firing top dead centre".into()
            }
            Self::BurnOutside { .. } => "start combustion later, shorten it, or correct the timing".into(),
            Self::StrokesDiffer => "use valves with a four-stroke and ports with a two-stroke".into(),
            Self::PeakOutOfReach { .. } => {
                "check the stated peak (absolute pressure) against compression ratio and manifold pressure".into()
            }
            Self::Trace(error) => error.help(),
        }
    }
}

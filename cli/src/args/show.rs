use clap::Args;

/// How much of the answer is printed in words; JSON has everything.
#[derive(Debug, Clone, Copy, Default, Args)]
// Each is an option of its own.
#[allow(clippy::struct_excessive_bools)]
pub(crate) struct ShowArguments {
    /// Add every failure mode, the stress field and the cuts along the part.
    #[arg(long, help_heading = "What to print", conflicts_with = "json")]
    pub(crate) stations: bool,
    /// Add what every change of the input does.
    #[arg(long, help_heading = "What to print", conflicts_with = "json")]
    pub(crate) changes: bool,
    /// Add the part as recognised and every value taken, with its source.
    #[arg(long, help_heading = "What to print", conflicts_with = "json")]
    pub(crate) inputs: bool,
    /// Add the limits of this estimate and the cautions.
    #[arg(long, help_heading = "What to print", conflicts_with = "json")]
    pub(crate) limits: bool,
    /// Add all of these.
    #[arg(long, help_heading = "What to print", short, conflicts_with = "json")]
    pub(crate) all: bool,
    /// Print one line a part: answer, life, margin, top speed, what fails first.
    #[arg(long, help_heading = "What to print", short, conflicts_with_all = ["json", "all", "stations", "changes", "inputs", "limits"])]
    pub(crate) summary: bool,
    /// Print the verdict and the line of safety alone, and no progress.
    #[arg(long, help_heading = "What to print", short, conflicts_with_all = ["json", "all", "stations", "changes", "inputs", "limits", "summary"])]
    pub(crate) quiet: bool,
}

impl ShowArguments {
    /// Whether failure modes, stress field and cuts are printed.
    pub(crate) fn stations(self) -> bool {
        self.all || self.stations
    }

    /// Whether every change is printed.
    pub(crate) fn changes(self) -> bool {
        self.all || self.changes
    }

    /// Whether the values taken are printed.
    pub(crate) fn inputs(self) -> bool {
        self.all || self.inputs
    }

    /// Whether limits and cautions are printed.
    pub(crate) fn limits(self) -> bool {
        self.all || self.limits
    }

    /// Whether anything beyond the first screen is printed.
    pub(crate) fn more(self) -> bool {
        self.stations() || self.changes() || self.inputs() || self.limits()
    }
}

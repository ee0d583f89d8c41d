use layload_core::FileKind;

/// Which file is read, for what is said when it is another one.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Wanted {
    /// A mesh.
    Mesh,
    /// A job.
    Job,
    /// A material card.
    Card,
    /// A table of pressures.
    Pressure,
    /// A history of loads.
    History,
    /// A table of tests.
    Coupons,
    /// A bench log.
    Log,
    /// A study.
    Study,
}

impl Wanted {
    /// What it is called.
    pub(crate) fn words(self) -> &'static str {
        match self {
            Self::Mesh => "an STL mesh",
            Self::Job => "a job file",
            Self::Card => "a material card",
            Self::Pressure => "a pressure table",
            Self::History => "a history of loads",
            Self::Coupons => "a table of tests",
            Self::Log => "a bench log",
            Self::Study => "a study file",
        }
    }

    /// Most MiB that are read. Of a mesh some forty million facets, which take 6 GB to check; of text a hundred thousand
    /// lines, where jobs and tables have hundreds.
    pub(super) fn limit_mib(self) -> u64 {
        if self == Self::Mesh { 2048 } else { 16 }
    }

    /// What to do where a file is too large.
    pub(crate) fn less(self) -> &'static str {
        match self {
            Self::Mesh => {
                "check the name; a mesh may be exported with fewer facets, as a chord error of 0.01 mm is plenty"
            }
            Self::Job => "check the name; a job file has a hundred lines, as `layload new-job FILE.toml` writes it",
            Self::Card => "check the name; a card has a hundred lines, as `layload materials PA12-CF15` prints it",
            Self::Pressure => "check the name; thin the table out, as one row a degree of crank is plenty",
            Self::History => "check the name; thin the table out, as a few hundred rows are plenty",
            Self::Coupons => "check the name; the table has one line a test, as samples/coupons.csv",
            Self::Log => "check the name; a log has one line a run",
            Self::Study => "check the name; a study has a few lines, as samples/study.toml",
        }
    }

    /// Whether a file of this kind may be what is wanted; what is wrong with it in detail is said where it is read.
    pub(super) fn may_be(self, kind: FileKind) -> bool {
        use FileKind as K;
        match self {
            Self::Mesh => true,
            Self::Job => matches!(kind, K::Job | K::Toml),
            Self::Card => matches!(kind, K::Card | K::Toml),
            Self::Study => matches!(kind, K::Study | K::Toml),
            Self::Pressure | Self::History | Self::Coupons => matches!(kind, K::Table),
            Self::Log => matches!(kind, K::BenchLog | K::Json),
        }
    }

    /// What to do where a file of another kind was given.
    pub(super) fn instead(self, kind: FileKind) -> String {
        use FileKind as K;
        let own = match self {
            Self::Mesh => "layload check PART.stl --job JOB.toml",
            Self::Job => "a job comes after --job, as `layload new-job FILE.toml` writes it",
            Self::Card => "a card comes after --card, as `layload materials PA12-CF15` prints it",
            Self::Pressure => "the table has the crank angle in degrees and the pressure in bar, one row an angle",
            Self::History => "the table has a column angle_deg or seconds and one column a load",
            Self::Coupons => "the table has one line a test, as samples/coupons.csv",
            Self::Log => "a log has one run a line, and is begun by layload learn LOG --add",
            Self::Study => "a study is as samples/study.toml",
        };
        let first = match (self, kind) {
            (_, K::Utf16) => "save it as UTF-8; ",
            (_, K::Gzip | K::Zip) => "unpack it first; ",
            (Self::Job | Self::Card, K::BinaryStl | K::AsciiStl) => "the mesh comes first, without an option; ",
            (Self::Job, K::Card) => "a card comes after --card; ",
            (Self::Card, K::Job) => "a job comes after --job; ",
            (Self::Job, K::Study) => "a study is run by layload study STUDY.toml --out FOLDER; ",
            (Self::Study, K::Job) => "a study names its job with job = \"JOB.toml\"; ",
            (Self::Job, K::Table) => "a pressure table is named in a job, coupons are read by layload fit; ",
            _ => "",
        };
        format!("{first}{own}")
    }
}

//! Every output there is, in one list: of each question its words, and its files with the option that asks for each, what
//! kind of file it is and what writes it.

use std::path::{Path, PathBuf};

use layload_core::coupon::Fitted;
use layload_core::job::JobError;
use layload_core::material::Card;
use layload_core::report::{
    CompareReport, CouponReport, DiagnosisReport, DirectionsReport, LearnReport, PlanReport, Report, SizeReport,
    StudyReport, SweepReport, WallsReport,
};
use layload_core::{Mode, Walls};
use owo_colors::Style;

use super::checked::Checked;
use super::painted::{Painting, mesh, scale};
use super::{Answer, Kind, Output, Written, recorded};
use crate::args::{
    CheckArguments, CompareArguments, DiagnoseArguments, DirectionsArguments, FitArguments, LearnArguments,
    MaterialsArguments, PlanArguments, SizeArguments, StudyArguments, SweepArguments, WallsArguments,
};
use crate::failure::Failure;
use crate::html::page;
use crate::output::Form;
use crate::plot::chart_svg;
use crate::{figure, text};

impl Answer for Checked {
    type Asked = CheckArguments;
    type Report = Report;
    const COMMAND: &'static str = "check";
    const FILES: &'static [&'static [Output<Self>]] = &[
        &[
            Output {
                option: "--report",
                kind: Kind::File(Form::Page),
                to: |asked| asked.record.report.as_deref(),
                files: |answer, to| answer.recorded(|record, inputs| Ok(one(to, page(record, inputs)?.into_bytes()))),
            },
            Output {
                option: "--svg",
                kind: Kind::Folder(&recorded::DRAWINGS),
                to: |asked| asked.record.svg.as_deref(),
                files: |answer, to| answer.recorded(|record, _| recorded::drawings(record, to)),
            },
            Output {
                option: "--csv",
                kind: Kind::Folder(&recorded::TABLES),
                to: |asked| asked.record.csv.as_deref(),
                files: |answer, to| answer.recorded(|record, _| recorded::tables(record, to)),
            },
        ],
        &[
            Output {
                option: "--mesh-out",
                kind: Kind::File(Form::Painted),
                to: |asked| asked.paint.mesh_out.as_deref(),
                files: |answer, to| answer.painted(|used| Ok(one(to, mesh(&Painting::utilisation(used), to)?))),
            },
            Output {
                option: "--legend-out",
                kind: Kind::File(Form::Scale),
                to: |asked| asked.paint.legend_out.as_deref(),
                files: |answer, to| answer.painted(|used| Ok(one(to, scale(&Painting::utilisation(used))?))),
            },
        ],
    ];

    fn report(&self) -> &Report {
        &self.report
    }

    fn words(&self) -> String {
        text::report(&self.report, self.show)
    }

    fn mark(&self) -> Option<(&'static str, Option<Style>)> {
        let (word, style) = text::mark(&self.report);
        Some((word, self.color.then_some(style)))
    }
}

impl Answer for DirectionsReport {
    type Asked = DirectionsArguments;
    type Report = Self;
    const COMMAND: &'static str = "directions";
    const FILES: &'static [&'static [Output<Self>]] = &[];

    fn report(&self) -> &Self {
        self
    }

    fn words(&self) -> String {
        text::directions(self)
    }
}

impl Answer for SweepReport {
    type Asked = SweepArguments;
    type Report = Self;
    const COMMAND: &'static str = "sweep";
    const FILES: &'static [&'static [Output<Self>]] = &[&[Output {
        option: "--svg",
        kind: Kind::File(Form::Drawing),
        to: |asked| asked.svg.as_deref(),
        files: |answer, to| Ok(one(to, chart_svg(&figure::sweep(answer))?)),
    }]];

    fn report(&self) -> &Self {
        self
    }

    fn words(&self) -> String {
        text::sweep(self)
    }
}

impl Answer for Walls {
    type Asked = WallsArguments;
    type Report = WallsReport;
    const COMMAND: &'static str = "walls";
    const FILES: &'static [&'static [Output<Self>]] = &[&[
        Output {
            option: "--mesh-out",
            kind: Kind::File(Form::Painted),
            to: |asked| asked.paint.mesh_out.as_deref(),
            files: |answer, to| Ok(one(to, mesh(&Painting::thickness(answer), to)?)),
        },
        Output {
            option: "--legend-out",
            kind: Kind::File(Form::Scale),
            to: |asked| asked.paint.legend_out.as_deref(),
            files: |answer, to| Ok(one(to, scale(&Painting::thickness(answer))?)),
        },
    ]];

    fn report(&self) -> &WallsReport {
        &self.report
    }

    fn words(&self) -> String {
        text::walls(&self.report)
    }
}

impl Answer for CompareReport {
    type Asked = CompareArguments;
    type Report = Self;
    const COMMAND: &'static str = "compare";
    const FILES: &'static [&'static [Output<Self>]] = &[&[Output {
        option: "--svg",
        kind: Kind::File(Form::Drawing),
        to: |asked| asked.svg.as_deref(),
        files: |answer, to| Ok(one(to, chart_svg(&figure::compare(answer))?)),
    }]];

    fn report(&self) -> &Self {
        self
    }

    fn words(&self) -> String {
        text::compare(self)
    }
}

impl Answer for SizeReport {
    type Asked = SizeArguments;
    type Report = Self;
    const COMMAND: &'static str = "size";
    const FILES: &'static [&'static [Output<Self>]] = &[&[Output {
        option: "--svg",
        kind: Kind::File(Form::Drawing),
        to: |asked| asked.svg.as_deref(),
        files: |answer, to| Ok(one(to, chart_svg(&figure::size(answer))?)),
    }]];

    fn report(&self) -> &Self {
        self
    }

    fn words(&self) -> String {
        text::size(self)
    }
}

/// A card made from tests.
pub(crate) struct FittedCard {
    pub(crate) fitted: Fitted,
    /// Where it is written.
    pub(crate) out: PathBuf,
}

impl Answer for FittedCard {
    type Asked = FitArguments;
    type Report = CouponReport;
    const COMMAND: &'static str = "fit";
    const FILES: &'static [&'static [Output<Self>]] = &[&[
        Output {
            option: "--out",
            kind: Kind::File(Form::Toml),
            to: |asked| Some(&asked.out),
            files: |answer, to| Ok(one(to, toml(&answer.fitted.card)?)),
        },
        Output {
            option: "--svg",
            kind: Kind::File(Form::Drawing),
            to: |asked| asked.svg.as_deref(),
            files: |answer, to| fit_drawings(&answer.fitted.report, to),
        },
    ]];

    fn report(&self) -> &CouponReport {
        &self.fitted.report
    }

    fn words(&self) -> String {
        text::fit(&self.fitted.report, &self.out)
    }
}

/// What a bench log teaches, and the card that knows it.
pub(crate) struct Learned {
    pub(crate) report: LearnReport,
    pub(crate) card: Card,
    /// The log's last line where that was never finished.
    pub(crate) unfinished: Option<usize>,
    /// Numbers of the lines of its runs.
    pub(crate) numbers: Vec<usize>,
}

impl Answer for Learned {
    type Asked = LearnArguments;
    type Report = LearnReport;
    const COMMAND: &'static str = "learn";
    const FILES: &'static [&'static [Output<Self>]] = &[&[Output {
        option: "--card-out",
        kind: Kind::File(Form::Toml),
        to: |asked| asked.card_out.as_deref(),
        files: |answer, to| Ok(one(to, toml(&answer.card)?)),
    }]];

    fn report(&self) -> &LearnReport {
        &self.report
    }

    fn words(&self) -> String {
        text::learn(&self.report, self.unfinished, &self.numbers)
    }
}

/// What caused a break, and the entry of a log that was made of it.
pub(crate) struct Diagnosed {
    pub(crate) report: DiagnosisReport,
    /// The log and the mode under which it has the run.
    pub(crate) added: Option<(String, Option<Mode>)>,
}

impl Answer for Diagnosed {
    type Asked = DiagnoseArguments;
    type Report = DiagnosisReport;
    const COMMAND: &'static str = "diagnose";
    const FILES: &'static [&'static [Output<Self>]] = &[];

    fn report(&self) -> &DiagnosisReport {
        &self.report
    }

    fn words(&self) -> String {
        text::diagnosis(&self.report, self.added.as_ref())
    }
}

impl Answer for PlanReport {
    type Asked = PlanArguments;
    type Report = Self;
    const COMMAND: &'static str = "plan";
    const FILES: &'static [&'static [Output<Self>]] = &[];

    fn report(&self) -> &Self {
        self
    }

    fn words(&self) -> String {
        text::plan(self)
    }
}

/// The effects of a study whose cases are all there, and their table.
pub(crate) struct Studied {
    pub(crate) report: StudyReport,
    /// The table as CSV.
    pub(crate) table: Vec<u8>,
    /// The same as Parquet, where the program writes that.
    pub(crate) parquet: Option<Vec<u8>>,
    /// Its folder.
    pub(crate) out: PathBuf,
}

/// The table of a study in its folder.
const TABLE: &str = "results.csv";

impl Answer for Studied {
    type Asked = StudyArguments;
    type Report = StudyReport;
    const COMMAND: &'static str = "study";
    const FILES: &'static [&'static [Output<Self>]] = &[&[Output {
        option: "--out",
        kind: Kind::Folder(&[TABLE, "results.parquet", "effects.json"]),
        to: |asked| Some(&asked.out),
        files: |answer, to| {
            let mut effects = serde_json::to_vec_pretty(&answer.report).map_err(std::io::Error::from)?;
            effects.push(b'\n');
            let parquet = answer.parquet.iter().map(|bytes| (to.join("results.parquet"), bytes.clone()));
            let own = [(to.join(TABLE), answer.table.clone()), (to.join("effects.json"), effects)];
            Ok(own.into_iter().chain(parquet).collect())
        },
    }]];

    fn report(&self) -> &StudyReport {
        &self.report
    }

    fn words(&self) -> String {
        text::study(&self.report, &self.out.join(TABLE))
    }
}

/// An embedded card.
pub(crate) struct Shown {
    pub(crate) card: Card,
    /// As it stands, with its sources; or its values with the results behind them.
    pub(crate) text: String,
}

impl Answer for Shown {
    type Asked = MaterialsArguments;
    type Report = Card;
    const COMMAND: &'static str = "materials";
    const FILES: &'static [&'static [Output<Self>]] = &[&[Output {
        option: "--svg",
        kind: Kind::File(Form::Drawing),
        to: |asked| asked.svg.as_deref(),
        files: |answer, to| Ok(one(to, chart_svg(&figure::fatigue(&answer.card))?)),
    }]];

    fn report(&self) -> &Card {
        &self.card
    }

    fn words(&self) -> String {
        self.text.clone()
    }
}

/// An output to a file or a folder, as it is told: its command, its option and what it is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct FileOutput {
    /// The command.
    pub command: &'static str,
    /// The option that asks for it.
    pub option: &'static str,
    /// What is written, in words.
    pub what: &'static str,
}

/// Every output to a file or a folder that an answer has.
pub fn file_outputs() -> Vec<FileOutput> {
    fn of<A: Answer>() -> impl Iterator<Item = FileOutput> {
        A::FILES.iter().copied().flatten().map(|output| FileOutput {
            command: A::COMMAND,
            option: output.option,
            what: match output.kind {
                Kind::File(form) => form.words(),
                Kind::Folder(_) => "files in a folder",
            },
        })
    }
    of::<Checked>()
        .chain(of::<DirectionsReport>())
        .chain(of::<SweepReport>())
        .chain(of::<Walls>())
        .chain(of::<CompareReport>())
        .chain(of::<SizeReport>())
        .chain(of::<FittedCard>())
        .chain(of::<Learned>())
        .chain(of::<Studied>())
        .chain(of::<Shown>())
        .collect()
}

fn one(path: &Path, bytes: Vec<u8>) -> Vec<Written> {
    vec![(path.into(), bytes)]
}

fn toml(card: &Card) -> Result<Vec<u8>, Failure> {
    Ok(card.to_toml().map_err(JobError::from)?.into_bytes())
}

/// Each fitted line as a drawing. The first has the name itself, the next ones a number before the ending.
fn fit_drawings(report: &CouponReport, path: &Path) -> Result<Vec<Written>, Failure> {
    let lines = report.lines.iter().enumerate();
    lines.map(|(k, line)| Ok((numbered(path, k), chart_svg(&figure::fit(report, line))?))).collect()
}

fn numbered(path: &Path, number: usize) -> PathBuf {
    if number == 0 {
        return path.into();
    }
    let stem = path.file_stem().unwrap_or_default().to_string_lossy();
    let ending = path.extension().map_or_else(String::new, |e| format!(".{}", e.to_string_lossy()));
    path.with_file_name(format!("{stem}-{}{ending}", number + 1))
}

use std::io;
use std::path::{Path, PathBuf};
use std::process::ExitCode;

use miette::{Diagnostic, GraphicalReportHandler, GraphicalTheme};
use textwrap::{WordSeparator, WordSplitter};
use thiserror::Error;

use crate::help;
use crate::outcome::BAD_INPUT;
use crate::paint::PaintError;
use crate::text::wrap::width;
use crate::visible::{shown, visible};

/// Why a command gave no answer.
#[derive(Debug, Error, Diagnostic)]
pub(crate) enum Failure {
    /// A file cannot be read.
    #[error("{} cannot be read: {reason}", shown(path))]
    #[diagnostic(help("check the name and that the file may be read"))]
    Unreadable {
        /// The file.
        path: PathBuf,
        /// What the system says.
        reason: String,
    },
    /// A file larger than anything that belongs there.
    #[error("{} is larger than {limit_mib} MiB and was not read", shown(path))]
    TooLarge {
        /// The file.
        path: PathBuf,
        /// The limit.
        limit_mib: u64,
        /// What to do about it.
        #[help]
        less: &'static str,
    },
    /// A file cannot be written.
    #[error("{} cannot be written: {reason}", shown(path))]
    #[diagnostic(help("check that the folder is there and may be written to"))]
    Unwritable {
        /// The file.
        path: PathBuf,
        /// What the system says.
        reason: String,
    },
    /// A file is there already.
    #[error("{} is there already", shown(path))]
    #[diagnostic(help("give another name, or --overwrite"))]
    Exists {
        /// The file.
        path: PathBuf,
    },
    /// The mesh or the job.
    #[error("{message}")]
    Refused {
        /// What is wrong.
        message: String,
        /// What to do.
        #[help]
        help: String,
    },
    /// Output cannot be written.
    #[error("the output cannot be written: {0}")]
    Output(#[from] io::Error),
}

impl Failure {
    /// A file that cannot be read.
    pub(crate) fn unreadable(path: &Path, error: &io::Error) -> Self {
        Self::Unreadable { path: path.into(), reason: error.to_string() }
    }

    /// Prints it to stderr and gives the exit code.
    pub(crate) fn shown(&self) -> ExitCode {
        self.tell();
        ExitCode::from(BAD_INPUT)
    }

    /// Prints it to stderr.
    pub(crate) fn tell(&self) {
        let theme = GraphicalTheme::unicode_nocolor();
        let mut text = String::new();
        let handler = GraphicalReportHandler::new_themed(theme)
            .with_width(width())
            // Names of options and files must not be broken in two.
            .with_word_separator(WordSeparator::AsciiSpace)
            .with_word_splitter(WordSplitter::NoHyphenation);
        if handler.render_report(&mut text, self).is_err() {
            text = self.to_string();
        }
        eprintln!("{}", visible(text.trim_end()));
    }
}

impl From<layload_core::Error> for Failure {
    fn from(error: layload_core::Error) -> Self {
        Self::Refused { message: error.to_string(), help: help::words(&error.help()) }
    }
}

impl From<layload_core::job::JobError> for Failure {
    fn from(error: layload_core::job::JobError) -> Self {
        layload_core::Error::from(error).into()
    }
}

impl From<layload_core::coupon::CouponError> for Failure {
    fn from(error: layload_core::coupon::CouponError) -> Self {
        Self::Refused { message: error.to_string(), help: help::words(&error.help()) }
    }
}

#[cfg(feature = "host")]
impl From<layload_host::HostError> for Failure {
    fn from(error: layload_host::HostError) -> Self {
        Self::Refused { message: error.to_string(), help: help::of_host(&error) }
    }
}

impl From<PaintError> for Failure {
    fn from(error: PaintError) -> Self {
        Self::Refused { message: error.to_string(), help: error.help().into() }
    }
}

use std::path::PathBuf;

use thiserror::Error;

use crate::checker::{Explanation, Refusal};

/// Why a plugin gave no answer.
#[derive(Debug, Clone, PartialEq, Eq, Error)]
#[non_exhaustive]
pub enum HostError {
    /// The file cannot be read.
    #[error("{} cannot be read: {reason}", path.display())]
    Unreadable {
        /// The file.
        path: PathBuf,
        /// What the system says.
        reason: String,
    },
    /// The file is larger than any plugin.
    #[error("the plugin has {mib} MiB, more than {limit_mib}")]
    TooLarge {
        /// Its size.
        mib: u64,
        /// The most that is taken.
        limit_mib: u64,
    },
    /// The file is no component.
    #[error("the plugin is not a WebAssembly component this program can run: {reason}")]
    NotAComponent {
        /// What is wrong with it.
        reason: String,
    },
    /// The component imports or exports something else.
    #[error("the plugin does not have the interface layload:parts: {reason}")]
    WrongInterface {
        /// What is missing or too much.
        reason: String,
    },
    /// It took more memory than it may.
    #[error("the plugin was stopped: it wanted more than {limit_mib} MiB of memory")]
    Memory {
        /// The limit.
        limit_mib: usize,
    },
    /// It took more time than it may.
    #[error("the plugin was stopped: it took more than {limit_ms} ms")]
    Deadline {
        /// The limit.
        limit_ms: u128,
    },
    /// The host wanted it to stop.
    #[error("stopped on request")]
    Cancelled,
    /// It broke down.
    #[error("the plugin broke down: {reason}")]
    Trapped {
        /// What the sandbox says.
        reason: String,
    },
    /// It answered that the question cannot be answered.
    #[error("{message}")]
    Refused {
        /// Short name of the reason; it does not change with the words.
        code: String,
        /// Key of the job that it is about.
        key: Option<String>,
        /// What is wrong.
        message: String,
        /// What to do.
        help: String,
    },
    /// This program cannot run plugins here.
    #[error("plugins cannot be run here: {reason}")]
    NoSandbox {
        /// What the system says.
        reason: String,
    },
}

impl HostError {
    /// What the user can do about it.
    pub fn help(&self) -> String {
        match self {
            Self::Unreadable { .. } => "check the name and that the file may be read".into(),
            Self::TooLarge { .. } | Self::NotAComponent { .. } => {
                "give the component that wasm-plugin/build.sh leaves at target/plugin/layload.wasm".into()
            }
            Self::WrongInterface { .. } => {
                "give a plugin of version 0.2; what it has to export stands in wasm-plugin/wit".into()
            }
            Self::Memory { .. } => "give it more memory, or export the mesh coarser".into(),
            Self::Deadline { .. } => "give it more time, or export the mesh coarser".into(),
            Self::Cancelled => "run it again".into(),
            Self::Trapped { .. } => "the file may be damaged or not what it says; build or fetch it again".into(),
            Self::Refused { help, .. } => help.clone(),
            Self::NoSandbox { .. } => "run the check without the plugin".into(),
        }
    }

    /// What a call that did not end tells: our own reason if we stopped it, else a breakdown.
    pub(crate) fn of_call(error: &wasmtime::Error) -> Self {
        match error.downcast_ref::<Self>() {
            Some(own) => own.clone(),
            None => Self::Trapped { reason: reason(error) },
        }
    }
}

/// The innermost reason: the outer ones repeat addresses inside the plugin.
pub(crate) fn reason(error: &wasmtime::Error) -> String {
    error.root_cause().to_string()
}

impl From<Refusal> for HostError {
    fn from(refusal: Refusal) -> Self {
        match refusal {
            Refusal::Mesh(told)
            | Refusal::Part(told)
            | Refusal::Job(told)
            | Refusal::Heat(told)
            | Refusal::Request(told)
            | Refusal::Other(told) => {
                let Explanation { code, key, message, help } = told;
                Self::Refused { code, key, message, help }
            }
            Refusal::Cancelled => Self::Cancelled,
        }
    }
}

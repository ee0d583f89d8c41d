use std::io::IsTerminal;

use clap::ValueEnum;

/// When to colour the output.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, ValueEnum)]
pub(crate) enum ColorChoice {
    /// On a terminal, unless told otherwise by the environment.
    #[value(help = "On a terminal, unless NO_COLOR is set")]
    #[default]
    Auto,
    /// Always.
    Always,
    /// Never.
    Never,
}

impl ColorChoice {
    /// Whether output to stdout is coloured.
    pub(crate) fn enabled(self) -> bool {
        match self {
            Self::Always => true,
            Self::Never => false,
            Self::Auto => {
                let refused = std::env::var_os("NO_COLOR").is_some_and(|value| !value.is_empty());
                !refused && std::io::stdout().is_terminal()
            }
        }
    }
}

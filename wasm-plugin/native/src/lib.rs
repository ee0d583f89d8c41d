//! A host for the plugin, small enough to be read as an example and complete enough to be used.
//!
//! A [`PluginHost`] compiles plugins or takes them from a cache; a [`Plugin`] opens a [`Session`] with [`Limits`]; the
//! session answers questions. Nothing in a plugin is trusted: memory and time are limited, a [`Cancel`] stops it from
//! another thread, and whatever it does ends in a [`HostError`].
//!
//! ```no_run
//! # fn main() -> Result<(), layload_host::HostError> {
//! use std::path::Path;
//!
//! use layload_host::{Cancel, Limits, PluginHost, Stress};
//!
//! let host = PluginHost::new(None)?;
//! let plugin = host.load(Path::new("target/plugin/layload.wasm"))?;
//! let mut session = plugin.open(Limits::default(), Cancel::new(), |stage, _, _| eprintln!("{stage}"))?;
//! let (job, stl) = (std::fs::read_to_string("job.toml").unwrap(), std::fs::read("rod.stl").unwrap());
//! println!("{}", session.check(&stl, &job.as_str().into(), Stress::Field)?);
//! # Ok(())
//! # }
//! ```

mod bindings;
mod cache;
mod cancel;
mod error;
mod host;
mod limits;
mod session;

pub use bindings::checker;
pub use cache::{Cache, CacheError};
pub use cancel::Cancel;
pub use error::HostError;
pub use host::{Plugin, PluginHost};
pub use limits::Limits;
pub use session::{JobTexts, Session, Stress};

//! What `wasmtime` makes of the interface.

#[allow(missing_docs, unreachable_pub, clippy::pedantic)]
mod generated {
    wasmtime::component::bindgen!({ path: "wit", world: "plugin" });
}

pub use generated::exports::layload::parts::checker;
pub(crate) use generated::layload::parts::host;
pub(crate) use generated::{Plugin as World, PluginPre as WorldPre};

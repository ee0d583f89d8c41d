use std::path::Path;
use std::time::Duration;
use std::{fs, thread};

use wasmtime::component::{Component, HasSelf, Linker};
use wasmtime::{Config, Engine};

use crate::bindings::{World, WorldPre};
use crate::cache::Cache;
use crate::error::reason;
use crate::session::State;
use crate::{Cancel, HostError, Limits, Session};

/// How often running plugins look up whether they should stop.
pub(crate) const TICK: Duration = Duration::from_millis(5);

/// Larger files are refused before they are read: compiling them would take minutes.
const LARGEST_MIB: u64 = 64;

/// Compiles plugins and lets them run.
#[derive(Debug)]
pub struct PluginHost {
    engine: Engine,
    cache: Option<Cache>,
}

impl PluginHost {
    /// With a cache of compiled plugins, or without.
    pub fn new(cache: Option<Cache>) -> Result<Self, HostError> {
        let mut config = Config::new();
        config.epoch_interruption(true);
        let no_sandbox = |reason: String| HostError::NoSandbox { reason };
        let engine = Engine::new(&config).map_err(|error| no_sandbox(reason(&error)))?;
        // The clock of all sessions; it ends by itself once nobody holds the engine.
        let ticking = engine.weak();
        thread::Builder::new()
            .name("plugin clock".into())
            .spawn(move || {
                while let Some(engine) = ticking.upgrade() {
                    engine.increment_epoch();
                    drop(engine);
                    thread::sleep(TICK);
                }
            })
            .map_err(|error| no_sandbox(error.to_string()))?;
        Ok(Self { engine, cache })
    }

    /// Reads a plugin and checks that it has the interface, without running any of it.
    pub fn load(&self, path: &Path) -> Result<Plugin, HostError> {
        let unreadable = |error: std::io::Error| HostError::Unreadable { path: path.into(), reason: error.to_string() };
        let mib = fs::metadata(path).map_err(unreadable)?.len() >> 20;
        if mib >= LARGEST_MIB {
            return Err(HostError::TooLarge { mib, limit_mib: LARGEST_MIB });
        }
        self.load_bytes(&fs::read(path).map_err(unreadable)?)
    }

    /// The same from memory.
    pub fn load_bytes(&self, wasm: &[u8]) -> Result<Plugin, HostError> {
        let component = match &self.cache {
            Some(cache) => cache.component(&self.engine, wasm),
            None => Component::new(&self.engine, wasm),
        };
        let component = component.map_err(|error| HostError::NotAComponent { reason: reason(&error) })?;
        let mut linker: Linker<State> = Linker::new(&self.engine);
        // The host interface is all there is to import; a plugin that wants more does not link.
        World::add_to_linker::<_, HasSelf<_>>(&mut linker, |state| state)
            .and_then(|()| WorldPre::new(linker.instantiate_pre(&component)?))
            .map(|world| Plugin { engine: self.engine.clone(), world })
            // All of the chain: the outer errors name the interface.
            .map_err(|error| HostError::WrongInterface { reason: format!("{error:#}") })
    }
}

/// A plugin ready to run, any number of times and on any thread.
#[derive(Clone)]
pub struct Plugin {
    engine: Engine,
    world: WorldPre<State>,
}

impl Plugin {
    /// Starts it in a sandbox of its own. `progress` is told each stage with its number and the most there can be.
    pub fn open(
        &self,
        limits: Limits,
        cancel: Cancel,
        progress: impl FnMut(&str, u32, u32) + Send + Sync + 'static,
    ) -> Result<Session, HostError> {
        Session::start(&self.engine, &self.world, limits, cancel, Box::new(progress))
    }
}

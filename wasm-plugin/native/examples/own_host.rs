//! A whole host in one file: load the plugin, limit it, ask it, paint a part, stop it. Start your own from this.
//!
//!     bash wasm-plugin/build.sh
//!     cargo run --release -p layload-host --example own_host -- samples/plain_rod.stl samples/bench_single.toml

use std::sync::Arc;
use std::sync::atomic::{AtomicBool, Ordering};
use std::time::{Duration, Instant};

use names::exports::layload::parts::checker::Refusal;
use names::{Plugin, layload};
use wasmtime::component::{Component, HasSelf, Linker};
use wasmtime::{Config, Engine, Error, Result, Store, StoreLimits, StoreLimitsBuilder, UpdateDeadline};

/// Names of the interface, made from its text, which documents each of them.
#[allow(missing_docs, clippy::all, clippy::pedantic)]
mod names {
    wasmtime::component::bindgen!({ path: "wit", world: "plugin" });
}

const PLUGIN: &str = "target/plugin/layload.wasm";
const MEMORY: usize = 512 << 20;
const TIME: Duration = Duration::from_secs(60);
const TICK: Duration = Duration::from_millis(5);

/// What the host keeps for one plugin.
struct State {
    limits: StoreLimits,
    stop: Arc<AtomicBool>,
}

/// The only thing the plugin can call.
impl layload::parts::host::Host for State {
    fn advance(&mut self, stage: String, step: u32, steps: u32) -> bool {
        eprintln!("{step} of at most {steps}: {stage}");
        !self.stop.load(Ordering::Relaxed)
    }
}

// A host from top to bottom, to be read in one go.
#[allow(clippy::too_many_lines)]
fn main() -> Result<()> {
    let files: Vec<String> = std::env::args().skip(1).collect();
    let [mesh, job] = files.as_slice() else { return Err(Error::msg("give a mesh and a job file")) };
    let (stl, job_text) = (std::fs::read(mesh)?, std::fs::read_to_string(job)?);

    // One engine for the whole application. Its clock lets running plugins be stopped from outside.
    let mut config = Config::new();
    config.epoch_interruption(true);
    let engine = Engine::new(&config)?;
    let clock = engine.weak();
    std::thread::spawn(move || {
        while let Some(engine) = clock.upgrade() {
            engine.increment_epoch();
            drop(engine);
            std::thread::sleep(TICK);
        }
    });

    // Compile once. `Component::serialize` and `deserialize_file` keep the result between runs; see src/cache.rs.
    let component = Component::from_file(&engine, PLUGIN)?;
    let mut linker: Linker<State> = Linker::new(&engine);
    // Nothing but the host interface is linked, so a plugin that wants files or a network does not start.
    Plugin::add_to_linker::<_, HasSelf<_>>(&mut linker, |state| state)?;

    // One store is one sandbox. Set `stop` from a button of your window.
    let stop = Arc::new(AtomicBool::new(false));
    let limits = StoreLimitsBuilder::new().memory_size(MEMORY).trap_on_grow_failure(true).build();
    let mut store = Store::new(&engine, State { limits, stop });
    store.limiter(|state| &mut state.limits);
    let end = Instant::now() + TIME;
    store.set_epoch_deadline(1);
    store.epoch_deadline_callback(move |context| {
        if context.data().stop.load(Ordering::Relaxed) || Instant::now() > end {
            return Err(Error::msg("stopped"));
        }
        Ok(UpdateDeadline::Continue(1))
    });

    let plugin = Plugin::instantiate(&mut store, &component, &linker)?;
    let checker = plugin.layload_parts_checker();
    let plain = |refusal: Refusal| Error::msg(format!("{refusal:?}"));

    // The mesh crosses once; questions about it can follow one another, with this job or another.
    let job = checker.job().call_from_text(&mut store, &job_text)?.map_err(plain)?;
    let part = checker.part().call_load(&mut store, &stl, job)?.map_err(plain)?;
    let facts = checker.part().call_facts(&mut store, part)?;
    println!("{}, {} facets, {} bores", facts.kind, facts.facet_count, facts.bores.len());

    // Will it live? `true` asks for one number per facet to paint with.
    let checked = checker.part().call_check(&mut store, part, job, true)?.map_err(plain)?;
    let verdict = checker.checked().call_verdict(&mut store, checked)?;
    // `holds`, `holds-unproven`, `holds-unchecked`, `no-fault-found` (of a quick look) or `fails`.
    let word = checker.checked().call_state(&mut store, checked)?;
    println!("{word}: {:.2} h at {} rpm", verdict.life_s / 3600.0, verdict.duty_rpm);
    println!("first to fail: {}, {}", verdict.governing_words, verdict.governing_place);

    // Paint: the surface once, then a value for each of its facets, red above 1.
    let surface = checker.part().call_surface(&mut store, part)?;
    let used = checker.checked().call_facet_utilisation(&mut store, checked)?;
    let red = used.iter().filter(|&&share| share > 1.0).count();
    println!("{} points to draw, {red} of {} facets beyond their strength", surface.points_mm.len() / 3, used.len());

    // Which way up, with the job changed by a typed record instead of text.
    let mut print = checker.job().call_print(&mut store, job)?;
    print.infill_percent = Some(100.0);
    checker.job().call_set_print(&mut store, job, print)?;
    let directed = checker.part().call_directions(&mut store, part, job, 200)?.map_err(plain)?;
    println!("{}", checker.directed().call_reason(&mut store, directed)?);

    // Show these to whoever will start the engine.
    for caution in checker.checked().call_cautions(&mut store, checked)? {
        println!("- {caution}");
    }

    // Answers live in the sandbox until they are let go; with the store everything goes.
    for handle in [checked, directed, part, job] {
        handle.resource_drop(&mut store)?;
    }
    Ok(())
}

//! Turns the plugin's core module into a component: `layload-encoder CORE.wasm COMPONENT.wasm`.

use std::error::Error;
use std::fs;
use std::process::ExitCode;

use wit_component::ComponentEncoder;

fn main() -> ExitCode {
    match run() {
        Ok(()) => ExitCode::SUCCESS,
        Err(error) => {
            eprintln!("{error}");
            ExitCode::FAILURE
        }
    }
}

fn run() -> Result<(), Box<dyn Error>> {
    let files: Vec<String> = std::env::args().skip(1).collect();
    let [core, component] = files.as_slice() else {
        return Err("give the core module and the name of the component".into());
    };
    // No adapter is given, so that an import of a system interface is an error here.
    let core = fs::read(core)?;
    let bytes = ComponentEncoder::default().validate(true).module(&core)?.encode()?;
    fs::write(component, bytes)?;
    Ok(())
}

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
    let core = without_names(&core).ok_or("the core module is cut off")?;
    let bytes = ComponentEncoder::default().validate(true).module(&core)?.encode()?;
    fs::write(component, without_names(&bytes).ok_or("the component is cut off")?)?;
    Ok(())
}

/// A module or component without the names of its parts, which only debuggers read.
fn without_names(module: &[u8]) -> Option<Vec<u8>> {
    const HEADER: usize = 8;
    let mut kept = module.get(..HEADER)?.to_vec();
    let mut at = HEADER;
    while at < module.len() {
        let (size, body) = unsigned(module, at + 1)?;
        let end = body.checked_add(size)?;
        let section = module.get(at..end)?;
        let custom = section[0] == 0;
        let (length, word) = unsigned(module, body)?;
        let names = matches!(module.get(word..word.checked_add(length)?), Some(b"name" | b"component-name"));
        if !(custom && names) {
            kept.extend_from_slice(section);
        }
        at = end;
    }
    Some(kept)
}

/// A number in the variable length of WebAssembly (LEB128), and where it ends.
fn unsigned(bytes: &[u8], mut at: usize) -> Option<(usize, usize)> {
    let (mut number, mut shift) = (0_usize, 0_u32);
    loop {
        let byte = *bytes.get(at)?;
        at += 1;
        number |= usize::from(byte & 0x7f).checked_shl(shift)?;
        if byte & 0x80 == 0 {
            return Some((number, at));
        }
        shift += 7;
    }
}

//! Components that mean harm, or are none at all, end in plain errors.
//!
//! They are made from the interface itself: a core module that exports every function, with a body of our choice.

use std::time::{Duration, Instant};

use layload_host::{Cancel, HostError, Limits, PluginHost, Stress};
use wit_component::{ComponentEncoder, StringEncoding, dummy_module, embed_component_metadata};
use wit_parser::{LiftLowerAbi, ManglingAndAbi, Resolve};

use super::setting::{host, job, small_rod, top};

/// Binary form of `unreachable end`, the whole body of every exported function of the dummy module.
pub(crate) const UNREACHABLE: [u8; 2] = [0x00, 0x0b];

/// A component with the plugin's interface whose functions all do `body`, in binary WebAssembly.
pub(crate) fn doing(body: &[u8]) -> Vec<u8> {
    let mut resolve = Resolve::default();
    let (package, _) = resolve.push_dir(top().join("wasm-plugin/wit")).unwrap();
    component(&resolve, &[package], body)
}

/// A component with an interface of its own.
fn with_interface(wit: &str) -> Vec<u8> {
    let mut resolve = Resolve::default();
    let package = resolve.push_str("own.wit", wit).unwrap();
    component(&resolve, &[package], &UNREACHABLE)
}

fn component(resolve: &Resolve, packages: &[wit_parser::PackageId], body: &[u8]) -> Vec<u8> {
    let world = resolve.select_world(packages, None).unwrap();
    let mut module = dummy_module(resolve, world, ManglingAndAbi::Legacy(LiftLowerAbi::Sync));
    if body != UNREACHABLE {
        module = with_bodies(&module, body);
    }
    embed_component_metadata(&mut module, resolve, world, StringEncoding::UTF8, false).unwrap();
    ComponentEncoder::default().module(&module).unwrap().validate(true).encode().unwrap()
}

/// The module with every function body replaced that does nothing but trap.
fn with_bodies(module: &[u8], body: &[u8]) -> Vec<u8> {
    const CODE: u8 = 10;
    let mut out = module[..8].to_vec();
    let mut at = 8;
    while at < module.len() {
        let id = module[at];
        let (length, start) = number(module, at + 1);
        let end = start + length;
        if id == CODE {
            let (count, mut from) = number(module, start);
            let mut section = leb(count);
            for _ in 0..count {
                let (size, code) = number(module, from);
                // A body starts with its list of locals; the dummy's have none.
                let old = &module[code..code + size];
                let new = if old == [0, UNREACHABLE[0], UNREACHABLE[1]] { [&[0], body].concat() } else { old.to_vec() };
                section.extend(leb(new.len()));
                section.extend(new);
                from = code + size;
            }
            out.push(CODE);
            out.extend(leb(section.len()));
            out.extend(section);
        } else {
            out.extend(&module[at..end]);
        }
        at = end;
    }
    assert_ne!(out, module, "no body was replaced");
    out
}

/// An unsigned number in LEB128 and the place after it.
fn number(bytes: &[u8], mut at: usize) -> (usize, usize) {
    let (mut value, mut shift) = (0, 0);
    loop {
        value |= usize::from(bytes[at] & 0x7f) << shift;
        at += 1;
        if bytes[at - 1] & 0x80 == 0 {
            return (value, at);
        }
        shift += 7;
    }
}

fn leb(mut value: usize) -> Vec<u8> {
    let mut bytes = Vec::new();
    loop {
        let low = u8::try_from(value & 0x7f).unwrap();
        value >>= 7;
        if value == 0 {
            bytes.push(low);
            return bytes;
        }
        bytes.push(low | 0x80);
    }
}

/// What comes of asking it for a check within 64 MiB and 200 ms.
fn asked(component: &[u8]) -> HostError {
    let limits = Limits { memory_mib: 64, deadline: Duration::from_millis(200) };
    let plugin = host().load_bytes(component).expect("it has the interface");
    let mut session = plugin.open(limits, Cancel::new(), |_, _, _| {}).expect("it starts");
    let error = session.check(&small_rod(), &job().as_str().into(), Stress::Sections).unwrap_err();
    assert!(!error.to_string().is_empty() && !error.help().is_empty(), "{error:?}");
    error
}

#[test]
fn an_endless_loop() {
    // loop br 0 end unreachable end
    let component = doing(&[0x03, 0x40, 0x0c, 0x00, 0x0b, 0x00, 0x0b]);
    let begun = Instant::now();
    assert_eq!(asked(&component), HostError::Deadline { limit_ms: 200 });
    // Fifty times the deadline: a stop, not a loop that ended.
    assert!(begun.elapsed() < Duration::from_secs(10), "{:?}", begun.elapsed());
}

#[test]
fn an_endless_loop_is_left_at_once_when_cancelled() {
    let component = doing(&[0x03, 0x40, 0x0c, 0x00, 0x0b, 0x00, 0x0b]);
    let cancel = Cancel::new();
    let plugin = host().load_bytes(&component).unwrap();
    let mut session = plugin.open(Limits::default(), cancel.clone(), |_, _, _| {}).unwrap();
    let asked = std::thread::spawn(move || {
        let answer = session.check(&[], &"".into(), Stress::Sections);
        (answer, Instant::now())
    });
    std::thread::sleep(Duration::from_millis(50));
    let cancelled = Instant::now();
    cancel.cancel();
    let (answer, back) = asked.join().unwrap();
    assert_eq!(answer, Err(HostError::Cancelled));
    println!("control was back after {:?}", back.saturating_duration_since(cancelled));
}

#[test]
fn a_memory_hog() {
    // loop i32.const 16 memory.grow 0 drop br 0 end unreachable end
    let component = doing(&[0x03, 0x40, 0x41, 16, 0x40, 0x00, 0x1a, 0x0c, 0x00, 0x0b, 0x00, 0x0b]);
    assert_eq!(asked(&component), HostError::Memory { limit_mib: 64 });
}

#[test]
fn a_trap() {
    let error = asked(&doing(&UNREACHABLE));
    assert!(matches!(&error, HostError::Trapped { reason } if reason.contains("unreachable")), "{error:?}");
}

#[test]
fn an_arithmetic_trap() {
    // i32.const 1 i32.const 0 i32.div_s drop unreachable end
    let error = asked(&doing(&[0x41, 1, 0x41, 0, 0x6d, 0x1a, 0x00, 0x0b]));
    assert!(matches!(&error, HostError::Trapped { reason } if reason.contains("divide by zero")), "{error:?}");
}

fn refused(component: &[u8]) -> HostError {
    let error = host().load_bytes(component).err().expect("it is refused");
    assert!(!error.to_string().is_empty() && !error.help().is_empty(), "{error:?}");
    error
}

#[test]
fn a_world_of_its_own() {
    let error = refused(&with_interface("package some:other; world thing { export run: func(); }"));
    assert!(matches!(&error, HostError::WrongInterface { .. }), "{error:?}");
    assert!(error.to_string().contains("layload:parts"), "{error}");
}

#[test]
fn one_that_wants_files() {
    let wit = "package some:other; interface files { read: func(name: string) -> list<u8>; }
               world thing { import files; export run: func(); }";
    let error = refused(&with_interface(wit));
    assert!(matches!(&error, HostError::WrongInterface { .. }), "{error:?}");
    assert!(error.to_string().contains("some:other/files"), "{error}");
}

#[test]
fn no_component_at_all() {
    for bytes in [&b""[..], b"solid rod", b"\0asm\x01\0\0\0", &[0xff; 4096]] {
        let error = refused(bytes);
        assert!(matches!(&error, HostError::NotAComponent { .. }), "{error:?}");
    }
}

#[test]
fn a_component_cut_short() {
    let whole = doing(&UNREACHABLE);
    for share in [3, 10, 50, 90] {
        // Cut between two of its sections it is a smaller component, without the interface.
        let error = refused(&whole[..whole.len() * share / 100]);
        let known = matches!(&error, HostError::NotAComponent { .. } | HostError::WrongInterface { .. });
        assert!(known, "{share}: {error:?}");
    }
}

#[test]
fn a_file_that_is_missing_or_huge() {
    let host = PluginHost::new(None).unwrap();
    let missing = host.load(&top().join("no-such-plugin.wasm")).err().unwrap();
    assert!(matches!(missing, HostError::Unreadable { .. }), "{missing:?}");
    let huge = super::setting::folder("huge").join("huge.wasm");
    // A file of holes takes no room on the disk.
    std::fs::File::create(&huge).unwrap().set_len(100 << 20).unwrap();
    assert_eq!(host.load(&huge).err().unwrap(), HostError::TooLarge { mib: 100, limit_mib: 64 });
    std::fs::remove_file(huge).unwrap();
}

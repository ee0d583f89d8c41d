//! The interface is documented on every line that declares something.

use super::setting::text;

#[test]
fn every_declaration_has_its_words() {
    let wit = text("wasm-plugin/wit/layload.wit");
    let lines: Vec<&str> = wit.lines().map(str::trim).collect();
    let mut declared = 0;
    for (index, line) in lines.iter().enumerate() {
        let no_declaration = line.is_empty()
            || line.starts_with("//")
            || line.starts_with('}')
            || line.starts_with("import")
            || line.starts_with("export");
        if no_declaration {
            continue;
        }
        declared += 1;
        assert!(index > 0 && lines[index - 1].starts_with("///"), "line {} has no words: {line}", index + 1);
    }
    assert!(declared > 150, "{declared}");
}

#[test]
fn numbers_carry_their_unit() {
    // Pure numbers, counts and coordinates; everything else that is a floating-point number ends in its unit.
    let pure = [
        "x",
        "y",
        "z",
        "compression-ratio",
        "throttle",
        "margin",
        "utilisation",
        "memory-share",
        "margin-factor",
        "concentration",
    ];
    let units = [
        "-mm", "-mm2", "-g", "-bar", "-c", "-s", "-h", "-rpm", "-mpa", "-n", "-percent", "-w-m-k", "-w-m2-k", "-kg-m3",
        "-j-kg-k",
    ];
    for line in text("wasm-plugin/wit/layload.wit").lines().map(str::trim) {
        let Some((name, ty)) = line.split_once(": ") else { continue };
        if line.starts_with("//") || !matches!(ty.trim_end_matches(','), "f64" | "option<f64>") {
            continue;
        }
        let named = name == "seconds"
            || name == "rpm"
            || name.ends_with("-factor")
            || pure.contains(&name)
            || units.iter().any(|unit| name.ends_with(unit));
        assert!(named, "{name} has no unit");
    }
}

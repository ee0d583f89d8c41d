//! Coloured meshes: the files are written to memory and read back.

use std::io::{Cursor, Read};

use quick_xml::events::{BytesStart, Event};

use super::Tested;
use layload::paint::{BadEnd, PaintError, PaintedMesh, Quantity, legend_svg, ply, three_mf};

/// A tetrahedron.
const POINTS: [[f64; 3]; 4] = [[0.0, 0.0, 0.0], [10.0, 0.0, 0.0], [0.0, 12.5, 0.0], [-0.0, 0.1, 7.25]];
const FACETS: [[u32; 3]; 4] = [[0, 2, 1], [0, 1, 3], [1, 2, 3], [2, 0, 3]];

/// In the lowest step, in the middle, not measured, beyond the high end.
const VALUES: [Option<f64>; 4] = [Some(0.0), Some(2.0), None, Some(9.0)];

fn thickness() -> Result<Quantity, PaintError> {
    Quantity::new("wall thickness", "mm", [0.0, 4.0], Some(0.8), BadEnd::Low)
}

fn utilisation() -> Result<Quantity, PaintError> {
    Quantity::new("utilisation", "", [0.0, 1.5], None, BadEnd::High)
}

/// Name, attributes and text of every element, in order.
type Element = (String, Vec<(String, String)>, String);

fn elements(xml: &str) -> Result<Vec<Element>, Box<dyn std::error::Error>> {
    let mut reader = quick_xml::Reader::from_str(xml);
    let mut all: Vec<Element> = Vec::new();
    let mut open: Vec<usize> = Vec::new();
    let start = |tag: &BytesStart<'_>| -> Result<Element, Box<dyn std::error::Error>> {
        let mut attributes = Vec::new();
        for attribute in tag.attributes() {
            let attribute = attribute?;
            attributes.push((text(attribute.key.as_ref())?, text(attribute.value.as_ref())?));
        }
        Ok((text(tag.name().as_ref())?, attributes, String::new()))
    };
    loop {
        match reader.read_event()? {
            Event::Start(tag) => {
                open.push(all.len());
                all.push(start(&tag)?);
            }
            Event::Empty(tag) => all.push(start(&tag)?),
            Event::Text(words) => {
                if let Some(&last) = open.last() {
                    all[last].2.push_str(&words.into_inner());
                }
            }
            Event::End(_) => _ = open.pop(),
            Event::Eof => break,
            _ => {}
        }
    }
    assert!(open.is_empty(), "elements left open");
    Ok(all)
}

fn text(part: impl AsRef<[u8]>) -> Result<String, std::string::FromUtf8Error> {
    String::from_utf8(part.as_ref().to_vec())
}

fn attribute<'a>(element: &'a Element, key: &str) -> Result<&'a str, String> {
    let found = element.1.iter().find(|(name, _)| name == key);
    found.map(|(_, value)| value.as_str()).ok_or(format!("no {key} in {element:?}"))
}

fn named<'a>(all: &'a [Element], name: &str) -> Vec<&'a Element> {
    all.iter().filter(|element| element.0 == name).collect()
}

/// The model inside a 3MF file.
fn model(bytes: &[u8]) -> Result<String, Box<dyn std::error::Error>> {
    let mut package = zip::ZipArchive::new(Cursor::new(bytes))?;
    let mut xml = String::new();
    package.by_name("3D/3dmodel.model")?.read_to_string(&mut xml)?;
    Ok(xml)
}

/// The header of a PLY file, and the bytes after it.
fn split(ply: &[u8]) -> Result<(&str, &[u8]), Box<dyn std::error::Error>> {
    let mark = b"end_header\n";
    let end = ply.windows(mark.len()).position(|part| part == mark).ok_or("no end of the header")? + mark.len();
    Ok((std::str::from_utf8(&ply[..end])?, &ply[end..]))
}

#[test]
fn three_mf_is_a_package_without_a_clock() -> Tested {
    let quantity = thickness()?;
    let bytes = three_mf(&PaintedMesh::new(&POINTS, &FACETS, &VALUES, &quantity)?)?;
    let mut package = zip::ZipArchive::new(Cursor::new(&bytes))?;
    let names = ["[Content_Types].xml", "_rels/.rels", "3D/3dmodel.model"];
    assert_eq!(package.len(), names.len());
    for (index, name) in names.into_iter().enumerate() {
        let entry = package.by_index(index)?;
        assert_eq!(entry.name()?, name);
        assert_eq!(entry.compression(), zip::CompressionMethod::Deflated);
        assert_eq!(entry.last_modified(), Some(zip::DateTime::default()));
    }
    let mut relationships = String::new();
    package.by_name("_rels/.rels")?.read_to_string(&mut relationships)?;
    let all = elements(&relationships)?;
    assert_eq!(attribute(named(&all, "Relationship")[0], "Target")?, "/3D/3dmodel.model");
    let mut types = String::new();
    package.by_name("[Content_Types].xml")?.read_to_string(&mut types)?;
    let all = elements(&types)?;
    let extensions: Result<Vec<&str>, String> =
        named(&all, "Default").into_iter().map(|element| attribute(element, "Extension")).collect();
    assert_eq!(extensions?, ["rels", "model"]);
    Ok(())
}

#[test]
fn three_mf_holds_the_mesh_and_a_color_per_facet() -> Tested {
    let quantity = thickness()?;
    let all = elements(&model(&three_mf(&PaintedMesh::new(&POINTS, &FACETS, &VALUES, &quantity)?)?)?)?;
    assert_eq!(attribute(&all[0], "unit")?, "millimeter");
    let vertices = named(&all, "vertex");
    for (vertex, point) in vertices.iter().zip(POINTS) {
        for (key, wanted) in ["x", "y", "z"].into_iter().zip(point) {
            let written = attribute(vertex, key)?;
            assert_eq!(written.parse::<f32>()?, wanted as f32);
            assert!(!written.starts_with("-0"), "a zero with a sign: {written}");
        }
    }
    assert_eq!(vertices.len(), POINTS.len());

    let group = named(&all, "m:colorgroup");
    let colors = named(&all, "m:color");
    assert_eq!((group.len(), colors.len()), (1, 257));
    assert_eq!(attribute(colors[256], "color")?, "#707070");
    // The bad end, deep red, is the low one.
    assert_eq!(&attribute(colors[0], "color")?[..3], "#AD");
    let object = named(&all, "object")[0];
    let id = attribute(group[0], "id")?;
    assert_eq!(attribute(object, "pid")?, id);
    assert_eq!(attribute(named(&all, "item")[0], "objectid")?, attribute(object, "id")?);

    let triangles = named(&all, "triangle");
    assert_eq!(triangles.len(), FACETS.len());
    // 0 is the low end, 2 of 4 the middle, 9 beyond the high end, and 256 the grey.
    for ((triangle, facet), step) in triangles.iter().zip(FACETS).zip([0, 128, 256, 255]) {
        for (key, wanted) in ["v1", "v2", "v3"].into_iter().zip(facet) {
            assert_eq!(attribute(triangle, key)?.parse::<u32>()?, wanted);
        }
        assert_eq!(attribute(triangle, "pid")?, id);
        assert_eq!(attribute(triangle, "p1")?.parse::<u32>()?, step);
    }
    Ok(())
}

#[test]
fn three_mf_tells_what_its_colors_mean() -> Tested {
    let quantity = thickness()?;
    let all = elements(&model(&three_mf(&PaintedMesh::new(&POINTS, &FACETS, &VALUES, &quantity)?)?)?)?;
    let said = |name: &str| -> Result<&str, String> {
        let entry = named(&all, "metadata").into_iter().find(|entry| attribute(entry, "name") == Ok(name));
        entry.map(|entry| entry.2.as_str()).ok_or(format!("no metadata {name}"))
    };
    for (name, wanted) in [
        ("Title", "Wall thickness, mm"),
        ("paint:quantity", "wall thickness"),
        ("paint:unit", "mm"),
        ("paint:low", "0"),
        ("paint:high", "4"),
        ("paint:limit", "0.8"),
        ("paint:bad-end", "low"),
    ] {
        assert_eq!(said(name)?, wanted, "{name}");
    }
    let words = said("Description")?;
    for part in
        ["pale blue at 4 mm", "deep red at 0 mm, the bad end", "limit is 0.8 mm", "not measured", "not an approval"]
    {
        assert!(words.contains(part), "no `{part}` in: {words}");
    }
    Ok(())
}

#[test]
fn ply_holds_the_mesh_the_colors_and_the_values() -> Tested {
    let quantity = thickness()?;
    let bytes = ply(&PaintedMesh::new(&POINTS, &FACETS, &VALUES, &quantity)?)?;
    let (header, body) = split(&bytes)?;
    assert!(header.starts_with("ply\nformat binary_little_endian 1.0\n"), "{header}");
    for line in ["element vertex 4", "element face 4", "property float value", "comment unit: mm", "comment limit: 0.8"]
    {
        assert!(header.lines().any(|found| found == line), "no `{line}` in\n{header}");
    }
    // Three floats a point; count, three numbers, three bytes of colour, a float and a mark a facet.
    let (points, facets) = body.split_at(4 * 12);
    assert_eq!(facets.len(), 4 * 21);
    let number =
        |bytes: &[u8]| -> Result<f32, std::array::TryFromSliceError> { Ok(f32::from_le_bytes(bytes.try_into()?)) };
    for (bytes, wanted) in points.chunks(4).zip(POINTS.as_flattened()) {
        assert_eq!(number(bytes)?, *wanted as f32);
    }
    let mut colors = Vec::new();
    for ((bytes, facet), value) in facets.chunks(21).zip(FACETS).zip(VALUES) {
        assert_eq!(bytes[0], 3);
        for (bytes, wanted) in bytes[1..13].chunks(4).zip(facet) {
            assert_eq!(u32::from_le_bytes(bytes.try_into()?), wanted);
        }
        colors.push([bytes[13], bytes[14], bytes[15]]);
        assert_eq!(number(&bytes[16..20])?, value.unwrap_or(-1.0) as f32);
        assert_eq!(bytes[20], u8::from(value.is_some()));
    }
    assert_eq!(colors[2], [0x70; 3]);
    let [red, green, blue] = colors[0];
    assert!(red > 2 * green.max(blue), "the bad end is not red: {colors:?}");
    assert!(colors[3].iter().all(|&part| part > 200), "the good end is not pale: {colors:?}");
    Ok(())
}

#[test]
fn high_values_can_be_the_bad_end() -> Tested {
    let (low, high) = (thickness()?, utilisation()?);
    let colors = |quantity: &Quantity| -> Result<Vec<String>, Box<dyn std::error::Error>> {
        let all = elements(&model(&three_mf(&PaintedMesh::new(&POINTS, &FACETS, &VALUES, quantity)?)?)?)?;
        let mut colors = Vec::new();
        for color in named(&all, "m:color") {
            colors.push(attribute(color, "color")?.to_string());
        }
        Ok(colors)
    };
    let (low, mut high) = (colors(&low)?, colors(&high)?);
    assert_ne!(low, high);
    high[..256].reverse();
    assert_eq!(low, high);
    Ok(())
}

#[test]
fn both_files_show_the_same_colors() -> Tested {
    let quantity = utilisation()?;
    let values: Vec<Option<f64>> = (0..1000).map(|i| (i % 7 != 0).then_some(f64::from(i) * 0.0017 - 0.05)).collect();
    let facets: Vec<[u32; 3]> = values.iter().enumerate().map(|(i, _)| FACETS[i % 4]).collect();
    let mesh = PaintedMesh::new(&POINTS, &facets, &values, &quantity)?;
    let all = elements(&model(&three_mf(&mesh)?)?)?;
    let colors = named(&all, "m:color");
    let bytes = ply(&mesh)?;
    let (_, body) = split(&bytes)?;
    for (triangle, facet) in named(&all, "triangle").iter().zip(body[4 * 12..].chunks(21)) {
        let color = attribute(colors[attribute(triangle, "p1")?.parse::<usize>()?], "color")?;
        assert_eq!(color, format!("#{:02X}{:02X}{:02X}", facet[13], facet[14], facet[15]));
    }
    Ok(())
}

#[test]
fn every_step_is_as_wide_as_the_next() -> Tested {
    let quantity = Quantity::new("x", "", [0.0, 256.0], None, BadEnd::High)?;
    // The first and the last value of each step, where steps are 1 wide.
    let values: Vec<Option<f64>> =
        (0..256).map(f64::from).flat_map(|low| [Some(low), Some((low + 1.0).next_down())]).collect();
    let facets = vec![FACETS[0]; values.len()];
    let all = elements(&model(&three_mf(&PaintedMesh::new(&POINTS, &facets, &values, &quantity)?)?)?)?;
    for (index, triangle) in named(&all, "triangle").into_iter().enumerate() {
        assert_eq!(attribute(triangle, "p1")?.parse::<usize>()?, index / 2, "value {:?}", values[index]);
    }
    Ok(())
}

#[test]
fn equal_input_gives_equal_bytes() -> Tested {
    let quantity = thickness()?;
    let all = || -> Result<[Vec<u8>; 3], PaintError> {
        let mesh = PaintedMesh::new(&POINTS, &FACETS, &VALUES, &quantity)?;
        Ok([three_mf(&mesh)?, ply(&mesh)?, legend_svg(&quantity)?])
    };
    let first = all()?;
    assert_eq!(all()?, first);
    Ok(())
}

#[test]
fn lightness_of_the_scale_never_turns() -> Tested {
    let quantity = utilisation()?;
    let all = elements(&model(&three_mf(&PaintedMesh::new(&POINTS, &FACETS, &VALUES, &quantity)?)?)?)?;
    let mut last = f64::INFINITY;
    for color in &named(&all, "m:color")[..256] {
        let hex = attribute(color, "color")?;
        let linear = |at: usize| -> Result<f64, std::num::ParseIntError> {
            let part = f64::from(u8::from_str_radix(&hex[at..at + 2], 16)?) / 255.0;
            Ok(if part <= 0.040_45 { part / 12.92 } else { ((part + 0.055) / 1.055).powf(2.4) })
        };
        // Luminance of sRGB (IEC 61966-2-1).
        let luminance = 0.2126 * linear(1)? + 0.7152 * linear(3)? + 0.0722 * linear(5)?;
        // One step of 1/255 of one channel may go up where another goes down more.
        assert!(luminance < last + 0.002, "{hex}: {luminance} after {last}");
        last = luminance.min(last);
    }
    assert!(last < 0.12, "the bad end is not dark: {last}");
    Ok(())
}

#[test]
fn the_legend_has_scale_numbers_limit_and_words() -> Tested {
    let svg = text(legend_svg(&thickness()?)?)?;
    let all = elements(&svg)?;
    assert_eq!(all[0].0, "svg");
    assert_eq!(all[1].0, "title");
    assert_eq!(all[1].2, "Wall thickness, mm");
    assert_eq!(all[2].0, "desc");
    assert!(all[2].2.contains("deep red at 0 mm"), "{}", all[2].2);
    let words: Vec<&str> = named(&all, "text").into_iter().map(|text| text.2.as_str()).collect();
    for wanted in ["Wall thickness, mm", "0", "1", "2", "3", "4", "limit 0.8 mm", "worse", "not measured"] {
        assert!(words.contains(&wanted), "no `{wanted}` in {words:?}");
    }
    assert!(named(&all, "rect").into_iter().any(|box_| attribute(box_, "fill") == Ok("#707070")));
    // The low end is left and red.
    assert_eq!(&attribute(named(&all, "stop")[0], "stop-color")?[..3], "#AD");
    let without = text(legend_svg(&utilisation()?)?)?;
    assert!(!without.contains("limit"), "a limit that was not given: {without}");
    Ok(())
}

#[test]
fn numbers_of_the_legend_are_round_and_on_the_scale() -> Tested {
    for (range, wanted) in [
        ([0.0, 1.5], vec!["0.0", "0.5", "1.0", "1.5"]),
        ([0.3, 0.9], vec!["0.3", "0.4", "0.6", "0.8", "0.9"]),
        ([-3.0, 3.0], vec!["-3", "-2", "0", "2", "3"]),
        ([-0.1, 0.1], vec!["-0.10", "-0.05", "0.00", "0.05", "0.10"]),
        ([0.0, 7e5], vec!["0", "200000", "400000", "600000", "700000"]),
        ([20.0, 95.0], vec!["20", "40", "60", "80", "95"]),
        ([0.0, 4.2], vec!["0", "1", "2", "3", "4"]),
        ([0.0, 1e-6], vec!["0.0000000", "0.0000002", "0.0000004", "0.0000006", "0.0000008", "0.0000010"]),
    ] {
        let quantity = Quantity::new("x", "", range, None, BadEnd::High)?;
        let svg = text(legend_svg(&quantity)?)?;
        let all = elements(&svg)?;
        let words: Vec<&str> = named(&all, "text").into_iter().map(|text| text.2.as_str()).collect();
        assert_eq!(words[1..=wanted.len()], wanted, "{range:?}");
        assert_eq!(words[wanted.len() + 1], "worse", "more ticks than wanted: {words:?}");
    }
    Ok(())
}

#[test]
fn names_cannot_break_out_of_a_file() -> Tested {
    let quantity = Quantity::new("heat <a> & \"b\"", "°C", [20.0, 90.0], Some(70.0), BadEnd::High)?;
    let mesh = PaintedMesh::new(&POINTS, &FACETS, &VALUES, &quantity)?;
    let all = elements(&model(&three_mf(&mesh)?)?)?;
    assert_eq!(named(&all, "object").len(), 1);
    assert!(named(&all, "a").is_empty());
    assert!(named(&elements(&text(legend_svg(&quantity)?)?)?, "a").is_empty());
    let bytes = ply(&mesh)?;
    let (header, _) = split(&bytes)?;
    assert!(header.is_ascii(), "{header}");
    assert!(header.contains("unit: \\u{b0}C"), "{header}");
    for title in ["two\nlines", "nul\0", "end_header\r", "\u{ffff}", "", "  ", &"x".repeat(61)] {
        let refused = Quantity::new(title, "", [0.0, 1.0], None, BadEnd::High);
        assert!(matches!(refused, Err(PaintError::BadName { what: "title", .. })), "{title:?}: {refused:?}");
    }
    Ok(())
}

#[test]
fn scales_that_make_no_sense_are_refused() -> Tested {
    for range in [
        [1.0, 1.0],
        [2.0, 1.0],
        [0.0, f64::NAN],
        [f64::NAN, 1.0],
        [0.0, f64::INFINITY],
        [f64::NEG_INFINITY, 0.0],
        [f64::NEG_INFINITY, f64::INFINITY],
        [0.0, 1e300],
        [0.0, 1e-300],
        [1e5, 1e5 + 1.0],
        [0.0, 1e7],
    ] {
        let refused = Quantity::new("x", "", range, None, BadEnd::Low);
        assert!(matches!(refused, Err(PaintError::BadRange { .. })), "{range:?}: {refused:?}");
    }
    for limit in [-0.1, 4.1, f64::NAN, f64::INFINITY] {
        let refused = Quantity::new("x", "", [0.0, 4.0], Some(limit), BadEnd::Low);
        assert!(matches!(refused, Err(PaintError::LimitOffScale { .. })), "{limit}: {refused:?}");
    }
    for limit in [0.0, 4.0] {
        assert!(legend_svg(&Quantity::new("x", "", [0.0, 4.0], Some(limit), BadEnd::Low)?).is_ok());
    }
    Ok(())
}

#[test]
fn meshes_that_cannot_be_painted_are_refused() -> Tested {
    let quantity = thickness()?;
    let refused = |points: &[[f64; 3]], facets: &[[u32; 3]], values: &[Option<f64>]| {
        PaintedMesh::new(points, facets, values, &quantity).err().ok_or("accepted")
    };
    let one = [Some(1.0)];
    assert!(matches!(refused(&[], &[], &[])?, PaintError::Empty));
    assert!(matches!(refused(&POINTS, &[], &[])?, PaintError::Empty));
    assert!(matches!(refused(&POINTS, &FACETS, &one)?, PaintError::ValueCount { values: 1, facets: 4 }));
    assert!(matches!(refused(&POINTS, &[[0, 1, 4]], &one)?, PaintError::NoSuchPoint { facet: 0, point: 4, points: 4 }));
    assert!(matches!(refused(&[], &[[0, 1, 2]], &one)?, PaintError::NoSuchPoint { .. }));
    assert!(matches!(refused(&POINTS, &[[0, 1, u32::MAX]], &one)?, PaintError::NoSuchPoint { .. }));
    for facet in [[0, 0, 1], [0, 1, 1], [1, 0, 1]] {
        assert!(matches!(refused(&POINTS, &[facet], &one)?, PaintError::RepeatedPoint { facet: 0 }));
    }
    for bad in [f64::NAN, f64::INFINITY, -1e39] {
        let points = [POINTS[0], POINTS[1], [0.0, bad, 0.0]];
        assert!(matches!(refused(&points, &[[0, 1, 2]], &one)?, PaintError::BadCoordinate { point: 2 }));
        assert!(matches!(refused(&POINTS, &[[0, 1, 2]], &[Some(bad)])?, PaintError::BadValue { facet: 0 }));
    }
    let said = refused(&POINTS, &FACETS, &one)?;
    assert_eq!(said.to_string(), "1 values were given for 4 facets");
    assert!(said.help().contains("one value per facet"));
    Ok(())
}

#[test]
fn no_value_becomes_no_number() -> Tested {
    let quantity = thickness()?;
    let values = [Some(f64::from(f32::MAX)), Some(-1e30), Some(f64::MIN_POSITIVE), None];
    let mesh = PaintedMesh::new(&POINTS, &FACETS, &values, &quantity)?;
    let xml = model(&three_mf(&mesh)?)?;
    for word in ["NaN", "inf"] {
        assert!(!xml.contains(word), "{word}");
    }
    let bytes = ply(&mesh)?;
    for facet in split(&bytes)?.1[4 * 12..].chunks(21) {
        assert!(f32::from_le_bytes(facet[16..20].try_into()?).is_finite());
    }
    Ok(())
}

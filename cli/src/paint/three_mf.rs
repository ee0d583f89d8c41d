use std::io::{self, Write};

use quick_xml::Writer;
use quick_xml::events::{BytesDecl, BytesEnd, BytesStart, BytesText, Event};

use super::package::package;
use super::scale::{NOT_MEASURED, STEPS, hex};
use super::{BadEnd, PaintError, PaintedMesh, Quantity, words};
use crate::plot::ticks::rounded;

const CORE: &str = "http://schemas.microsoft.com/3dmanufacturing/core/2015/02";
const MATERIALS: &str = "http://schemas.microsoft.com/3dmanufacturing/material/2015/02";
const PAINT: &str = "urn:layload:paint";

/// Resource numbers within the model.
const COLORS_ID: &str = "1";
const OBJECT_ID: &str = "2";

/// Bytes of a 3MF file (core specification, and colour groups of the materials extension): one colour per facet.
pub fn three_mf(mesh: &PaintedMesh<'_>) -> Result<Vec<u8>, PaintError> {
    package(|out| Ok(model(&mut Writer::new(out), mesh)?))
}

fn model<W: Write>(xml: &mut Writer<W>, mesh: &PaintedMesh<'_>) -> io::Result<()> {
    xml.write_event(Event::Decl(BytesDecl::new("1.0", Some("UTF-8"), None)))?;
    let attributes =
        [("unit", "millimeter"), ("xml:lang", "en"), ("xmlns", CORE), ("xmlns:m", MATERIALS), ("xmlns:paint", PAINT)];
    within(xml, BytesStart::new("model").with_attributes(attributes), |xml| {
        metadata(xml, mesh.quantity())?;
        within(xml, BytesStart::new("resources"), |xml| {
            colors(xml, mesh)?;
            object(xml, mesh)
        })?;
        within(xml, BytesStart::new("build"), |xml| empty(xml, "item", [("objectid", OBJECT_ID)]))
    })
}

fn metadata<W: Write>(xml: &mut Writer<W>, quantity: &Quantity) -> io::Result<()> {
    let number = |value: f64| rounded(value, quantity.high() - quantity.low());
    let bad_end = match quantity.bad_end() {
        BadEnd::Low => "low",
        BadEnd::High => "high",
    };
    let mut entries = vec![
        ("Title", words::headline(quantity)),
        ("Description", words::sentences(quantity).join(" ")),
        ("Application", "layload".into()),
        ("paint:quantity", quantity.title().into()),
        // A plain ratio has the unit one.
        ("paint:unit", if quantity.unit().is_empty() { "1".into() } else { quantity.unit().into() }),
        ("paint:low", number(quantity.low())),
        ("paint:high", number(quantity.high())),
        ("paint:bad-end", bad_end.into()),
        ("paint:steps", STEPS.to_string()),
        ("paint:not-measured", hex(NOT_MEASURED)),
    ];
    entries.extend(quantity.limit().map(|limit| ("paint:limit", number(limit))));
    for (name, value) in entries {
        xml.create_element("metadata").with_attribute(("name", name)).write_text_content(BytesText::new(&value))?;
    }
    Ok(())
}

/// The steps of the scale from its low end, then the grey.
fn colors<W: Write>(xml: &mut Writer<W>, mesh: &PaintedMesh<'_>) -> io::Result<()> {
    within(xml, BytesStart::new("m:colorgroup").with_attributes([("id", COLORS_ID)]), |xml| {
        for &color in mesh.scale().colors().iter().chain([&NOT_MEASURED]) {
            empty(xml, "m:color", [("color", hex(color).as_str())])?;
        }
        Ok(())
    })
}

fn object<W: Write>(xml: &mut Writer<W>, mesh: &PaintedMesh<'_>) -> io::Result<()> {
    let grey = STEPS.to_string();
    let name = words::headline(mesh.quantity());
    let attributes = [("id", OBJECT_ID), ("type", "model"), ("name", &name), ("pid", COLORS_ID), ("pindex", &grey)];
    within(xml, BytesStart::new("object").with_attributes(attributes), |xml| {
        within(xml, BytesStart::new("mesh"), |xml| {
            within(xml, BytesStart::new("vertices"), |xml| {
                for point in mesh.points() {
                    let [x, y, z] = point.map(|coordinate| coordinate.to_string());
                    empty(xml, "vertex", [("x", x.as_str()), ("y", &y), ("z", &z)])?;
                }
                Ok(())
            })?;
            within(xml, BytesStart::new("triangles"), |xml| {
                for (corners, painted) in mesh.painted() {
                    let [a, b, c] = corners.map(|corner| corner.to_string());
                    let color = painted.map_or(STEPS, |(_, step)| step.into()).to_string();
                    let attributes = [("v1", a.as_str()), ("v2", &b), ("v3", &c), ("pid", COLORS_ID), ("p1", &color)];
                    empty(xml, "triangle", attributes)?;
                }
                Ok(())
            })
        })
    })
}

fn within<W: Write>(
    xml: &mut Writer<W>,
    start: BytesStart<'_>,
    inner: impl FnOnce(&mut Writer<W>) -> io::Result<()>,
) -> io::Result<()> {
    let end: BytesEnd<'static> = start.to_end().into_owned();
    xml.write_event(Event::Start(start))?;
    inner(xml)?;
    xml.write_event(Event::End(end))
}

fn empty<const N: usize, W: Write>(xml: &mut Writer<W>, name: &str, attributes: [(&str, &str); N]) -> io::Result<()> {
    xml.write_event(Event::Empty(BytesStart::new(name).with_attributes(attributes)))
}

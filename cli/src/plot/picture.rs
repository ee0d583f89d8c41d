use std::io;

use quick_xml::Writer;
use quick_xml::events::{BytesText, Event};

use crate::visible::visible;

/// Ink and paper follow the reader's own light or dark; on paper it is always light.
///
/// A page that holds pictures puts this once among its own rules.
pub(crate) const STYLE: &str = "\
.paper{fill:#fdfcf9}.ink{fill:#24211c}.soft{fill:#645e54}.rule{stroke:#d8d2c6;fill:none}.frame{stroke:#8c8578;fill:none}\
.one{stroke:#0b5c6b}.two{stroke:#a34a12}.curve{fill:none;stroke-width:2.2;stroke-linejoin:round}.dash{stroke-dasharray:7 5}\
.band{fill:#0b5c6b;opacity:.16}.level{stroke:#24211c;stroke-dasharray:2 4;stroke-width:1.4}.span{fill:#e9e3d6;stroke:#fdfcf9}\
.mark{stroke:#6b655b;stroke-width:1.2}.point{fill:#fdfcf9;stroke:#24211c;stroke-width:1.8}.fill-one{fill:#0b5c6b}\
.fill-two{fill:#a34a12}.outline{fill:none;stroke:#24211c;stroke-width:1.5;stroke-linejoin:round;stroke-linecap:round}\
.edge{fill:none;stroke:#24211c;stroke-width:.8;stroke-linejoin:round;stroke-linecap:round}\
.axis{fill:none;stroke:#0b5c6b;stroke-width:1;stroke-dasharray:12 3 2 3}.cut{stroke:#0b5c6b;stroke-width:1}\
.tag{fill:#a34a12}.tag-ink{fill:#fff;font-weight:600}.leader{stroke:#a34a12;stroke-width:1.2;fill:none}\
.pictured text,svg.pictured text{font:12.5px system-ui,sans-serif}.pictured .title{font-size:16px;font-weight:600}.pictured .tag-ink{font-weight:600}\
@media screen and (prefers-color-scheme:dark){.paper{fill:#1d1f21}.ink{fill:#ece8df}.soft{fill:#a8a297}.rule{stroke:#3a3c3e}\
.frame{stroke:#77736b}.one{stroke:#5fc3d4}.two{stroke:#f0a267}.band{fill:#5fc3d4}.level{stroke:#ece8df}\
.span{fill:#34373a;stroke:#1d1f21}.mark{stroke:#a8a297}.point{fill:#1d1f21;stroke:#ece8df}.fill-one{fill:#5fc3d4}\
.fill-two{fill:#f0a267}.outline,.edge{stroke:#ece8df}.axis,.cut{stroke:#5fc3d4}.tag{fill:#f0a267}.tag-ink{fill:#1d1f21}\
.leader{stroke:#f0a267}}";

/// Width of a small letter, px: a wide one, since fonts differ.
pub(crate) const LETTER: f64 = 6.6;

/// A drawing with its words, not yet a file nor part of a page.
#[derive(Debug, Clone)]
pub(crate) struct Picture {
    width: f64,
    height: f64,
    title: String,
    told: String,
    marks: Vec<u8>,
}

impl Picture {
    /// Draws on a sheet of this size, px. `told` is what it shows, in sentences, for those who do not see it.
    pub(crate) fn new(
        [width, height]: [f64; 2],
        title: &str,
        told: &str,
        draw: impl FnOnce(&mut Pen) -> io::Result<()>,
    ) -> io::Result<Self> {
        let mut pen = Pen { xml: Writer::new_with_indent(Vec::new(), b' ', 1) };
        draw(&mut pen)?;
        Ok(Self { width, height, title: title.into(), told: told.into(), marks: pen.xml.into_inner() })
    }

    /// What it is called.
    pub(crate) fn title(&self) -> &str {
        &self.title
    }

    /// What it shows, in sentences.
    pub(crate) fn told(&self) -> &str {
        &self.told
    }

    /// Bytes of an SVG file on paper of its own.
    pub(crate) fn file(&self) -> io::Result<Vec<u8>> {
        let [width, height] = [self.width, self.height].map(|side| side.to_string());
        let attributes = [
            ("xmlns", "http://www.w3.org/2000/svg"),
            ("viewBox", &format!("0 0 {width} {height}")),
            ("width", &width),
            ("height", &height),
            ("class", "pictured"),
            ("role", "img"),
        ];
        let mut xml = Writer::new_with_indent(Vec::new(), b' ', 1);
        xml.create_element("svg").with_attributes(attributes).write_inner_content(|xml| {
            xml.create_element("title").write_text_content(BytesText::new(&self.title))?;
            xml.create_element("desc").write_text_content(BytesText::new(&self.told))?;
            xml.create_element("style").write_text_content(BytesText::from_escaped(STYLE))?;
            let paper = [("class", "paper"), ("width", &width), ("height", &height)];
            xml.create_element("rect").with_attributes(paper).write_empty()?;
            xml.get_mut().push(b'\n');
            xml.get_mut().extend_from_slice(&self.marks);
            Ok(())
        })?;
        xml.write_event(Event::Text(BytesText::new("\n")))?;
        Ok(shown(xml)?.into_bytes())
    }

    /// An element for a page that has [`STYLE`]; its names begin with `id`. `role` is `img`, or `group` where the picture
    /// has links in it.
    pub(crate) fn inline(&self, id: &str, role: &str) -> io::Result<String> {
        let names = [format!("{id}-title"), format!("{id}-told")];
        let view = format!("0 0 {} {}", self.width, self.height);
        let labelled = names.join(" ");
        let attributes =
            [("viewBox", view.as_str()), ("class", "pictured"), ("role", role), ("aria-labelledby", &labelled)];
        let mut xml = Writer::new_with_indent(Vec::new(), b' ', 1);
        xml.create_element("svg").with_attributes(attributes).write_inner_content(|xml| {
            for (name, id, words) in [("title", &names[0], &self.title), ("desc", &names[1], &self.told)] {
                let named = ("id", id.as_str());
                xml.create_element(name).with_attribute(named).write_text_content(BytesText::new(words))?;
            }
            xml.get_mut().push(b'\n');
            xml.get_mut().extend_from_slice(&self.marks);
            Ok(())
        })?;
        shown(xml)
    }
}

/// The text of a drawing; signs that XML does not allow, or that are not to be seen, are written out.
fn shown(xml: Writer<Vec<u8>>) -> io::Result<String> {
    let text =
        String::from_utf8(xml.into_inner()).map_err(|error| io::Error::new(io::ErrorKind::InvalidData, error))?;
    Ok(visible(&text).into_owned())
}

/// Draws the marks of a picture; colours come from the classes of [`STYLE`].
pub(crate) struct Pen {
    xml: Writer<Vec<u8>>,
}

impl Pen {
    /// Left, top, width, height.
    pub(crate) fn rectangle(&mut self, class: &str, place: [f64; 4]) -> io::Result<()> {
        self.shape("rect", class, ["x", "y", "width", "height"], place)
    }

    /// From x, y to x, y.
    pub(crate) fn line(&mut self, class: &str, ends: [f64; 4]) -> io::Result<()> {
        self.shape("line", class, ["x1", "y1", "x2", "y2"], ends)
    }

    /// Middle and radius.
    pub(crate) fn circle(&mut self, class: &str, [x, y, radius]: [f64; 3]) -> io::Result<()> {
        let place = [x, y, radius].map(|number| format!("{number:.1}"));
        let attributes = [("class", class), ("cx", &place[0]), ("cy", &place[1]), ("r", &place[2])];
        self.element("circle", &attributes)
    }

    /// An element without content.
    pub(crate) fn element(&mut self, name: &str, attributes: &[(&str, &str)]) -> io::Result<()> {
        self.xml.create_element(name).with_attributes(attributes.iter().copied()).write_empty()?;
        Ok(())
    }

    /// Words at a place; `anchor` is start, middle or end.
    pub(crate) fn text(&mut self, class: &str, [x, y]: [f64; 2], anchor: &str, words: &str) -> io::Result<()> {
        let (x, y) = (format!("{x:.1}"), format!("{y:.1}"));
        let attributes = [("class", class), ("x", x.as_str()), ("y", &y), ("text-anchor", anchor)];
        self.xml.create_element("text").with_attributes(attributes).write_text_content(BytesText::new(words))?;
        Ok(())
    }

    /// A link round what `draw` draws.
    pub(crate) fn link(&mut self, to: &str, draw: impl FnOnce(&mut Self) -> io::Result<()>) -> io::Result<()> {
        let mut inner = Self { xml: Writer::new_with_indent(Vec::new(), b' ', 1) };
        draw(&mut inner)?;
        let marks = inner.xml.into_inner();
        self.xml.create_element("a").with_attribute(("href", to)).write_inner_content(|xml| {
            xml.get_mut().extend_from_slice(&marks);
            Ok(())
        })?;
        Ok(())
    }

    fn shape(&mut self, name: &str, class: &str, keys: [&str; 4], place: [f64; 4]) -> io::Result<()> {
        let place = place.map(|number| format!("{number:.1}"));
        let attributes = keys.into_iter().zip(place.iter().map(String::as_str));
        self.xml.create_element(name).with_attribute(("class", class)).with_attributes(attributes).write_empty()?;
        Ok(())
    }
}

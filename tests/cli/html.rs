//! What a page says, read by the rules of HTML.

use html5ever::tendril::TendrilSink;
use html5ever::{ParseOpts, parse_document};
use markup5ever_rcdom::{Handle, NodeData, RcDom};

/// An element of a page, by itself.
#[derive(Debug)]
pub(crate) struct Element {
    pub(crate) name: String,
    attributes: Vec<(String, String)>,
    /// All text within.
    pub(crate) text: String,
    /// Numbers of the elements round it, the outermost first.
    within: Vec<usize>,
}

impl Element {
    pub(crate) fn attribute(&self, name: &str) -> Option<&str> {
        self.attributes.iter().find(|(own, _)| own == name).map(|(_, value)| value.as_str())
    }

    /// Its text with single spaces.
    pub(crate) fn words(&self) -> String {
        self.text.split_whitespace().collect::<Vec<_>>().join(" ")
    }
}

/// All elements in their order.
pub(crate) struct Page(Vec<Element>);

impl Page {
    pub(crate) fn parsed(text: &str) -> Self {
        let dom = parse_document(RcDom::default(), ParseOpts::default()).one(text);
        let mut page = Self(Vec::new());
        page.add(&dom.document, &[]);
        page
    }

    fn add(&mut self, node: &Handle, within: &[usize]) {
        let mut inner = within.to_vec();
        match &node.data {
            NodeData::Text { contents } => {
                for &number in within {
                    self.0[number].text += &contents.borrow();
                }
            }
            NodeData::Element { name, attrs, .. } => {
                inner.push(self.0.len());
                let attributes = attrs.borrow();
                let attributes = attributes.iter().map(|a| (a.name.local.to_string(), a.value.to_string()));
                let (name, attributes) = (name.local.to_string(), attributes.collect());
                self.0.push(Element { name, attributes, text: String::new(), within: within.to_vec() });
            }
            _ => {}
        }
        for child in node.children.borrow().iter() {
            self.add(child, &inner);
        }
    }

    /// Elements with one of the names.
    pub(crate) fn named(&self, names: &[&str]) -> Vec<&Element> {
        self.0.iter().filter(|element| names.contains(&element.name.as_str())).collect()
    }

    /// Elements with an attribute.
    pub(crate) fn with(&self, attribute: &str) -> Vec<&Element> {
        self.0.iter().filter(|element| element.attribute(attribute).is_some()).collect()
    }

    /// Whether an element lies, at any depth, within one that `outer` picks.
    pub(crate) fn is_within(&self, element: &Element, outer: impl Fn(&Element) -> bool) -> bool {
        element.within.iter().any(|&number| outer(&self.0[number]))
    }

    /// The element right round another.
    pub(crate) fn round(&self, element: &Element) -> Option<&Element> {
        element.within.last().map(|&number| &self.0[number])
    }

    /// Elements at any depth within those of a name.
    pub(crate) fn inside(&self, name: &str) -> Vec<&Element> {
        self.0.iter().filter(|element| self.is_within(element, |outer| outer.name == name)).collect()
    }
}

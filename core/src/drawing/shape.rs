//! One element of a drawing. Every value is text before it gets here, so that one piece of code serves all elements.
//!
//! The svg crate writes tags, attributes and text. What stands inside an element is kept as text and not as the crate's
//! nodes: those bring code for cloning, hashing and debugging a tree that is written once, 4 kB of the page's download.

use svg::Node;
use svg::node::Text;
use svg::node::element::Element;

use crate::words::coordinate;

/// An element being written; boxed, as it is handed on at every step.
pub(crate) struct Shape(Box<Parts>);

struct Parts {
    tag: Element,
    /// What stands inside, as text.
    inside: String,
}

impl Shape {
    /// An element of the given kind, without anything yet.
    pub(crate) fn new(kind: &str) -> Self {
        Self(Box::new(Parts { tag: Element::new(kind), inside: String::new() }))
    }

    /// An element of the given kind around text.
    pub(crate) fn text(kind: &str, text: &str) -> Self {
        let mut shape = Self::new(kind);
        shape.0.inside = Text::new(text).to_string();
        shape
    }

    /// Adds attributes.
    pub(crate) fn with(mut self, attributes: &[(&str, &str)]) -> Self {
        for &(name, value) in attributes {
            self.0.tag.assign(name, value);
        }
        self
    }

    /// Adds attributes that are numbers.
    pub(crate) fn at(mut self, attributes: &[(&str, f64)]) -> Self {
        for &(name, value) in attributes {
            self.0.tag.assign(name, coordinate(value));
        }
        self
    }

    /// Adds a title, unless it is empty.
    pub(crate) fn titled(self, title: &str) -> Self {
        if title.is_empty() { self } else { self.around(Shape::text("title", title)) }
    }

    /// Puts another element inside, after those already there.
    pub(crate) fn around(mut self, inner: Shape) -> Self {
        self.0.inside += "\n";
        self.0.inside += &inner.written();
        self
    }

    /// The element as text.
    pub(crate) fn written(self) -> String {
        // The crate writes an element without nodes as a tag that closes itself.
        let mut text = self.0.tag.to_string();
        if !self.0.inside.is_empty() && text.ends_with("/>") {
            text.truncate(text.len() - 2);
            for piece in [">", &self.0.inside, "</", self.0.tag.get_name(), ">"] {
                text += piece;
            }
        }
        text
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn elements_stand_inside_each_other_and_text_stays_text() {
        let line = Shape::new("line").at(&[("x1", -1.5)]).with(&[("class", "a\"<b")]).titled("1 < 2 & 3");
        let written = Shape::new("g").around(line).around(Shape::new("rect")).written();
        let expected =
            "<g>\n<line class=\"a&quot;&lt;b\" x1=\"-1.5\">\n<title>1 &lt; 2 &amp; 3</title></line>\n<rect/></g>";
        assert_eq!(written, expected);
    }
}

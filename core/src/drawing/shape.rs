//! One element of a drawing. Every value is text before it gets here, so that one piece of code serves all elements.

use svg::Node;
use svg::node::Text;
use svg::node::element::Element;

use crate::words::coordinate;

/// An element being written; boxed, as it is handed on at every step.
pub(super) struct Shape(Box<Element>);

impl Shape {
    /// An element of the given kind, without anything yet.
    pub(super) fn new(kind: &str) -> Self {
        Self(Box::new(Element::new(kind)))
    }

    /// An element of the given kind around text.
    pub(super) fn text(kind: &str, text: &str) -> Self {
        let mut shape = Self::new(kind);
        shape.0.append(Text::new(text));
        shape
    }

    /// Adds attributes.
    pub(super) fn with(mut self, attributes: &[(&str, &str)]) -> Self {
        for &(name, value) in attributes {
            self.0.assign(name, value);
        }
        self
    }

    /// Adds attributes that are numbers.
    pub(super) fn at(mut self, attributes: &[(&str, f64)]) -> Self {
        for &(name, value) in attributes {
            self.0.assign(name, coordinate(value));
        }
        self
    }

    /// Adds a title, unless it is empty.
    pub(super) fn titled(self, title: &str) -> Self {
        if title.is_empty() { self } else { self.around(Shape::text("title", title)) }
    }

    /// Puts another element inside, after those already there.
    pub(super) fn around(mut self, inner: Shape) -> Self {
        let inner: Box<dyn Node> = inner.0;
        self.0.append(inner);
        self
    }

    /// The element as text.
    pub(super) fn written(&self) -> String {
        self.0.to_string()
    }
}

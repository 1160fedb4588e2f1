//! A small reader of drawings: every shape as points on the page, every text with its place.

use std::collections::HashMap;
use std::f64::consts::{PI, TAU};

/// A point of the page, y down.
pub type Point = [f64; 2];

/// One element with what stands in it.
#[derive(Clone, Debug, Default)]
pub struct Element {
    /// The tag's name.
    pub kind: String,
    /// Its classes.
    pub class: String,
    /// The title inside it.
    pub title: String,
    /// The text inside it.
    pub text: String,
    /// All attributes as they are written.
    pub attributes: HashMap<String, String>,
    /// As in `matrix(a b c d e f)`.
    matrix: [f64; 6],
}

const UNMOVED: [f64; 6] = [1.0, 0.0, 0.0, 1.0, 0.0, 0.0];
/// Bends are drawn as so many chords to a turn.
const CHORDS: f64 = 720.0;

/// Every element of a drawing but titles, which are put to what they name, in its order.
pub fn read(svg: &str) -> Vec<Element> {
    let mut elements: Vec<Element> = Vec::new();
    let mut open: Vec<usize> = Vec::new();
    let mut in_title = false;
    for piece in svg.split('<').skip(1) {
        let (tag, text) = piece.split_once('>').unwrap_or((piece, ""));
        let text = text.trim().replace("&lt;", "<").replace("&gt;", ">").replace("&amp;", "&");
        if let Some(kind) = tag.strip_prefix('/') {
            if kind == "title" {
                in_title = false;
            } else {
                let closed = open.pop().map(|index| elements[index].kind.as_str());
                assert_eq!(closed, Some(kind), "tags do not match");
            }
            continue;
        }
        if tag.starts_with("title") {
            in_title = true;
            elements[open[open.len() - 1]].title = text;
            continue;
        }
        assert!(!in_title, "a title holds text alone: {piece}");
        let (tag, closes) = tag.strip_suffix('/').map_or((tag, false), |tag| (tag, true));
        let (kind, attributes) = tag.split_once([' ', '\n']).unwrap_or((tag, ""));
        let mut element = Element { kind: kind.to_owned(), text, matrix: UNMOVED, ..Element::default() };
        let mut rest = attributes;
        while let Some((name, after)) = rest.split_once("=\"") {
            let (value, after) = after.split_once('"').unwrap_or((after, ""));
            element.attributes.insert(name.trim().to_owned(), value.to_owned());
            rest = after;
        }
        element.class = element.attributes.get("class").cloned().unwrap_or_default();
        let outer = open.last().map_or(UNMOVED, |&index| elements[index].matrix);
        let own = element.attributes.get("transform").map_or(UNMOVED, |transform| matrix(transform));
        element.matrix = product(outer, own);
        elements.push(element);
        if !closes {
            open.push(elements.len() - 1);
        }
    }
    assert!(open.is_empty(), "an element is not closed");
    elements
}

/// The numbers in a text, whatever stands between them.
pub fn numbers(text: &str) -> Vec<f64> {
    let is_part = |letter: char| letter.is_ascii_digit() || letter == '.' || letter == '-';
    text.split(|letter| !is_part(letter)).filter_map(|number| number.parse().ok()).collect()
}

fn matrix(transform: &str) -> [f64; 6] {
    transform.split(')').filter_map(|one| one.split_once('(')).fold(UNMOVED, |matrix, (name, values)| {
        let values = numbers(values);
        let next = match name.trim() {
            "translate" => [1.0, 0.0, 0.0, 1.0, values[0], values[1]],
            "rotate" => {
                let (sin, cos) = values[0].to_radians().sin_cos();
                [cos, sin, -sin, cos, 0.0, 0.0]
            }
            "scale" => [values[0], 0.0, 0.0, values[values.len() - 1], 0.0, 0.0],
            other => panic!("{other} is not read"),
        };
        product(matrix, next)
    })
}

fn product(a: [f64; 6], b: [f64; 6]) -> [f64; 6] {
    [
        a[0] * b[0] + a[2] * b[1],
        a[1] * b[0] + a[3] * b[1],
        a[0] * b[2] + a[2] * b[3],
        a[1] * b[2] + a[3] * b[3],
        a[0] * b[4] + a[2] * b[5] + a[4],
        a[1] * b[4] + a[3] * b[5] + a[5],
    ]
}

impl Element {
    /// A number among the attributes.
    pub fn number(&self, name: &str) -> f64 {
        let value = self.attributes.get(name).unwrap_or_else(|| panic!("no {name}: {self:?}"));
        value.trim_end_matches("mm").parse().unwrap_or_else(|_| panic!("{name} is {value}"))
    }

    /// x, y, width and height of what is seen of a drawing.
    pub fn view_box(&self) -> [f64; 4] {
        let view = numbers(&self.attributes["viewBox"]);
        [view[0], view[1], view[2], view[3]]
    }

    /// Whether one of its classes is this one.
    pub fn is(&self, class: &str) -> bool {
        self.class.split(' ').any(|one| one == class)
    }

    fn moved(&self, [x, y]: Point) -> Point {
        let [a, b, c, d, e, f] = self.matrix;
        [a * x + c * y + e, b * x + d * y + f]
    }

    /// Where a text stands.
    pub fn place(&self) -> Point {
        self.moved([self.number("x"), self.number("y")])
    }

    /// Left, right, top and foot of a text, taken narrow.
    pub fn text_box(&self) -> [f64; 4] {
        let ([x, y], size) = (self.place(), self.number("font-size"));
        let width = 0.5 * size * self.text.chars().count() as f64;
        let left = match self.attributes.get("text-anchor").map(String::as_str) {
            Some("middle") => x - width / 2.0,
            Some("end") => x - width,
            _ => x,
        };
        [left, left + width, y - 0.7 * size, y]
    }

    /// The shape's lines, one list of points for each of its pieces.
    pub fn lines(&self) -> Vec<Vec<Point>> {
        let pieces = match self.kind.as_str() {
            "line" => vec![vec![[self.number("x1"), self.number("y1")], [self.number("x2"), self.number("y2")]]],
            "circle" => {
                let (x, y, radius) = (self.number("cx"), self.number("cy"), self.number("r"));
                let at = |step: u32| {
                    let (sin, cos) = (f64::from(step) * TAU / CHORDS).sin_cos();
                    [x + radius * cos, y + radius * sin]
                };
                vec![(0..=CHORDS as u32).map(at).collect()]
            }
            "rect" => {
                let (left, top) = (self.number("x"), self.number("y"));
                let (right, foot) = (left + self.number("width"), top + self.number("height"));
                vec![vec![[left, top], [right, top], [right, foot], [left, foot], [left, top]]]
            }
            "path" => path(&self.attributes["d"]),
            "polyline" | "polygon" => {
                vec![numbers(&self.attributes["points"]).chunks(2).map(|pair| [pair[0], pair[1]]).collect()]
            }
            _ => Vec::new(),
        };
        pieces.into_iter().map(|piece| piece.into_iter().map(|point| self.moved(point)).collect()).collect()
    }

    /// All points of the shape's lines.
    pub fn points(&self) -> Vec<Point> {
        self.lines().into_iter().flatten().collect()
    }
}

/// Reads M, L, H, V, A and Z, in either case.
fn path(data: &str) -> Vec<Vec<Point>> {
    let mut pieces: Vec<Vec<Point>> = Vec::new();
    let starts: Vec<usize> =
        data.char_indices().filter(|(_, letter)| letter.is_ascii_alphabetic()).map(|(at, _)| at).collect();
    for (index, &at) in starts.iter().enumerate() {
        let end = starts.get(index + 1).copied().unwrap_or(data.len());
        let letter = data[at..].chars().next().unwrap_or_default();
        let values = numbers(&data[at + 1..end]);
        let here = pieces.last().and_then(|piece| piece.last()).copied().unwrap_or_default();
        let from = if letter.is_ascii_lowercase() { here } else { [0.0; 2] };
        let length = match letter.to_ascii_uppercase() {
            'A' => 7,
            'H' | 'V' | 'Z' => 1,
            _ => 2,
        };
        for (number, one) in values.chunks(length).enumerate() {
            let here = pieces.last().and_then(|piece| piece.last()).copied().unwrap_or_default();
            let piece = match letter.to_ascii_uppercase() {
                'M' if number == 0 => {
                    pieces.push(vec![[from[0] + one[0], from[1] + one[1]]]);
                    continue;
                }
                'M' | 'L' => vec![[from[0] + one[0], from[1] + one[1]]],
                'H' => vec![[from[0] + one[0], here[1]]],
                'V' => vec![[here[0], from[1] + one[0]]],
                'A' => arc(here, one[0], one[3] == 1.0, one[4] == 1.0, [from[0] + one[5], from[1] + one[6]]),
                _ => panic!("{letter} is not read: {data}"),
            };
            if let Some(last) = pieces.last_mut() {
                last.extend(piece);
            }
        }
        if letter.eq_ignore_ascii_case(&'z')
            && let Some(last) = pieces.last_mut()
        {
            last.push(last[0]);
        }
    }
    pieces
}

/// The points of a circle's arc after its first, from what SVG gives of it: appendix B.2.4 of its standard.
fn arc(from: Point, radius: f64, is_large: bool, is_clockwise: bool, to: Point) -> Vec<Point> {
    let chord = [to[0] - from[0], to[1] - from[1]];
    let half = chord[0].hypot(chord[1]) / 2.0;
    if half == 0.0 {
        return vec![to];
    }
    let radius = radius.max(half);
    let off = (radius * radius - half * half).sqrt() * if is_large == is_clockwise { -1.0 } else { 1.0 };
    let middle = [(from[0] + to[0]) / 2.0, (from[1] + to[1]) / 2.0];
    let centre = [middle[0] - off * chord[1] / (2.0 * half), middle[1] + off * chord[0] / (2.0 * half)];
    let start = (from[1] - centre[1]).atan2(from[0] - centre[0]);
    let mut turn = (to[1] - centre[1]).atan2(to[0] - centre[0]) - start;
    if is_clockwise && turn < 0.0 {
        turn += TAU;
    } else if !is_clockwise && turn > 0.0 {
        turn -= TAU;
    }
    let count = (turn.abs() * CHORDS / TAU).ceil().max(1.0);
    let at = |step: u32| {
        let (sin, cos) = (start + turn * f64::from(step) / count).sin_cos();
        [centre[0] + radius * cos, centre[1] + radius * sin]
    };
    (1..=count as u32).map(at).collect()
}

/// The smallest convex polygon about points, counter-clockwise: Andrew's monotone chain.
pub fn convex(points: &[Point]) -> Vec<Point> {
    let mut sorted = points.to_vec();
    sorted.sort_by(|a, b| a[0].total_cmp(&b[0]).then(a[1].total_cmp(&b[1])));
    let half = |points: &mut dyn Iterator<Item = &Point>| {
        let mut chain: Vec<Point> = Vec::new();
        for &point in points {
            while let [.., a, b] = chain.as_slice()
                && (b[0] - a[0]) * (point[1] - a[1]) - (b[1] - a[1]) * (point[0] - a[0]) <= 0.0
            {
                chain.pop();
            }
            chain.push(point);
        }
        chain.pop();
        chain
    };
    let mut hull = half(&mut sorted.iter());
    hull.extend(half(&mut sorted.iter().rev()));
    hull
}

/// Shoelace, whichever way round.
pub fn area(polygon: &[Point]) -> f64 {
    let next = polygon.iter().cycle().skip(1);
    polygon.iter().zip(next).map(|(a, b)| a[0] * b[1] - b[0] * a[1]).sum::<f64>().abs() / 2.0
}

/// How far points reach in a direction given in turns.
pub fn reach(points: &[Point], turns: f64) -> f64 {
    let (sin, cos) = (2.0 * PI * turns).sin_cos();
    points.iter().map(|[x, y]| x * cos + y * sin).fold(f64::NEG_INFINITY, f64::max)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn shapes_are_read_where_a_browser_would_draw_them() {
        let svg = "<svg><g transform=\"translate(10 0) rotate(90)\">\n<path class=\"a b\" d=\"M1,0A1,1,0,0,1,-1,0z\">\n<title>Half</title></path></g></svg>";
        let read = read(svg);
        let half = read.iter().find(|element| element.title == "Half").map(Element::points).unwrap_or_default();
        // Clockwise on the page from the right to the left is below; turned by a quarter, to the left.
        assert!((area(&half) - PI / 2.0).abs() < 1e-3, "{}", area(&half));
        assert!((reach(&half, 0.0) - 10.0).abs() < 1e-9 && (reach(&half, 0.5) - -9.0).abs() < 1e-4);
        assert!((reach(&half, 0.25) - 1.0).abs() < 1e-9);
        let large = arc([0.0, -1.0], 1.0, true, true, [-1.0, 0.0]);
        assert!(large.iter().any(|[x, y]| (x - 1.0).hypot(*y) < 0.01), "three quarters pass the right: {large:?}");
    }
}

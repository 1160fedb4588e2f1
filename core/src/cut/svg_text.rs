//! Outlines as SVG paths with true arcs.

use super::path::{Outline, Segment};
use super::region::Region;
use crate::words::exact;

/// Decimals of a millimetre in paths.
const DECIMALS: u32 = 6;
/// Longer arcs are written in pieces, rad: a path has an arc's ends and radius alone, and near half a turn a last decimal of
/// an end moves the middle by a thousand times as much.
const LONGEST_ARC: f64 = 2.0;

/// Where a point of the sheet, y up, comes to lie on a page, y down.
#[derive(Clone, Copy, Debug)]
pub(super) struct Page {
    /// Page x of the sheet's x = 0.
    pub(super) left: f64,
    /// Page y of the sheet's y = 0.
    pub(super) base: f64,
    /// +1, or −1 where the sheet's x runs to the left.
    pub(super) across: f64,
}

impl Page {
    pub(super) fn at(&self, [x, y]: [f64; 2]) -> [f64; 2] {
        [self.left + self.across * x, self.base - y]
    }

    /// All edges of a piece as the data of one path.
    pub(super) fn path(&self, region: &Region) -> String {
        let mut path = String::new();
        for outline in region.outlines() {
            self.add(&mut path, outline);
        }
        path
    }

    fn add(&self, path: &mut String, outline: &Outline) {
        for (index, segment) in outline.segments().enumerate() {
            if index == 0 {
                self.step(path, "M", segment.at(0.0));
            }
            match segment {
                Segment::Line { to, .. } => self.step(path, "L", to),
                Segment::Arc { radius, sweep, .. } => {
                    let radius = exact(radius, DECIMALS + 2);
                    // Counter-clockwise on the sheet is counter-clockwise on the page unless x is turned round.
                    let clockwise = if (sweep > 0.0) == (self.across > 0.0) { "0" } else { "1" };
                    let pieces = (sweep.abs() / LONGEST_ARC).ceil().max(1.0);
                    for piece in 1..=pieces as u32 {
                        path.push('A');
                        for text in [&radius, " ", &radius, " 0 0 ", clockwise] {
                            path.push_str(text);
                        }
                        self.step(path, " ", segment.at(f64::from(piece) / pieces));
                    }
                }
            }
        }
        path.push('Z');
    }

    fn step(&self, path: &mut String, letter: &str, point: [f64; 2]) {
        let [x, y] = self.at(point);
        path.push_str(letter);
        path.push_str(&exact(x, DECIMALS));
        path.push(' ');
        path.push_str(&exact(y, DECIMALS));
    }
}

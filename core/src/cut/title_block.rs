//! The foot of a template's page: check square, notes, and on the first page every number that identifies the setup.

use super::draw::text;
use super::hole_table::fit_class;
use super::options::CutOptions;
use super::pieces::Pieces;
use super::template::{CODE, FOOT, MARGIN, SQUARE, mm};
use crate::drawing::shape::Shape;
use crate::fit::hole_centres;
use crate::setup::Setup;
use crate::words::{degrees, given_length, length, number};

/// The check square, and on the first page the title block.
pub(super) fn foot(
    root: Shape,
    setup: &Setup,
    cut: &Pieces,
    options: &CutOptions,
    name: &str,
    first: bool,
    [width, height]: [f64; 2],
) -> Shape {
    let top = height - FOOT + 1.0;
    let data = ["M", &mm(MARGIN), " ", &mm(top), "h", &mm(SQUARE), "v", &mm(SQUARE), "h", &mm(-SQUARE), "z"];
    let square = Shape::new("path").with(&[
        ("class", "template-square"),
        ("d", &data.concat()),
        ("stroke", "#000000"),
        ("stroke-width", "0.2"),
        ("fill", "none"),
    ]);
    let mut root = root.around(square);
    let notes = ["Print at 100 %.", "This square has sides of", &given_length(SQUARE), "Measure me first."];
    for (index, words) in notes.into_iter().enumerate() {
        root = root.around(text("template-note", [MARGIN + 2.0, top + 5.0 + 4.5 * index as f64], 3.2, "start", words));
    }
    let (left, mut y) = (MARGIN + SQUARE + 4.0, top + 3.5);
    let lines = if first { title_block(setup, cut, options, name) } else { vec![["Page ", name].concat()] };
    let room = if first { width - MARGIN - CODE - 2.0 - left } else { width - MARGIN - left };
    for (index, words) in lines.iter().enumerate() {
        let size = if index == 0 { 4.0 } else { 2.4 };
        for piece in wrapped(words, (room / (size * LETTER_WIDTH)) as usize) {
            if y < top + SQUARE + 1.0 {
                root = root.around(text("template-title", [left, y], size, "start", &piece));
            }
            y += size * 1.25;
        }
    }
    if first && !options.link.is_empty() { link(root, options, [width, height]) } else { root }
}

/// Height of the link's letters, mm, and of the strip that it stands in under the title block.
const LINK_LETTERS: f64 = 1.3;
const LINK_STRIP: f64 = 16.0;

/// The whole link, or a word that it is too long: half of one is none.
fn link(root: Shape, options: &CutOptions, [width, height]: [f64; 2]) -> Shape {
    let top = height - FOOT + SQUARE + 4.0;
    let lines = wrapped(&options.link, ((width - 2.0 * MARGIN) / (LINK_LETTERS * LETTER_WIDTH)) as usize);
    let step = LINK_LETTERS * 1.25;
    if lines.len() as f64 * step > LINK_STRIP {
        let words = "The link is too long to print; scan the code.";
        return root.around(text("template-link", [MARGIN, top], 2.4, "start", words));
    }
    lines.iter().enumerate().fold(root, |root, (index, words)| {
        root.around(text("template-link", [MARGIN, top + step * index as f64], LINK_LETTERS, "start", words))
    })
}

/// Width of a letter against its height, on the wide side.
const LETTER_WIDTH: f64 = 0.56;

/// Breaks a line at spaces, and within a word only where it is longer than a line.
fn wrapped(words: &str, most: usize) -> Vec<String> {
    let most = most.max(8);
    let mut lines: Vec<String> = vec![String::new()];
    for word in words.split(' ') {
        let mut letters: Vec<char> = word.chars().collect();
        while let Some(line) = lines.last_mut() {
            let used = line.chars().count();
            let space = usize::from(used > 0);
            if used + space + letters.len() <= most {
                if space > 0 {
                    line.push(' ');
                }
                line.extend(letters.iter());
                break;
            }
            if used > 0 {
                lines.push(String::new());
                continue;
            }
            line.extend(letters.drain(..most));
            lines.push(String::new());
        }
    }
    lines
}

/// Every number that identifies the setup, the safety line, date and link.
fn title_block(setup: &Setup, cut: &Pieces, options: &CutOptions, name: &str) -> Vec<String> {
    let [a, b] = hole_centres(setup);
    let (wheel, fork, dropout, tab) = (&setup.wheel, &setup.fork, &setup.dropout, &setup.tab);
    let place = |[back, up]: [f64; 2]| [length(back), " back, ".to_owned(), length(up), " up".to_owned()].concat();
    let side = match setup.side {
        crate::setup::Side::Left => "left",
        crate::setup::Side::Right => "right",
    };
    let heading = if setup.name.is_empty() { "Brake plate".to_owned() } else { setup.name.clone() };
    let fit = fit_class(setup.cut.hole_fit);
    let lines = vec![
        heading,
        format!(
            "1:1, page {name}, {}. Brake on the {side}. {}. Glue on the outer face.",
            if options.date.is_empty() { "no date" } else { &options.date },
            super::sheet::joining_word(cut.joining)
        ),
        format!(
            "Rotor {}, hub {}, rotor inset {}. Clock {}, reach {}, tab offset {}.",
            given_length(wheel.rotor_diameter),
            given_length(wheel.hub_width),
            given_length(wheel.rotor_inset),
            precise_degrees(tab.clock),
            given_length(tab.reach),
            given_length(tab.offset)
        ),
        format!("Hole A {}; hole B {}; {} {fit}.", place(a), place(b), setup.caliper.bolt.size.word()),
        format!(
            "Plate {} thick, eye radius {}, neck {}, tube end {}, lap {}, axle offset {}, tube {}, between tubes {}.",
            given_length(dropout.thickness),
            given_length(dropout.eye_radius),
            given_length(dropout.neck_width),
            given_length(fork.tube_end),
            given_length(dropout.weld_length),
            given_length(fork.axle_offset),
            given_length(fork.tube_diameter),
            given_length(fork.tube_gap)
        ),
        format!(
            "Slot {} towards {}, edge {}, fillets {}, {}, ISO 2768-{}.",
            given_length(dropout.slot_width),
            degrees(dropout.slot_direction),
            given_length(tab.edge),
            given_length(tab.fillet_radius),
            setup.load.material.word().replace('_', " "),
            setup.cut.tolerance_class.word()
        ),
        "An estimate of geometry, not an approval. Tack, mock up with caliper and rotor, then weld; have brake welds done or checked by a qualified welder; follow local rules.".to_owned(),
    ];
    lines
}

fn precise_degrees(value: f64) -> String {
    number(value) + "°"
}

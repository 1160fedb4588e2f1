//! How the paper template goes about its paper: rows of pieces no wider than a page, and as few pages as do.

#![allow(clippy::unwrap_used, clippy::panic, reason = "a test that cannot go on should stop")]

use serde_json::{Value, json};
use tabwright_core::cut::{CutOptions, Paper, cut_template};
use tabwright_tests::plates::{DRAWN, bounds, of};
use tabwright_tests::setup_with;
use tabwright_tests::svg::read;

/// Room about the pieces on a page, mm, and what their names take under them.
const ROOM: f64 = 6.0;
const NAMES: f64 = 4.0;
/// What two pages share, mm.
const SHARED: f64 = 10.0;

/// Plates from short to long, upright and leaning, of one piece and of three.
fn plates() -> Vec<Value> {
    let mut all = Vec::new();
    for long in (60..=300).step_by(30) {
        for changes in [
            json!({"dropout": {"weld_length": long}}),
            json!({"dropout": {"weld_length": long}, "tab": {"offset": 7, "clock": 80}}),
            json!({"dropout": {"weld_length": long}, "fork": {"axle_offset": long / 2}, "tab": {"clock": -60}}),
        ] {
            all.push(changes);
        }
    }
    all
}

#[test]
fn pieces_fill_rows_and_pages_from_the_upper_left() {
    let mut most = [1.0, 1.0];
    for changes in plates() {
        let setup = setup_with(&changes);
        for (paper, [width, height]) in [(Paper::A4, [210.0, 297.0]), (Paper::Letter, [215.9, 279.4])] {
            let template = cut_template(&setup, &CutOptions { paper, ..CutOptions::default() }).unwrap();
            let drawing = read(&template.pages[0].svg);
            let pieces: Vec<[f64; 4]> = of(&drawing, "template-cut").iter().map(|one| bounds(&one.points())).collect();
            // Blank edges of 12 at the sides and above, a strip of 80 below.
            let tile = [width - 24.0, height - 92.0];
            for pair in pieces.windows(2) {
                let ([_, right, top, _], [left, end, other_top, _]) = (pair[0], pair[1]);
                let goes_on = right + 10.0 + (end - left) <= tile[0] - ROOM;
                assert_eq!((top - other_top).abs() < DRAWN, goes_on, "{changes}: {pair:?}");
            }
            let rows: Vec<f64> = pieces.iter().map(|piece| piece[2]).collect();
            for (index, [_, _, top, _]) in pieces.iter().enumerate() {
                let above = pieces[..index].iter().filter(|piece| top - piece[2] > DRAWN);
                let lowest = above.map(|piece| piece[3]).fold(ROOM - 10.0, f64::max);
                assert!(
                    (top - lowest - 10.0).abs() < DRAWN,
                    "{changes}: a row starts 10 under the one above it: {rows:?}"
                );
            }
            let reach = |side: usize| pieces.iter().map(|piece| piece[side]).fold(0.0, f64::max);
            let needed = [reach(1) + ROOM, reach(3) + ROOM + NAMES];
            for (axis, pages) in [template.columns, template.rows].into_iter().enumerate() {
                let shown = |pages: f64| pages * (tile[axis] - SHARED) + SHARED;
                assert!(shown(pages) >= needed[axis] - DRAWN, "{changes}: {pages} pages for {needed:?}");
                assert!(pages == 1.0 || shown(pages - 1.0) < needed[axis] + DRAWN, "{changes}: {pages} for {needed:?}");
                most[axis] = f64::max(most[axis], pages);
            }
            assert_eq!(template.pages.len() as f64, template.columns * template.rows);
        }
    }
    assert!(most[0] > 1.0 && most[1] > 2.0, "{most:?}");
}

/// Lines of the title block and of the link stand under one another, each a quarter of its height from the one above.
#[test]
fn words_at_the_foot_run_down_the_page() {
    let options = CutOptions { link: "x".repeat(900), ..CutOptions::default() };
    let template = cut_template(&setup_with(&json!({"name": "Long fork"})), &options).unwrap();
    let drawing = read(&template.pages[0].svg);
    for (class, least) in [("template-title", 9), ("template-link", 3)] {
        let lines = of(&drawing, class);
        assert!(lines.len() >= least, "{} lines of {class}", lines.len());
        for pair in lines.windows(2) {
            let step = pair[1].place()[1] - pair[0].place()[1];
            assert!((step - 1.25 * pair[0].number("font-size")).abs() < DRAWN, "{class}: {step}");
            assert!((pair[1].place()[0] - pair[0].place()[0]).abs() < DRAWN, "{class}: one under the other");
        }
    }
    assert_eq!(of(&drawing, "template-title")[0].text, "Long fork");
}

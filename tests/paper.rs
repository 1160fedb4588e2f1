//! The paper template read back: every line by what it marks, every word by its room.

#![allow(clippy::unwrap_used, clippy::panic, reason = "a test that cannot go on should stop")]

use tabwright_core::Setup;
use tabwright_core::cut::{CutOptions, Joining, Paper, PieceKey, TemplatePage, cut_file, cut_template, pieces};
use tabwright_tests::assert_near;
use tabwright_tests::plates::{DRAWN, across, bounds, distance, ends, has_cross, of, setups};
use tabwright_tests::svg::{Element, Point, read};

/// Blank edge that every printer can leave, mm.
const BLANK: f64 = 6.0 - 1e-9;

/// Lines of a class as ends, moved from the sheet to where the tile shows them.
fn strokes(drawing: &[Element], class: &str) -> Vec<[Point; 2]> {
    of(drawing, class).into_iter().filter(|one| one.kind == "path").map(ends).collect()
}

/// x, y, width and height of the tile's part of the sheet, and where that lies on the paper.
fn tile(drawing: &[Element]) -> ([f64; 4], Point) {
    let tile = of(drawing, "template-tile")[0];
    (tile.view_box(), [tile.number("x"), tile.number("y")])
}

fn templates() -> Vec<(Setup, Vec<TemplatePage>, CutOptions)> {
    let mut all = Vec::new();
    for setup in setups() {
        for (paper, link) in [(Paper::A4, "x".repeat(1200)), (Paper::Letter, String::new())] {
            let options = CutOptions { paper, link, date: "2026-11-27".to_owned(), ..CutOptions::default() };
            all.push((setup.clone(), cut_template(&setup, &options).unwrap().pages, options));
        }
    }
    assert!(all.iter().any(|(_, pages, _)| pages.len() > 2), "some go over several pages");
    all
}

#[test]
fn pieces_lie_apart_on_the_sheet_with_every_hole_to_punch_and_the_leg_to_lay_them_by() {
    for (setup, pages, _) in templates() {
        let cut = pieces(&setup).unwrap();
        let drawing = read(&pages[0].svg);
        let outlines: Vec<[f64; 4]> = of(&drawing, "template-cut").iter().map(|one| bounds(&one.points())).collect();
        assert_eq!(outlines.len(), cut.pieces.len());
        for (index, a) in outlines.iter().enumerate() {
            for b in &outlines[..index] {
                let apart = (a[0] - b[1]).max(b[0] - a[1]).max(a[2] - b[3]).max(b[2] - a[3]);
                assert!(apart > 10.0 - DRAWN, "pieces {apart} apart");
                let same_row = a[2] < b[3] && b[2] < a[3];
                assert!(!same_row || (a[2] - b[2]).abs() < DRAWN, "tops of a row in one line");
                assert!(!same_row || (apart - 10.0).abs() < DRAWN || index > 1, "and no further apart than that");
            }
        }
        let (punches, scribes) = (strokes(&drawing, "template-punch"), strokes(&drawing, "template-scribe"));
        let circles: Vec<[f64; 3]> = of(&drawing, "template-hole")
            .iter()
            .map(|one| [one.number("cx"), one.number("cy"), one.number("r")])
            .collect();
        let (labels, names) = (of(&drawing, "template-label"), of(&drawing, "template-name"));
        for ((piece, outline), name) in cut.pieces.iter().zip(&outlines).zip(names) {
            let [low, high] = piece.region.outer.bounds();
            let sign = across(&setup, piece.key);
            let left = if sign > 0.0 { low[0] } else { -high[0] };
            let page = |[back, up]: Point| [outline[0] + sign * back - left, outline[2] + high[1] - up];
            for hole in &piece.holes {
                let at = page(hole.centre);
                let circle = circles.iter().find(|[x, y, _]| distance([*x, *y], at) < DRAWN);
                assert_near(circle.unwrap()[2], hole.diameter / 2.0, 1e-3, "hole");
                assert!(has_cross(&punches, at, hole.diameter + 6.0), "hole {} has no cross to punch", hole.name);
                if hole.name != "axle" {
                    let near = |one: &&&Element| {
                        let [from, _, _, foot] = one.text_box();
                        let (dx, dy) = (from - at[0] - hole.diameter / 2.0, at[1] - hole.diameter / 2.0 - foot);
                        one.text == hole.name && (dx - 1.0).abs() < DRAWN && (dy - 1.0).abs() < DRAWN
                    };
                    assert!(labels.iter().any(|one| near(&one)), "hole {} has no letter", hole.name);
                }
            }
            let [from, to, _, foot] = name.text_box();
            assert_near((from + to) / 2.0, (outline[0] + outline[1]) / 2.0, DRAWN, "a name is under the middle");
            assert!((1.0..6.0).contains(&(foot - outline[3])), "and under its piece");
            if piece.key == PieceKey::Tab {
                continue;
            }
            let axle = page([0.0, 0.0]);
            assert!(has_cross(&punches, axle, 10.0), "the axle has no cross to punch");
            let has = |from: Point, to: Point| {
                scribes.iter().any(|[a, b]| {
                    (distance(*a, from) < DRAWN && distance(*b, to) < DRAWN)
                        || (distance(*b, from) < DRAWN && distance(*a, to) < DRAWN)
                })
            };
            assert!(has([axle[0], outline[2]], [axle[0], outline[3]]), "no line up the leg");
            assert!(has([outline[0], axle[1]], [outline[1], axle[1]]), "no line across it");
        }
    }
}

/// Tiles share 10 mm with their neighbours, cover every edge with room, and none is more than is needed.
#[test]
fn pages_cover_the_sheet_and_marks_join_them() {
    for (_, pages, options) in templates() {
        let drawings: Vec<Vec<Element>> = pages.iter().map(|page| read(&page.svg)).collect();
        let tiles: Vec<([f64; 4], Point)> = drawings.iter().map(|drawing| tile(drawing)).collect();
        let (columns, rows) = (
            pages.iter().map(|page| page.column).fold(0.0, f64::max),
            pages.iter().map(|page| page.row).fold(0.0, f64::max),
        );
        assert_eq!(pages.len() as f64, (columns + 1.0) * (rows + 1.0));
        let sheet: Vec<Point> = of(&drawings[0], "template-cut").into_iter().flat_map(Element::points).collect();
        let [left, right, top, foot] = bounds(&sheet);
        let ([_, _, wide, high], _) = tiles[0];
        assert!(left >= BLANK - DRAWN && top >= BLANK - DRAWN, "room at the upper left");
        let [last, ..] = [tiles[tiles.len() - 1].0];
        assert!(
            right + BLANK <= last[0] + wide + DRAWN && foot + BLANK <= last[1] + high + DRAWN,
            "room at the lower right"
        );
        let names = of(&drawings[0], "template-name").iter().map(|one| one.text_box()[3]).fold(0.0, f64::max);
        assert!(names <= last[1] + high, "names are on a page");
        assert!(columns == 0.0 || right + BLANK > last[0] + 10.0 - DRAWN, "a column too many");
        assert!(rows == 0.0 || foot + BLANK + 4.0 > last[1] + 10.0 - DRAWN, "a row too many");
        let mut seen_names = std::collections::BTreeSet::new();
        for (page, (drawing, (view, at))) in pages.iter().zip(drawings.iter().zip(&tiles)) {
            assert_near(view[0], page.column * (wide - 10.0), 1e-3, "neighbours share 10 mm");
            assert_near(view[1], page.row * (high - 10.0), 1e-3, "neighbours share 10 mm");
            let blank = [at[0], at[1], page.width - at[0] - wide];
            assert!(blank.iter().all(|edge| *edge >= BLANK), "printers leave the edge white: {blank:?}");
            assert_eq!(page.name, format!("{} of {}", page.row * (columns + 1.0) + page.column + 1.0, pages.len()));
            let marks: Vec<Point> = of(drawing, "template-register")
                .into_iter()
                .filter(|one| one.kind == "circle")
                .map(|one| [one.number("cx"), one.number("cy")])
                .collect();
            let arms = strokes(drawing, "template-register");
            let is_shown = |[x, y]: Point| x > view[0] && x < view[0] + view[2] && y > view[1] && y < view[1] + view[3];
            for mark in &marks {
                assert!(has_cross(&arms, *mark, 10.0), "a mark without its cross");
                let shown_on = tiles.iter().filter(|(view, _)| {
                    mark[0] > view[0] && mark[0] < view[0] + wide && mark[1] > view[1] && mark[1] < view[1] + high
                });
                assert!(shown_on.count() >= 2, "a mark that joins nothing at {mark:?}");
                let in_column =
                    (1..=columns as u32).any(|column| (mark[0] - f64::from(column) * (wide - 10.0) - 5.0).abs() < 1e-3);
                let in_row = (1..=rows as u32).any(|row| (mark[1] - f64::from(row) * (high - 10.0) - 5.0).abs() < 1e-3);
                assert!(in_column || in_row, "a mark lies in the middle of what two pages share");
                let near = |one: &&&Element| {
                    let [from, _, _, low] = one.text_box();
                    (from - mark[0] - 2.5).abs() < DRAWN && (mark[1] - low - 1.0).abs() < DRAWN
                };
                let label = of(drawing, "template-note");
                let label = label.iter().find(|one| near(one)).unwrap_or_else(|| panic!("a mark has no name"));
                seen_names.insert((label.text.clone(), (mark[0] * 10.0) as i64, (mark[1] * 10.0) as i64));
            }
            for (way, is_there) in [([1.0, 0.0], page.column < columns), ([0.0, 1.0], page.row < rows)] {
                let strip = |mark: &&Point| {
                    let from = [view[0] + way[0] * (wide - 10.0), view[1] + way[1] * (high - 10.0)];
                    is_shown(**mark) && mark[0] > from[0] && mark[1] > from[1]
                };
                assert!(!is_there || marks.iter().filter(strip).count() >= 3, "page {} lacks marks", page.name);
            }
        }
        let names: std::collections::BTreeSet<&str> = seen_names.iter().map(|(name, ..)| name.as_str()).collect();
        assert_eq!(names.len(), seen_names.len(), "two marks have one name");
        assert!(options.paper == Paper::A4 || pages[0].height < 280.0);
    }
}

#[test]
fn check_bars_have_ends_and_words_have_room() {
    for (_, pages, options) in templates() {
        for (index, page) in pages.iter().enumerate() {
            let drawing = read(&page.svg);
            let bars = ["template-bar-across", "template-bar-up"].map(|class| ends(of(&drawing, class)[0]));
            let ticks = strokes(&drawing, "template-bar-end");
            assert_eq!(ticks.len(), 4);
            for (axis, bar) in bars.iter().enumerate() {
                assert_near(distance(bar[0], bar[1]), 100.0, 1e-6, "a bar's length");
                assert_eq!(bar[0][1 - axis], bar[1][1 - axis], "square to the page");
                for end in bar {
                    let at_end = |[a, b]: &&[Point; 2]| {
                        distance([(a[0] + b[0]) / 2.0, (a[1] + b[1]) / 2.0], *end) < 1e-6
                            && (a[1 - axis] - b[1 - axis]).abs() == 4.0
                            && a[axis] == b[axis]
                    };
                    assert!(ticks.iter().any(|tick| at_end(&tick)), "a bar without its end at {end:?}");
                }
            }
            let inside = |points: &[Point]| {
                let [left, right, top, foot] = bounds(points);
                left >= BLANK && right <= page.width - BLANK && top >= BLANK && foot <= page.height - BLANK
            };
            assert!(inside(&bars.concat()) && inside(&ticks.concat()), "bars where a printer prints");
            let square = of(&drawing, "template-square")[0].points();
            let [left, right, top, foot] = bounds(&square);
            assert!(
                (right - left - 50.0).abs() < 1e-6 && (foot - top - 50.0).abs() < 1e-6 && inside(&square),
                "the square"
            );
            let ([_, _, _, high], at) = tile(&drawing);
            assert!(top > at[1] + high, "the square is below the tile");
            let own = |one: &&&Element| {
                one.kind == "text" && ["template-note", "template-title", "template-link"].contains(&one.class.as_str())
            };
            let marks: Vec<Point> = of(&drawing, "template-register")
                .iter()
                .filter(|one| one.kind == "circle")
                .map(|one| [one.number("cx") + 2.5, one.number("cy") - 1.0])
                .collect();
            let is_marks = |one: &Element| marks.iter().any(|mark| distance(one.place(), *mark) < DRAWN);
            let texts: Vec<&Element> = drawing.iter().filter(|one| own(&one) && !is_marks(one)).collect();
            let boxes: Vec<[f64; 4]> = texts.iter().map(|one| one.text_box()).collect();
            for (at, (text, [from, to, high, low])) in texts.iter().zip(&boxes).enumerate() {
                assert!(
                    inside(&[[*from, *high], [*to, *low]]),
                    "page {}: \"{}\" is off the page",
                    page.name,
                    text.text
                );
                for (other, [other_from, other_to, other_high, other_low]) in texts.iter().zip(&boxes).take(at) {
                    let apart = to < other_from || other_to < from || low < other_high || other_low < high;
                    assert!(apart, "\"{}\" over \"{}\"", text.text, other.text);
                }
                for bar in bars {
                    let [bar_left, bar_right, bar_top, bar_foot] = bounds(&bar);
                    let apart = *to < bar_left || bar_right < *from || *low < bar_top || bar_foot < *high;
                    assert!(apart, "\"{}\" over a bar", text.text);
                }
            }
            // Notes in the square, titles between it and the code, the link under both.
            let within = |one: &&&Element| {
                let [from, to, high, low] = one.text_box();
                from > left && to < right && high > top && low < foot
            };
            let notes: Vec<&str> = texts.iter().filter(within).map(|one| one.text.as_str()).collect();
            assert!(notes.len() == 4, "four notes in the square: {notes:?}");
            let titles: Vec<&&Element> = texts.iter().filter(|one| one.class == "template-title").collect();
            let edge = page.qr.map_or(page.width - 12.0, |code| code.x);
            for title in &titles {
                let [from, to, _, low] = title.text_box();
                assert!(from > right + 2.0 && to < edge && low < foot + 2.0, "\"{}\" has no room", title.text);
            }
            assert!((titles[0].place()[1] - top - 3.5).abs() < 1.0, "titles start at the square's top");
            assert_eq!(page.qr.is_some(), index == 0);
            assert_eq!(titles.len() > 5, index == 0, "the first page tells the setup, others their number");
            assert!(titles.iter().any(|one| one.text.contains(&page.name)), "page {} does not say so", page.name);
            if let Some(code) = page.qr {
                assert!(code.x + code.size <= page.width - 12.0 + 1e-9 && code.x > right, "{code:?}");
                assert!(code.y > at[1] + high && code.y + code.size < foot, "{code:?}");
            }
            let links: Vec<&&Element> = texts.iter().filter(|one| one.class == "template-link").collect();
            assert_eq!(links.is_empty(), options.link.is_empty() || index > 0);
            for link in links {
                let [from, to, high, low] = link.text_box();
                assert!(
                    from >= 12.0 && to <= page.width - 12.0 && high > foot && low < bars[0][0][1] - 2.0,
                    "the link"
                );
            }
        }
    }
}

/// The template as one drawing for a plotter.
#[test]
fn the_whole_template_is_one_page_about_its_pieces() {
    for setup in setups() {
        let file = cut_file(&setup, "template_svg", &CutOptions::default()).unwrap();
        let drawing = read(&file.text);
        let (width, height) = (drawing[0].number("width"), drawing[0].number("height"));
        assert_eq!(drawing[0].view_box(), [0.0, 0.0, width, height], "1:1");
        let points: Vec<Point> = of(&drawing, "template-cut").into_iter().flat_map(Element::points).collect();
        let [left, right, top, foot] = bounds(&points);
        assert!((left - 12.0).abs() < DRAWN && (top - 12.0).abs() < DRAWN, "{left}, {top}");
        assert!((width - right - 12.0).abs() < DRAWN || (width == 124.0 && right < 112.0), "{width} for {right}");
        assert!((height - foot - 24.0).abs() < DRAWN || (height == 136.0 && foot < 112.0), "{height} for {foot}");
        let bars = ["template-bar-across", "template-bar-up"].map(|class| ends(of(&drawing, class)[0]));
        let [from, to, upper, lower] = bounds(&bars.concat());
        assert!(from >= BLANK && to <= width && upper >= BLANK && lower <= height - BLANK);
        let names = of(&drawing, "template-name").iter().map(|one| one.text_box()[3]).fold(0.0, f64::max);
        assert!(names < bars[0][0][1], "names are clear of the bar");
    }
}

/// What is left out where the other leg's dropout is not wanted.
#[test]
fn the_other_legs_dropout_is_drawn_only_where_it_is_wanted() {
    let options = CutOptions { other_side: false, ..CutOptions::default() };
    for setup in setups() {
        let cut = pieces(&setup).unwrap();
        let others = cut.pieces.iter().filter(|piece| piece.key == PieceKey::OtherSide).count();
        assert_eq!(others, usize::from(cut.joining != Joining::OnExisting));
        for kind in ["svg", "template_svg"] {
            let count = |options: &CutOptions| {
                read(&cut_file(&setup, kind, options).unwrap().text)
                    .iter()
                    .filter(|one| one.kind == "path" && (one.is("template-cut") || one.class == "cut"))
                    .count()
            };
            assert_eq!(count(&CutOptions::default()) - count(&options), others, "{kind}");
        }
    }
}

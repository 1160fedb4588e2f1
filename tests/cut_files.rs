//! Cutting files and the template, read back by small readers of this test's own and compared with the setup's numbers.

#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, reason = "a test that cannot go on should stop")]

use std::f64::consts::PI;

use tabwright_core::cut::{CutOptions, FILE_KINDS, Paper, cut_file, cut_sheet, cut_template};
use tabwright_core::fit::hole_centres;
use tabwright_core::{Build, Given, Setup, Side};
use tabwright_tests::assert_near;

/// What a cutting file holds: closed outlines with bulges, and circles as x, y, radius.
#[derive(Debug, Default)]
struct Drawing {
    outlines: Vec<Vec<[f64; 3]>>,
    circles: Vec<[f64; 3]>,
}

impl Drawing {
    /// Shoelace, and beside each bent edge the segment between arc and chord: r²(θ − sin θ)/2, θ = 4 atan bulge.
    fn area(&self) -> f64 {
        let outlines = self.outlines.iter().map(|outline| {
            let next = |index: usize| outline[(index + 1) % outline.len()];
            let edge = |(index, &[x, y, bulge]): (usize, &[f64; 3])| {
                let [to_x, to_y, _] = next(index);
                let chord = (to_x - x).hypot(to_y - y);
                let angle = 4.0 * bulge.atan();
                let radius = if bulge == 0.0 { 0.0 } else { chord / 2.0 / (angle / 2.0).sin() };
                (x * to_y - to_x * y + radius * radius * (angle - angle.sin())) / 2.0
            };
            outline.iter().enumerate().map(edge).sum::<f64>()
        });
        outlines.sum::<f64>() - self.circles.iter().map(|[_, _, radius]| PI * radius * radius).sum::<f64>()
    }
}

/// Reads pairs of group code and value.
fn read_dxf(text: &str) -> (Drawing, Vec<(i32, String)>) {
    let lines: Vec<&str> = text.lines().collect();
    assert_eq!(lines.len() % 2, 0, "codes and values come in pairs");
    let pairs: Vec<(i32, String)> =
        lines.chunks(2).map(|pair| (pair[0].trim().parse().expect("a code"), pair[1].to_owned())).collect();
    assert_eq!(pairs.last(), Some(&(0, "EOF".to_owned())));
    let mut drawing = Drawing::default();
    let mut entities = pairs.iter().skip_while(|pair| **pair != (2, "ENTITIES".to_owned())).skip(1).peekable();
    while let Some((code, kind)) = entities.next() {
        assert_eq!(*code, 0, "{kind}");
        let mut values = Vec::new();
        while let Some((code, value)) = entities.next_if(|(code, _)| *code != 0) {
            values.push((*code, value.clone()));
        }
        let all = |wanted: i32| values.iter().filter(move |(code, _)| *code == wanted).map(|(_, value)| value);
        let number = |wanted: i32| all(wanted).next().map_or(0.0, |value| value.parse::<f64>().expect("a number"));
        let layer = all(8).next().map_or("", String::as_str);
        match kind.as_str() {
            "ENDSEC" => break,
            "POLYLINE" => {
                assert_eq!((layer, number(66), number(70)), ("CUT", 1.0, 1.0));
                drawing.outlines.push(Vec::new());
            }
            "VERTEX" => drawing.outlines.last_mut().expect("a polyline").push([number(10), number(20), number(42)]),
            "LWPOLYLINE" => {
                assert_eq!((layer, number(70)), ("CUT", 1.0));
                let column =
                    |code: i32| all(code).map(|value| value.parse::<f64>().expect("a number")).collect::<Vec<_>>();
                let (x, y, bulge) = (column(10), column(20), column(42));
                assert!(x.len() == number(90) as usize && y.len() == x.len() && bulge.len() == x.len());
                drawing.outlines.push((0..x.len()).map(|index| [x[index], y[index], bulge[index]]).collect());
            }
            "CIRCLE" => {
                assert_eq!(layer, "HOLES");
                drawing.circles.push([number(10), number(20), number(40)]);
            }
            "LINE" => assert_eq!(layer, "MARKS"),
            "SEQEND" => {}
            other => panic!("{other} does not belong in a cutting file"),
        }
    }
    (drawing, pairs)
}

fn attribute<'a>(tag: &'a str, name: &str) -> Option<&'a str> {
    let (_, rest) = tag.split_once(&format!(" {name}=\""))?;
    rest.split_once('"').map(|(value, _)| value)
}

/// The tags of a kind with a class.
fn tags<'a>(svg: &'a str, kind: &str, class: &str) -> Vec<&'a str> {
    let start = format!("<{kind} ");
    let found = svg.split(&start).skip(1).map(|rest| rest.split_once('>').map_or(rest, |(tag, _)| tag));
    // The kind's name was split off; a space stands before each attribute.
    let found =
        found.filter(|tag| tag.starts_with(&format!("class=\"{class}\"")) || attribute(tag, "class") == Some(class));
    found.collect()
}

fn number(tag: &str, name: &str) -> f64 {
    attribute(tag, name)
        .unwrap_or_else(|| panic!("no {name} in {tag}"))
        .trim_end_matches("mm")
        .parse()
        .expect("a number")
}

/// Path data of M, L, A and Z as corners with bulges, y turned up.
fn read_path(data: &str) -> Vec<Vec<[f64; 3]>> {
    let mut outlines: Vec<Vec<[f64; 3]>> = Vec::new();
    let mut spaced = String::new();
    for letter in data.chars() {
        if letter.is_ascii_alphabetic() {
            spaced.push_str(&format!(" {letter} "));
        } else {
            spaced.push(if letter == ',' { ' ' } else { letter });
        }
    }
    let mut pieces = spaced.split_whitespace();
    let mut take = || pieces.next();
    while let Some(letter) = take() {
        let mut value = || take().expect("a number").parse::<f64>().expect("a number");
        match letter {
            "M" => outlines.push(vec![[value(), -value(), 0.0]]),
            "L" => outlines.last_mut().unwrap().push([value(), -value(), 0.0]),
            "A" => {
                let (radius, _, _, large, sweep) = (value(), value(), value(), value(), value());
                let (x, y) = (value(), -value());
                let outline = outlines.last_mut().unwrap();
                let last = outline.last_mut().unwrap();
                let half = ((x - last[0]).hypot(y - last[1]) / 2.0 / radius).min(1.0).asin();
                let angle = if large == 1.0 { 2.0 * PI - 2.0 * half } else { 2.0 * half };
                // Sweep 1 is clockwise as one looks at the page.
                last[2] = if sweep == 1.0 { -(angle / 4.0).tan() } else { (angle / 4.0).tan() };
                outline.push([x, y, 0.0]);
            }
            "Z" => {
                let outline = outlines.last_mut().unwrap();
                let (first, last) = (outline[0], outline[outline.len() - 1]);
                if (first[0] - last[0]).hypot(first[1] - last[1]) < 1e-3 {
                    outline.pop();
                }
            }
            other => panic!("{other} in a path"),
        }
    }
    outlines
}

fn read_svg(svg: &str) -> Drawing {
    let outlines =
        tags(svg, "path", "cut").into_iter().flat_map(|tag| read_path(attribute(tag, "d").unwrap())).collect();
    let circles =
        tags(svg, "circle", "hole").into_iter().map(|tag| [number(tag, "cx"), -number(tag, "cy"), number(tag, "r")]);
    Drawing { outlines, circles: circles.collect() }
}

fn setups() -> Vec<Setup> {
    let mut all = vec![Setup::default()];
    let mut changed = |change: &dyn Fn(&mut Setup)| {
        let mut setup = Setup::default();
        change(&mut setup);
        all.push(setup);
    };
    changed(&|setup| setup.side = Side::Right);
    changed(&|setup| setup.dropout.closed = true);
    changed(&|setup| setup.tab.build = Build::ButtWelded);
    changed(&|setup| setup.tab.build = Build::OnExisting);
    changed(&|setup| setup.tab.offset = 7.0);
    changed(&|setup| (setup.tab.clock, setup.fork.axle_offset, setup.tab.fillet_radius) = (75.0, 23.7, 11.3));
    changed(&|setup| (setup.tab.clock, setup.dropout.slot_direction) = (-60.0, 90.0));
    all
}

/// Areas, radii and hole distances read back from every file are the sheet's.
#[test]
fn files_read_back_have_the_sheets_areas_and_holes() {
    for setup in setups() {
        let sheet = cut_sheet(&setup, &CutOptions::default()).unwrap();
        let area: f64 = sheet.pieces.iter().map(|piece| piece.area).sum();
        let holes: f64 = sheet.pieces.iter().map(|piece| piece.hole_count).sum();
        for kind in ["dxf_r12", "dxf_r2000", "svg"] {
            let file = cut_file(&setup, kind, &CutOptions::default()).unwrap();
            let drawing = if kind == "svg" { read_svg(&file.text) } else { read_dxf(&file.text).0 };
            assert_eq!(drawing.outlines.len(), sheet.pieces.len(), "{kind}");
            assert_eq!(drawing.circles.len(), holes as usize, "{kind}");
            // Six decimals of a millimetre in SVG, nine in DXF, over a cut of half a metre.
            assert_near(drawing.area(), area, if kind == "svg" { 1e-3 } else { 1e-4 }, kind);
            let bolts: Vec<&[f64; 3]> = drawing.circles.iter().filter(|circle| circle[2] < 4.0).collect();
            let [a, b] = bolts.as_slice() else { panic!("{kind}: {:?}", drawing.circles) };
            assert_near(a[2], 3.3, 1e-9, "radius of a hole, ISO 273 M6 medium 6.6");
            assert_near((a[0] - b[0]).hypot(a[1] - b[1]), 51.0, 1e-3, "hole to hole");
            // As seen on the outer face, back is to the right on the left leg.
            let [first, second] = hole_centres(&setup);
            let across = if setup.side == Side::Left { 1.0 } else { -1.0 };
            assert_near(b[0] - a[0], across * (second[0] - first[0]), 1e-3, "across");
            assert_near(b[1] - a[1], second[1] - first[1], 1e-3, "up");
        }
    }
}

/// An outline whose neighbouring arcs of one circle are one arc: where a format puts a corner on an arc is its own affair.
fn whole_arcs(outline: &[[f64; 3]]) -> Vec<[f64; 3]> {
    let next = |index: usize| outline[(index + 1) % outline.len()];
    let middle = |index: usize| {
        let ([x, y, bulge], [u, v, _]) = (outline[index], next(index));
        let aside = (1.0 - bulge * bulge) / (4.0 * bulge);
        [(x + u) / 2.0 - aside * (v - y), (y + v) / 2.0 + aside * (u - x)]
    };
    let mut whole: Vec<[f64; 3]> = Vec::new();
    for (index, &[x, y, bulge]) in outline.iter().enumerate() {
        let before = index.checked_sub(1).filter(|&before| outline[before][2] * bulge > 0.0).map(middle);
        let goes_on = before.is_some_and(|[a, b]| (a - middle(index)[0]).hypot(b - middle(index)[1]) < 1e-3);
        match whole.last_mut().filter(|_| goes_on) {
            Some(last) => last[2] = (last[2].atan() + bulge.atan()).tan(),
            None => whole.push([x, y, bulge]),
        }
    }
    whole
}

/// Both formats and the cutting drawing are one shape, corner by corner.
#[test]
fn the_formats_agree_with_each_other() {
    for setup in setups() {
        let read = |kind| cut_file(&setup, kind, &CutOptions::default()).unwrap().text;
        let (r12, r2000, svg) = (read_dxf(&read("dxf_r12")).0, read_dxf(&read("dxf_r2000")).0, read_svg(&read("svg")));
        assert_eq!(r12.outlines, r2000.outlines);
        assert_eq!(r12.circles, r2000.circles);
        let height = r12.outlines[0][0][1] - svg.outlines[0][0][1];
        let (whole, pieced): (Vec<_>, Vec<_>) = (
            r12.outlines.iter().flat_map(|outline| whole_arcs(outline)).collect(),
            svg.outlines.iter().flat_map(|outline| whole_arcs(outline)).collect(),
        );
        assert_eq!(whole.len(), pieced.len());
        for (one, other) in whole.iter().zip(&pieced) {
            assert_near(one[0], other[0], 1e-4, "x");
            assert_near(one[1], other[1] + height, 2e-4, "y");
            assert_near(one[2], other[2], 1e-3, "bulge");
        }
    }
}

/// R12 knows no units and no LWPOLYLINE; R2000 says millimetres, $INSUNITS 4. Published DXF references.
#[test]
fn each_version_keeps_to_its_own_words() {
    let setup = Setup::default();
    let r12 = cut_file(&setup, "dxf_r12", &CutOptions::default()).unwrap();
    assert!(r12.text.contains("AC1009") && !r12.text.contains("$INSUNITS") && !r12.text.contains("LWPOLYLINE"));
    assert!(r12.name.ends_with("-cut-r12.dxf"));
    let (_, pairs) = read_dxf(&cut_file(&setup, "dxf_r2000", &CutOptions::default()).unwrap().text);
    let units = pairs.iter().position(|pair| pair.1 == "$INSUNITS").expect("units are told");
    assert_eq!(pairs[units + 1], (70, "4".to_owned()));
    // No handle twice.
    let mut handles: Vec<&String> =
        pairs.iter().filter(|(code, _)| *code == 5 || *code == 105).map(|(_, handle)| handle).collect();
    let many = handles.len();
    handles.sort();
    handles.dedup();
    assert_eq!(handles.len(), many);
}

/// No width of cut changes nothing; one of 1 mm moves edges out by half of it: by Steiner's formula a shape of inner and
/// outer rounds grows by perimeter times half the width, and by the sharp corners' wedges.
#[test]
fn a_width_of_cut_moves_edges_by_half_of_it() {
    let mut setup = Setup::default();
    setup.dropout.closed = true;
    let file = |kerf: f64| {
        let options = CutOptions { kerf, other_side: false, ..CutOptions::default() };
        cut_file(&setup, "dxf_r2000", &options).unwrap()
    };
    assert_eq!(
        file(0.0).text,
        cut_file(&setup, "dxf_r2000", &CutOptions { other_side: false, ..CutOptions::default() }).unwrap().text
    );
    let (plain, wide) = (read_dxf(&file(0.0).text).0, read_dxf(&file(1.0).text).0);
    let perimeter: f64 = plain.outlines[0]
        .iter()
        .enumerate()
        .map(|(index, &[x, y, bulge])| {
            let [to_x, to_y, _] = plain.outlines[0][(index + 1) % plain.outlines[0].len()];
            let (chord, angle) = ((to_x - x).hypot(to_y - y), 4.0 * bulge.atan());
            if bulge == 0.0 { chord } else { chord / 2.0 / (angle / 2.0).sin() * angle }
        })
        .sum();
    let outer = |drawing: &Drawing| Drawing { outlines: drawing.outlines.clone(), circles: Vec::new() }.area();
    // The closed plate is smooth all round: area + perimeter · d + π d².
    assert_near(outer(&wide), outer(&plain) + perimeter * 0.5 + PI * 0.25, 1e-3, "area");
    for (one, other) in plain.circles.iter().zip(&wide.circles) {
        assert_near(other[2], one[2] - 0.5, 1e-9, "radius of a hole");
    }
    assert!(file(1.0).name.contains("kerf-1-"));
    let narrow = CutOptions { kerf: 5.0, ..CutOptions::default() };
    setup.dropout.slot_width = 4.5;
    setup.wheel.axle_diameter = 4.0;
    setup.dropout.closed = false;
    assert_eq!(cut_file(&setup, "svg", &narrow).unwrap_err()[0].field, "options.kerf");
}

#[test]
fn pages_are_real_millimetres_with_bars_and_square() {
    for (paper, width, height) in [(Paper::A4, 210.0, 297.0), (Paper::Letter, 215.9, 279.4)] {
        let options = CutOptions {
            paper,
            date: "2026-11-27".to_owned(),
            link: "https://example.org/#".to_owned() + &"a".repeat(1500),
            ..CutOptions::default()
        };
        let template = cut_template(&Setup::default(), &options).unwrap();
        assert!(!template.tiled && template.pages.len() == 1, "the default plate goes on one page");
        let page = &template.pages[0];
        assert_eq!((page.width, page.height), (width, height));
        let root = page.svg.split_once('>').unwrap().0;
        assert_eq!((number(root, "width"), number(root, "height")), (width, height));
        assert_eq!(attribute(root, "viewBox"), Some(format!("0 0 {width} {height}").as_str()));
        // 100 mm both ways and a square of 50 mm, on the page and clear of its edges.
        let path = |class: &str| attribute(tags(&page.svg, "path", class)[0], "d").unwrap().to_owned();
        assert!(path("template-bar-across").ends_with("h100") && path("template-bar-up").ends_with("v-100"));
        assert!(path("template-square").ends_with("h50v50h-50z"));
        // The tile's window is as large as what it shows: 1:1.
        let tile = tags(&page.svg, "svg", "template-tile")[0];
        let view: Vec<f64> = attribute(tile, "viewBox").unwrap().split(' ').map(|side| side.parse().unwrap()).collect();
        assert_eq!((view[2], view[3]), (number(tile, "width"), number(tile, "height")));
        let holes: Vec<[f64; 2]> = tags(&page.svg, "circle", "template-hole")
            .into_iter()
            .map(|tag| [number(tag, "cx"), number(tag, "cy")])
            .collect();
        assert_near((holes[0][0] - holes[1][0]).hypot(holes[0][1] - holes[1][1]), 51.0, 1e-3, "hole to hole");
        for told in [
            "203 mm",
            "100 mm",
            "28°",
            "33.4 mm back, 117.0 mm up",
            "2026-11-27",
            "Measure me first",
            "qualified",
            "welder",
            "left",
            "H13",
        ] {
            assert!(page.svg.contains(told), "{told} is not on the page");
        }
        // The whole link, over several lines.
        let link: String = page
            .svg
            .split("class=\"template-link\"")
            .skip(1)
            .map(|rest| rest.split_once('>').unwrap().1.split_once('<').unwrap().0)
            .collect();
        assert_eq!(link, options.link);
        let code = page.qr.expect("room for a code");
        assert!(code.x + code.size <= width && code.y + code.size <= height);
    }
}

/// Tiles overlap, cover the whole sheet, and show register marks at the same places of the sheet.
#[test]
fn large_plates_are_tiled_with_register_marks() {
    let mut setup = Setup::default();
    setup.dropout.weld_length = 280.0;
    setup.name = "<b>&\"wide\"".to_owned();
    let template = cut_template(&setup, &CutOptions::default()).unwrap();
    assert!(template.tiled && template.rows == 2.0, "{} by {}", template.columns, template.rows);
    let mut shown = f64::INFINITY;
    let mut reach = 0.0_f64;
    for page in &template.pages {
        let tile = tags(&page.svg, "svg", "template-tile")[0];
        let view: Vec<f64> = attribute(tile, "viewBox").unwrap().split(' ').map(|side| side.parse().unwrap()).collect();
        let marks: Vec<[f64; 2]> = tags(&page.svg, "circle", "template-register")
            .into_iter()
            .map(|tag| [number(tag, "cx"), number(tag, "cy")])
            .collect();
        let seen = marks
            .iter()
            .filter(|[x, y]| *x > view[0] && *x < view[0] + view[2] && *y > view[1] && *y < view[1] + view[3])
            .count();
        assert!(seen >= 3, "page {} shows {seen} register marks", page.name);
        if page.row > 0.0 {
            assert_near(reach - view[1], template.overlap, 1e-9, "overlap");
        }
        (shown, reach) = (shown.min(view[1]), view[1] + view[3]);
        assert!(page.svg.contains("&lt;b&gt;&amp;") == (page.row == 0.0), "the name stands on the first page, as text");
        assert!(!page.svg.contains("<b>"));
    }
    assert_eq!(shown, 0.0);
    assert!(reach > 280.0 + 40.0);
    let whole = cut_file(&setup, "template_svg", &CutOptions::default()).unwrap();
    let root = whole.text.split_once('>').unwrap().0;
    assert!(number(root, "height") > 300.0 && whole.name.ends_with("-template.svg"));
}

#[test]
fn bad_options_are_refused_by_name() {
    let read = |name: &str, value: Given| CutOptions::read(&Given::Object(vec![(name.to_owned(), value)]));
    for (name, value) in [
        ("kerf", Given::from(5.5)),
        ("kerf", "wide".into()),
        ("paper", "a3".into()),
        ("metal", "wood".into()),
        ("date", Given::Flag(true)),
        ("other_side", "yes".into()),
        ("blade", Given::Nothing),
    ] {
        let problems = read(name, value).unwrap_err();
        assert_eq!(problems[0].field, format!("options.{name}"));
        assert!(problems[0].message.ends_with('.'));
    }
    assert_eq!(read("kerf", Given::from(0.2)).unwrap().kerf, 0.2);
    assert_eq!(CutOptions::read(&Given::Nothing).unwrap(), CutOptions::default());
    let unknown = cut_file(&Setup::default(), "step", &CutOptions::default()).unwrap_err();
    assert_eq!(unknown[0].field, "kind");
    assert!(FILE_KINDS.iter().all(|kind| cut_file(&Setup::default(), kind, &CutOptions::default()).is_ok()));
}

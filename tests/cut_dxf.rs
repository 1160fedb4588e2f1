//! What stands round the drawn things of a DXF file: extents, tables and the handles they refer to each other by.

#![allow(clippy::unwrap_used, clippy::panic, reason = "a test that cannot go on should stop")]

use std::collections::BTreeSet;

use tabwright_core::Setup;
use tabwright_core::cut::{CutOptions, cut_file, cut_sheet};
use tabwright_tests::assert_near;

/// Pairs of group code and value.
fn pairs(kind: &str) -> Vec<(i32, String)> {
    let text = cut_file(&Setup::default(), kind, &CutOptions::default()).unwrap().text;
    let lines: Vec<&str> = text.lines().collect();
    lines.chunks(2).map(|pair| (pair[0].parse().unwrap(), pair[1].to_owned())).collect()
}

fn is(pair: &(i32, String), code: i32, value: &str) -> bool {
    pair.0 == code && pair.1 == value
}

/// Two pieces, 10 mm apart, in one row: as wide as both and as high as the higher.
#[test]
fn extents_are_those_of_the_pieces() {
    let pieces = cut_sheet(&Setup::default(), &CutOptions::default()).unwrap().pieces;
    let wide = pieces.iter().map(|piece| piece.width).sum::<f64>() + 10.0;
    let high = pieces.iter().map(|piece| piece.height).fold(0.0, f64::max);
    for kind in ["dxf_r12", "dxf_r2000"] {
        let pairs = pairs(kind);
        for (name, expected) in [("$EXTMIN", [0.0, 0.0]), ("$EXTMAX", [wide, high])] {
            let at = pairs.iter().position(|pair| is(pair, 9, name)).unwrap_or_else(|| panic!("{kind}: no {name}"));
            let values: Vec<f64> = pairs[at + 1..at + 4].iter().map(|pair| pair.1.parse().unwrap()).collect();
            assert_eq!([pairs[at + 1].0, pairs[at + 2].0, pairs[at + 3].0], [10, 20, 30]);
            assert_near(values[0], expected[0], 1e-6, name);
            assert_near(values[1], expected[1], 1e-6, name);
            assert_near(values[2], 0.0, 0.0, name);
        }
    }
}

/// Sections open and close; a table has as many records as it says.
#[test]
fn sections_and_tables_are_whole() {
    for (kind, sections) in [
        ("dxf_r12", vec!["HEADER", "TABLES", "ENTITIES"]),
        ("dxf_r2000", vec!["HEADER", "CLASSES", "TABLES", "BLOCKS", "ENTITIES", "OBJECTS"]),
    ] {
        let pairs = pairs(kind);
        let named = |of: &str| -> Vec<String> {
            pairs.windows(2).filter(|pair| is(&pair[0], 0, of)).map(|pair| pair[1].1.clone()).collect()
        };
        let count = |value: &str| pairs.iter().filter(|pair| is(pair, 0, value)).count();
        assert_eq!(named("SECTION"), sections, "{kind}");
        assert_eq!((count("ENDSEC"), count("EOF")), (sections.len(), 1), "{kind}");
        for table in named("TABLE") {
            let start = pairs.windows(2).position(|pair| is(&pair[0], 0, "TABLE") && pair[1].1 == table).unwrap();
            let end = start + pairs[start..].iter().position(|pair| is(pair, 0, "ENDTAB")).unwrap();
            let own = &pairs[start + 1..end];
            let told: usize = own.iter().find(|pair| pair.0 == 70).unwrap().1.parse().unwrap();
            let records = own.iter().filter(|pair| is(pair, 0, &table)).count();
            assert_eq!(records, told, "{kind}: {table}");
            if table == "LAYER" {
                let names: Vec<&str> = own[1..].iter().filter(|pair| pair.0 == 2).map(|pair| pair.1.as_str()).collect();
                assert_eq!(names, ["0", "CUT", "HOLES", "MARKS"], "{kind}");
            }
        }
    }
}

/// What R2000 refers to is there: owners, layouts, dictionaries, plot styles.
#[test]
fn handles_that_are_referred_to_exist() {
    let pairs = pairs("dxf_r2000");
    let entities = pairs.iter().skip_while(|pair| !is(pair, 2, "TABLES"));
    let (mut given, mut wanted) = (BTreeSet::new(), BTreeSet::new());
    for (code, value) in entities {
        match code {
            5 | 105 => assert!(given.insert(value.clone()), "{value} twice"),
            330 | 340 | 350 | 390 if value != "0" => {
                wanted.insert(value.clone());
            }
            _ => {}
        }
    }
    assert!(wanted.len() > 8 && wanted.is_subset(&given), "{:?} are not there", wanted.difference(&given));
}

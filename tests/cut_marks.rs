//! Marks of the cutting files and what the sheet says on welding, each by the setup it speaks of.

#![allow(clippy::unwrap_used, clippy::panic, reason = "a test that cannot go on should stop")]

use std::collections::BTreeSet;

use serde_json::json;
use tabwright_core::cut::{CutOptions, Joining, Segment, cut_file, cut_sheet, pieces};
use tabwright_core::{Mount, Setup};
use tabwright_tests::{assert_near, setup_with};

fn setups() -> Vec<Setup> {
    let mut setups: Vec<Setup> = [
        json!({}),
        json!({"side": "right", "dropout": {"closed": true}, "fork": {"axle_offset": 8}}),
        json!({"tab": {"build": "butt_welded", "weld_gap": 1.5}, "fork": {"tube_gap": 114}}),
        json!({"tab": {"build": "on_existing", "weld_gap": 1}}),
        json!({"tab": {"offset": 2.5}, "fork": {"tube_gap": 108}}),
        json!({"tab": {"offset": -2.5}}),
        json!({"tab": {"offset": 6}}),
        json!({"tab": {"offset": -8.5}}),
    ]
    .iter()
    .map(setup_with)
    .collect();
    let mut posts = Setup::default();
    (posts.caliper.mount, posts.caliper.bolt_direction) = (Mount::Post, Some([0.0, -1.0, 0.0]));
    setups.push(posts);
    setups
}

/// The drawn things of a DXF as their kind and their values by code.
fn entities(text: &str) -> Vec<(String, Vec<(i32, String)>)> {
    let lines: Vec<&str> = text.lines().collect();
    let pairs = lines.chunks(2).map(|pair| (pair[0].trim().parse::<i32>().unwrap(), pair[1].to_owned()));
    let mut found: Vec<(String, Vec<(i32, String)>)> = Vec::new();
    for (code, value) in pairs.skip_while(|pair| *pair != (2, "ENTITIES".to_owned())).skip(1) {
        match (code, found.last_mut()) {
            (0, _) if value == "ENDSEC" => break,
            (0, _) => found.push((value, Vec::new())),
            (_, Some((_, values))) => values.push((code, value)),
            _ => panic!("{code} before the first"),
        }
    }
    found
}

/// Every hole, and the axle of a slotted piece, has a cross of two lines square to each other, centred on it; nothing else.
#[test]
fn every_hole_of_a_cutting_file_is_marked_with_a_cross() {
    for setup in setups() {
        let cut = pieces(&setup).unwrap();
        for kind in ["dxf_r12", "dxf_r2000"] {
            let file = cut_file(&setup, kind, &CutOptions::default()).unwrap().text;
            let drawn = entities(&file);
            let number = |values: &[(i32, String)], code: i32| {
                values.iter().find(|(one, _)| *one == code).map(|(_, value)| value.parse::<f64>().unwrap()).unwrap()
            };
            let lines: Vec<[f64; 4]> = drawn
                .iter()
                .filter(|(kind, _)| kind == "LINE")
                .map(|(_, values)| [10, 20, 11, 21].map(|code| number(values, code)))
                .collect();
            let axles = cut.pieces.iter().filter(|piece| {
                piece.key != tabwright_core::cut::PieceKey::Tab && piece.holes.iter().all(|hole| hole.name != "axle")
            });
            let holes: usize = cut.pieces.iter().map(|piece| piece.holes.len()).sum();
            assert_eq!(lines.len(), 2 * (holes + axles.count()), "{kind}");
            for pair in lines.chunks(2) {
                let [across, up] = [pair[0], pair[1]];
                let middle = |[x1, y1, x2, y2]: [f64; 4]| [(x1 + x2) / 2.0, (y1 + y2) / 2.0];
                assert!(across[1] == across[3] && up[0] == up[2], "{pair:?} is no upright cross");
                let long = across[2] - across[0];
                assert!((2.0..20.0).contains(&long), "an arm of {long}");
                assert_near(up[3] - up[1], long, 1e-6, "equal arms");
                for axis in 0..2 {
                    assert_near(middle(across)[axis], middle(up)[axis], 1e-6, "arms cross in their middles");
                }
            }
            let circles = drawn.iter().filter(|(kind, _)| kind == "CIRCLE");
            for (_, values) in circles {
                let at = [number(values, 10), number(values, 20)];
                let is_centre = |line: &&[f64; 4]| {
                    ((line[0] + line[2]) / 2.0 - at[0]).hypot((line[1] + line[3]) / 2.0 - at[1]) < 1e-6
                };
                assert_eq!(lines.iter().filter(is_centre).count(), 2, "a cross on the hole at {at:?}");
            }
            let handles: Vec<&str> = drawn
                .iter()
                .flat_map(|(_, values)| values.iter().filter(|(code, _)| *code == 5).map(|(_, value)| value.as_str()))
                .collect();
            assert_eq!(handles.len(), if kind == "dxf_r2000" { drawn.len() } else { 0 });
            assert_eq!(handles.iter().collect::<BTreeSet<_>>().len(), handles.len(), "a handle twice");
            assert!(handles.iter().all(|handle| u32::from_str_radix(handle, 16).is_ok_and(|handle| handle >= 0x100)));
        }
    }
}

#[test]
fn notes_on_welding_are_those_of_the_joint() {
    let mut met = Vec::new();
    for setup in setups() {
        let (cut, sheet) = (pieces(&setup).unwrap(), cut_sheet(&setup, &CutOptions::default()).unwrap());
        let (weld, offset, thick) = (&sheet.weld, setup.tab.offset, setup.dropout.thickness);
        met.push(cut.joining);
        let is_gapped = matches!(cut.joining, Joining::Butted | Joining::Stepped | Joining::OnExisting);
        assert_eq!(weld.gap, is_gapped.then_some(setup.tab.weld_gap));
        assert_eq!((weld.lap, weld.leg), (setup.dropout.weld_length, setup.load.weld.leg));
        let words = weld.joints.join("\n");
        let told = |value: f64| format!("{value:.1} mm");
        let (by, way) = (told(offset.abs()), if offset > 0.0 { "outboard" } else { "inboard" });
        assert_eq!(
            words.contains(&format!("{by} {way}")),
            matches!(cut.joining, Joining::Stepped | Joining::Lapped),
            "{words}"
        );
        assert_eq!(words.contains(&format!("gap of {} mm", setup.tab.weld_gap)), is_gapped, "{words}");
        assert_eq!(words.contains("one piece"), cut.joining == Joining::OnePiece, "{words}");
        assert_eq!(words.contains("no fillet of its own"), is_gapped, "{words}");
        assert_eq!(words.contains("laps on the tube"), cut.joining != Joining::OnExisting, "{words}");
        assert_eq!(words.contains("bosses"), cut.joining == Joining::Posts, "{words}");
        if cut.joining == Joining::Lapped {
            let between = offset.abs() - thick;
            assert_eq!(words.contains("lies flat"), between < 0.05, "{words}");
            assert_eq!(words.contains(&format!("{} between their faces", told(between))), between >= 0.05, "{words}");
            // A square millimetre is a hundredth of a square centimetre.
            assert!(words.contains(&format!("{} cm²", (cut.lap_area / 10.0).round() / 10.0)), "{words}");
        }
        let recess = setup.wheel.hub_width / 2.0 + thick - setup.fork.tube_gap / 2.0;
        let side = &weld.side;
        assert_eq!(side.starts_with("Both"), recess > 1e-6, "{side}");
        assert!(recess.abs() < 1e-6 || side.contains(&told(recess.abs())), "{side}");
        let tacks = weld.tacks.join("\n");
        assert_eq!(tacks.contains("lap"), cut.joining != Joining::OnExisting, "{tacks}");
        let has_tab = !matches!(cut.joining, Joining::OnePiece | Joining::Posts);
        assert_eq!(tacks.contains("Clamp the tab"), has_tab, "{tacks}");
        assert_eq!(tacks.contains("boss"), cut.joining == Joining::Posts, "{tacks}");
        // What keeps people whole is on every sheet, in order.
        let at = |words: &str| {
            weld.checklist.iter().position(|line| line.contains(words)).unwrap_or_else(|| panic!("no {words}"))
        };
        assert!(at("Tack.") < at("Mock up") && at("Mock up") < at("Weld in short runs"));
        assert!(at("Weld in short runs") < at("Proof-test"));
        let cautions = weld.cautions.join("\n");
        assert!(
            ["qualified welder", "not an approval", "fume", "chlorinated"].iter().all(|words| cautions.contains(words))
        );
    }
    for joining in
        [Joining::OnePiece, Joining::Butted, Joining::OnExisting, Joining::Stepped, Joining::Lapped, Joining::Posts]
    {
        assert!(met.contains(&joining), "{joining:?} is not met: {met:?}");
    }
}

/// A path tells of an arc its ends and its radius: a last decimal of that moves the middle of a flat one by much more.
#[test]
fn arcs_of_the_cutting_drawing_keep_their_radius() {
    let setup = setup_with(&json!({"tab": {"fillet_radius": 5.4321987, "edge": 9.8765432}}));
    let radii: Vec<f64> = pieces(&setup)
        .unwrap()
        .pieces
        .iter()
        .flat_map(|piece| piece.region.segments())
        .filter_map(|edge| match edge {
            Segment::Arc { radius, .. } => Some(radius),
            Segment::Line { .. } => None,
        })
        .collect();
    let svg = cut_file(&setup, "svg", &CutOptions::default()).unwrap().text;
    let written: Vec<f64> = svg
        .split('A')
        .skip(1)
        .filter_map(|arc| arc.split_once(' ').and_then(|(radius, _)| radius.parse().ok()))
        .collect();
    assert!(written.len() >= radii.len());
    for radius in written {
        assert!(radii.iter().any(|one| (one - radius).abs() < 1e-7), "{radius} is of no arc");
    }
}

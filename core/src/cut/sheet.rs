//! The cut sheet, the files and the template of a setup.

use super::cutting_svg::cutting_svg;
use super::draw::{draw, title};
use super::dxf::{self, DxfVersion};
use super::gaps::{CutGap, gaps_as_cut};
use super::hole_table::{Dimension, HoleEntry, PostLayout, checks, fit_class, hole_table, post_layout, sizes};
use super::layout::{lay_out, widened};
use super::notes::{WeldNotes, weld_notes};
use super::options::CutOptions;
use super::pieces::{Joining, PieceKey, Pieces, pieces};
use super::sections::{Section, sections};
use super::slot::warning;
use super::tables::{CLEARANCE_HOLES, HoleRow, ToleranceRow, density, tolerance_rows};
use super::template::{Template, is_wanted, template, whole};
use crate::fit::{Joint, Outcome, recess, report};
use crate::plain::plain;
use crate::setup::{Material, Problem, Setup, Side, Warning};
use crate::words::{length, number};

/// All that a builder cuts, drills and welds from. Lengths mm, areas mm², masses kg, points `[back, up]` in the leg frame.
#[derive(Clone, Debug)]
pub struct CutSheet {
    /// How plate and tab come together.
    pub build: Joining,
    /// The same in words.
    pub build_sentence: String,
    /// The pieces to cut.
    pub pieces: Vec<PieceReport>,
    /// The holes.
    pub holes: Vec<HoleEntry>,
    /// Sizes to lay the pieces out from.
    pub sizes: Vec<Dimension>,
    /// What to measure while tacking.
    pub checks: Vec<Dimension>,
    /// The posts of a post mount.
    pub posts: Option<PostLayout>,
    /// The narrow places.
    pub sections: Vec<Section>,
    /// Gaps with the fillets as cut.
    pub gaps: Vec<CutGap>,
    /// The metal weighed.
    pub metal: MetalReport,
    /// Mass of all pieces, kg.
    pub mass: f64,
    /// Class of general tolerances and its rows.
    pub tolerances: TolerancesReport,
    /// Fit of the holes and its rows.
    pub hole_fit: HoleFitReport,
    /// Before and while welding.
    pub weld: WeldNotes,
    /// What is unusual, each with its remedy.
    pub warnings: Vec<Warning>,
}

plain!(CutSheet {
    build,
    build_sentence,
    pieces,
    holes,
    sizes,
    checks,
    posts,
    sections,
    gaps,
    metal,
    mass,
    tolerances,
    hole_fit,
    weld,
    warnings,
});

/// One piece to cut.
#[derive(Clone, Debug)]
pub struct PieceReport {
    /// Which it is.
    pub key: PieceKey,
    /// In words.
    pub title: &'static str,
    /// Drawing as SVG text.
    pub svg: String,
    /// Across, as it is drawn.
    pub width: f64,
    /// Upright, as it is drawn.
    pub height: f64,
    /// Thickness.
    pub thickness: f64,
    /// Area of material.
    pub area: f64,
    /// Length of all cuts.
    pub cut_length: f64,
    /// Mass.
    pub mass: f64,
    /// Radius of the inner corners.
    pub fillet_radius: f64,
    /// How many round holes it has.
    pub hole_count: f64,
}

plain!(PieceReport { key, title, svg, width, height, thickness, area, cut_length, mass, fillet_radius, hole_count });

/// The metal weighed.
#[derive(Clone, Debug)]
pub struct MetalReport {
    /// Its word in a setup file.
    pub key: Material,
    /// In words.
    pub label: &'static str,
    /// Density, g/cm³.
    pub density: f64,
}

plain!(MetalReport { key, label, density });

/// General tolerances.
#[derive(Clone, Debug)]
pub struct TolerancesReport {
    /// Class of ISO 2768-1.
    pub class: &'static str,
    /// Its row.
    pub rows: [ToleranceRow; 6],
}

plain!(TolerancesReport { class, rows });

/// Clearance holes.
#[derive(Clone, Debug)]
pub struct HoleFitReport {
    /// Word of the fit.
    pub fit: &'static str,
    /// Class of the diameter.
    pub class: &'static str,
    /// The table of ISO 273.
    pub rows: [HoleRow; 2],
}

plain!(HoleFitReport { fit, class, rows });

/// A file to save.
#[derive(Clone, Debug)]
pub struct CutFile {
    /// A name that says what it holds.
    pub name: String,
    /// Media type.
    pub mime: &'static str,
    /// What is in it.
    pub text: String,
}

plain!(CutFile { name, mime, text });

/// How plate and tab come together, in a word or three.
pub(super) fn joining_word(joining: Joining) -> &'static str {
    match joining {
        Joining::OnePiece => "One piece",
        Joining::Butted => "Two pieces, butted",
        Joining::OnExisting => "Tab for a dropout that is there",
        Joining::Stepped => "Two pieces, butted with a step",
        Joining::Lapped => "Two pieces, lapped",
        Joining::Posts => "Dropout for posts",
    }
}

/// Works out the cut sheet of a setup.
///
/// # Errors
/// The reason where a piece cannot be made: field, value, and what to do about it.
///
/// ```
/// use tabwright_core::{Setup, cut::{CutOptions, cut_sheet}};
/// let sheet = cut_sheet(&Setup::default(), &CutOptions::default()).unwrap();
/// assert_eq!(sheet.pieces.len(), 2);
/// assert!(sheet.warnings.is_empty());
/// ```
pub fn cut_sheet(setup: &Setup, options: &CutOptions) -> Result<CutSheet, Vec<Problem>> {
    let mut cut = pieces(setup)?;
    cut.pieces.retain(|piece| is_wanted(piece.key, options));
    let sections = sections(setup, &cut);
    let gaps = gaps_as_cut(setup)?;
    let metal = options.metal.unwrap_or(setup.load.material);
    let thickness = setup.dropout.thickness;
    // g/cm³ are millionths of a kg per mm³.
    let mass = |area: f64| area * thickness * density(metal) * 1e-6;
    let reports: Vec<PieceReport> = cut
        .pieces
        .iter()
        .map(|piece| {
            let [low, high] = piece.region.outer.bounds();
            let edges: f64 = piece.region.segments().map(|segment| segment.length()).sum();
            let rims: f64 = piece.holes.iter().map(|hole| std::f64::consts::PI * hole.diameter).sum();
            PieceReport {
                key: piece.key,
                title: title(piece.key),
                svg: draw(setup, &cut, piece, &sections),
                width: high[0] - low[0],
                height: high[1] - low[1],
                thickness,
                area: piece.area(),
                cut_length: edges + rims,
                mass: mass(piece.area()),
                fillet_radius: piece.fillet_radius,
                hole_count: piece.holes.len() as f64,
            }
        })
        .collect();
    let mut warnings = cut.warnings.clone();
    warnings.extend(thin(&sections));
    warnings.extend(near(setup, &gaps));
    warnings.extend(as_a_whole(setup)?);
    let posts = post_layout(setup, &cut);
    if posts.as_ref().is_some_and(|posts| posts.boss_length.contains(&None)) {
        let message = "A post's bolt points past the dropout: its boss would have nothing to stand on. Turn the clock angle, or carry the post on a gusset of your own.".to_owned();
        warnings.push(warning("tab.clock", setup.tab.clock, message));
    }
    Ok(CutSheet {
        build: cut.joining,
        build_sentence: joining_word(cut.joining).to_owned() + ".",
        holes: hole_table(setup, &cut),
        sizes: sizes(setup, &cut),
        checks: checks(setup, &cut),
        posts,
        sections,
        gaps,
        metal: MetalReport { key: metal, label: metal_label(metal), density: density(metal) },
        mass: reports.iter().map(|piece| piece.mass).sum(),
        pieces: reports,
        tolerances: TolerancesReport {
            class: setup.cut.tolerance_class.word(),
            rows: tolerance_rows(setup.cut.tolerance_class),
        },
        hole_fit: HoleFitReport {
            fit: setup.cut.hole_fit.word(),
            class: fit_class(setup.cut.hole_fit),
            rows: CLEARANCE_HOLES,
        },
        weld: weld_notes(setup, &cut),
        warnings,
    })
}

fn metal_label(metal: Material) -> &'static str {
    match metal {
        Material::MildSteel => "mild steel",
        Material::CrMo4130 => "4130 steel",
        Material::Stainless304 => "stainless steel 304",
        Material::Aluminium6061 => "aluminium 6061-T6",
        Material::A36 => "A36 steel",
        Material::ColdDrawn1018 => "1018 steel, cold drawn",
        Material::HotRolled1018 => "1018 steel, hot rolled",
        Material::Own => "steel, taken for your own values",
    }
}

/// Places that are narrower than the builder accepts.
fn thin(sections: &[Section]) -> Vec<Warning> {
    let thin = sections.iter().filter(|section| !section.ok);
    thin.map(|section| {
        let message = format!(
            "{}: {} of material, less than the {} you accept. {}",
            section.label,
            length(section.width),
            length(section.least),
            section.remedy
        );
        warning(section.field, section.width, message)
    })
    .collect()
}

/// Gaps that the fillets make worse than the verdict has them.
fn near(setup: &Setup, gaps: &[CutGap]) -> Vec<Warning> {
    let worse = gaps.iter().filter(|gap| gap.verdict > gap.sharp_verdict);
    worse
        .map(|gap| {
            let remedy = match gap.largest_fillet {
                // Rounded down, so that it does.
                Some(radius) => format!("Ask for fillets of {} at most.", length((radius * 10.0).floor() / 10.0)),
                None => "Ask for smaller fillets, or move the caliper.".to_owned(),
            };
            let what = if gap.gap < 0.0 { "hits the plate" } else { "comes too near the plate" };
            let message = format!(
                "With its fillets of {} as cut, the {} {what}: {} instead of {} without, where {} is wanted. {remedy}",
                length(setup.tab.fillet_radius),
                gap.part,
                length(gap.gap),
                length(gap.sharp),
                length(gap.required)
            );
            warning("tab.fillet_radius", gap.gap, message)
        })
        .collect()
}

/// What the verdict on the setup as a whole means for cutting it.
fn as_a_whole(setup: &Setup) -> Result<Vec<Warning>, Vec<Problem>> {
    let report = report(setup)?;
    let mut warnings = Vec::new();
    if report.verdict >= Outcome::Hits {
        let message = format!("This setup does not fit: {} Do not cut it as it is.", report.summary);
        warnings.push(warning("", 0.0, message));
    }
    let recess = recess(setup);
    if recess.joint == Joint::Short {
        let message = format!(
            "The dropout ends {} short of the tube. Pack it, take a thicker plate, or change the width between the tubes.",
            length(-recess.value)
        );
        warnings.push(warning("fork.tube_gap", recess.value, message));
    }
    Ok(warnings)
}

/// The kinds of [`cut_file`].
pub const FILE_KINDS: [&str; 4] = ["dxf_r12", "dxf_r2000", "svg", "template_svg"];

/// A file of a setup: `dxf_r12` or `dxf_r2000` with layers CUT, HOLES and MARKS, `svg` for cutting, or `template_svg`,
/// the whole template as one drawing; all in mm at 1:1, the pieces beside each other as seen on their outer faces.
///
/// # Errors
/// As [`cut_sheet`]; a kind that there is not; a cut so wide that a slot or hole closes up.
///
/// ```
/// use tabwright_core::{Setup, cut::{CutOptions, cut_file}};
/// let file = cut_file(&Setup::default(), "dxf_r12", &CutOptions::default()).unwrap();
/// assert_eq!(file.name, "tabwright-rotor-203-hub-100-left-cut-r12.dxf");
/// ```
pub fn cut_file(setup: &Setup, kind: &str, options: &CutOptions) -> Result<CutFile, Vec<Problem>> {
    let mut cut = pieces(setup)?;
    cut.pieces.retain(|piece| is_wanted(piece.key, options));
    let flat = |cut: &Pieces| lay_out(setup, cut, f64::INFINITY);
    let (ending, mime, text) = match kind {
        "dxf_r12" => {
            ("cut-r12.dxf", "image/vnd.dxf", dxf::write(&flat(&widened(&cut, options.kerf)?), DxfVersion::R12))
        }
        "dxf_r2000" => {
            ("cut-r2000.dxf", "image/vnd.dxf", dxf::write(&flat(&widened(&cut, options.kerf)?), DxfVersion::R2000))
        }
        "svg" => ("cut.svg", "image/svg+xml", cutting_svg(&flat(&widened(&cut, options.kerf)?))),
        "template_svg" => ("template.svg", "image/svg+xml", whole(setup, &cut)),
        other => {
            let message = format!("There is no file \"{other}\". Ask for dxf_r12, dxf_r2000, svg or template_svg.");
            return Err(vec![Problem { field: "kind".to_owned(), value: other.chars().take(40).collect(), message }]);
        }
    };
    Ok(CutFile { name: file_name(setup, ending, options.kerf), mime, text })
}

/// The 1:1 template on pages of paper.
///
/// # Errors
/// As [`cut_sheet`].
///
/// ```
/// use tabwright_core::{Setup, cut::{CutOptions, cut_template}};
/// let template = cut_template(&Setup::default(), &CutOptions::default()).unwrap();
/// assert_eq!(template.pages[0].width, 210.0);
/// ```
pub fn cut_template(setup: &Setup, options: &CutOptions) -> Result<Template, Vec<Problem>> {
    let mut cut = pieces(setup)?;
    cut.pieces.retain(|piece| is_wanted(piece.key, options));
    Ok(template(setup, &cut, options))
}

/// Rotor, hub and side, so that files of several setups keep apart.
fn file_name(setup: &Setup, ending: &str, kerf: f64) -> String {
    let side = match setup.side {
        Side::Left => "left",
        Side::Right => "right",
    };
    let (rotor, hub) = (number(setup.wheel.rotor_diameter), number(setup.wheel.hub_width));
    let kerf =
        if kerf > 0.0 && !ending.starts_with("template") { format!("kerf-{}-", number(kerf)) } else { String::new() };
    format!("tabwright-rotor-{rotor}-hub-{hub}-{side}-{kerf}{ending}")
}

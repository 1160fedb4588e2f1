//! DXF files: closed polylines with bulges, circles, and layers CUT, HOLES and MARKS.
//!
//! R12 has POLYLINE with its vertices and no units; R2000 has LWPOLYLINE and says millimetres. Source of the group codes:
//! the published DXF references; a bulge is the tangent of a quarter of an arc's angle, negative where it runs clockwise.

use super::layout::Layout;
use super::path::Outline;
use crate::words::exact;

/// Version of the format.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum DxfVersion {
    /// Release 12, for old controllers.
    R12,
    /// Release 2000.
    R2000,
}

const LAYERS: [(&str, &str); 3] = [("CUT", "7"), ("HOLES", "1"), ("MARKS", "3")];
/// Half a punch mark's cross, mm.
const CROSS: f64 = 2.0;

/// A file being written: pairs of group code and value, and the last handle given out.
struct Writer {
    text: String,
    version: DxfVersion,
    handle: u32,
    /// Handle of the record that owns what is drawn.
    owner: String,
}

impl Writer {
    fn put(&mut self, code: &str, value: &str) {
        for piece in [code, "\n", value, "\n"] {
            self.text.push_str(piece);
        }
    }

    fn all(&mut self, pairs: &[(&str, &str)]) {
        for (code, value) in pairs {
            self.put(code, value);
        }
    }

    fn number(&mut self, code: &str, value: f64) {
        let digits = exact(value, 9);
        self.put(code, &digits);
    }

    fn next_handle(&mut self) -> String {
        self.handle += 1;
        format!("{:X}", self.handle)
    }

    /// The head of a drawn thing; its handle and class in R2000.
    fn entity(&mut self, kind: &str, layer: &str, class: &str) {
        self.put("0", kind);
        if self.version == DxfVersion::R2000 {
            let (handle, owner) = (self.next_handle(), self.owner.clone());
            self.all(&[("5", &handle), ("330", &owner), ("100", "AcDbEntity"), ("8", layer), ("100", class)]);
        } else {
            self.put("8", layer);
        }
    }

    fn outline(&mut self, outline: &Outline) {
        let count = outline.corners.len().to_string();
        match self.version {
            DxfVersion::R12 => {
                self.entity("POLYLINE", "CUT", "");
                self.all(&[("66", "1"), ("70", "1"), ("10", "0"), ("20", "0"), ("30", "0")]);
                for corner in &outline.corners {
                    self.all(&[("0", "VERTEX"), ("8", "CUT")]);
                    self.number("10", corner.x);
                    self.number("20", corner.y);
                    self.put("30", "0");
                    self.number("42", corner.bulge);
                }
                self.all(&[("0", "SEQEND"), ("8", "CUT")]);
            }
            DxfVersion::R2000 => {
                self.entity("LWPOLYLINE", "CUT", "AcDbPolyline");
                self.all(&[("90", &count), ("70", "1")]);
                for corner in &outline.corners {
                    self.number("10", corner.x);
                    self.number("20", corner.y);
                    self.number("42", corner.bulge);
                }
            }
        }
    }

    fn circle(&mut self, layer: &str, [x, y]: [f64; 2], radius: f64) {
        self.entity("CIRCLE", layer, "AcDbCircle");
        self.number("10", x);
        self.number("20", y);
        self.put("30", "0");
        self.number("40", radius);
    }

    fn line(&mut self, layer: &str, from: [f64; 2], to: [f64; 2]) {
        self.entity("LINE", layer, "AcDbLine");
        for (codes, [x, y]) in [(["10", "20", "30"], from), (["11", "21", "31"], to)] {
            self.number(codes[0], x);
            self.number(codes[1], y);
            self.put(codes[2], "0");
        }
    }

    fn cross(&mut self, [x, y]: [f64; 2]) {
        self.line("MARKS", [x - CROSS, y], [x + CROSS, y]);
        self.line("MARKS", [x, y - CROSS], [x, y + CROSS]);
    }
}

/// The file of a layout.
pub(super) fn write(layout: &Layout, version: DxfVersion) -> String {
    let mut file = Writer { text: String::new(), version, handle: 0x100, owner: "1F".to_owned() };
    match version {
        DxfVersion::R12 => head_r12(&mut file, layout),
        DxfVersion::R2000 => head_r2000(&mut file, layout),
    }
    file.all(&[("0", "SECTION"), ("2", "ENTITIES")]);
    for piece in &layout.placed {
        for outline in piece.region.outlines() {
            file.outline(outline);
        }
        for hole in &piece.holes {
            file.circle("HOLES", hole.centre, hole.diameter / 2.0);
            file.cross(hole.centre);
        }
        if piece.has_axle && piece.holes.iter().all(|hole| hole.name != "axle") {
            file.cross(piece.axle);
        }
    }
    file.put("0", "ENDSEC");
    if version == DxfVersion::R2000 {
        objects(&mut file);
    }
    file.put("0", "EOF");
    file.text
}

fn extents(file: &mut Writer, layout: &Layout) {
    for (name, [x, y]) in [("$EXTMIN", [0.0, 0.0]), ("$EXTMAX", layout.size)] {
        file.put("9", name);
        file.number("10", x);
        file.number("20", y);
        file.put("30", "0");
    }
}

fn head_r12(file: &mut Writer, layout: &Layout) {
    file.all(&[("0", "SECTION"), ("2", "HEADER"), ("9", "$ACADVER"), ("1", "AC1009")]);
    extents(file, layout);
    file.all(&[("0", "ENDSEC"), ("0", "SECTION"), ("2", "TABLES")]);
    file.all(&[("0", "TABLE"), ("2", "LTYPE"), ("70", "1"), ("0", "LTYPE"), ("2", "CONTINUOUS"), ("70", "0")]);
    file.all(&[("3", "Solid line"), ("72", "65"), ("73", "0"), ("40", "0"), ("0", "ENDTAB")]);
    file.all(&[("0", "TABLE"), ("2", "LAYER"), ("70", "4")]);
    for (name, colour) in [("0", "7")].into_iter().chain(LAYERS) {
        file.all(&[("0", "LAYER"), ("2", name), ("70", "0"), ("62", colour), ("6", "CONTINUOUS")]);
    }
    file.all(&[("0", "ENDTAB"), ("0", "ENDSEC")]);
}

/// Handles that the tables of the smallest R2000 file refer to each other by.
const MODEL_SPACE: &str = "1F";
const PAPER_SPACE: &str = "1E";

fn head_r2000(file: &mut Writer, layout: &Layout) {
    file.all(&[("0", "SECTION"), ("2", "HEADER"), ("9", "$ACADVER"), ("1", "AC1015"), ("9", "$INSUNITS"), ("70", "4")]);
    file.all(&[("9", "$MEASUREMENT"), ("70", "1"), ("9", "$HANDSEED"), ("5", "FFFF")]);
    extents(file, layout);
    file.all(&[
        ("0", "ENDSEC"),
        ("0", "SECTION"),
        ("2", "CLASSES"),
        ("0", "ENDSEC"),
        ("0", "SECTION"),
        ("2", "TABLES"),
    ]);
    table(file, "VPORT", "8", "0", |_| {});
    table(file, "LTYPE", "5", "3", |file| {
        for (handle, name, about) in [("14", "ByBlock", ""), ("15", "ByLayer", ""), ("16", "Continuous", "Solid line")]
        {
            record(file, "LTYPE", handle, "5", "AcDbLinetypeTableRecord", name);
            file.all(&[("70", "0"), ("3", about), ("72", "65"), ("73", "0"), ("40", "0")]);
        }
    });
    table(file, "LAYER", "2", "4", |file| {
        let handles = ["10", "11", "12", "13"];
        for (handle, (name, colour)) in handles.into_iter().zip([("0", "7")].into_iter().chain(LAYERS)) {
            record(file, "LAYER", handle, "2", "AcDbLayerTableRecord", name);
            file.all(&[("70", "0"), ("62", colour), ("6", "Continuous"), ("370", "-3"), ("390", "F")]);
        }
    });
    table(file, "STYLE", "3", "1", |file| {
        record(file, "STYLE", "17", "3", "AcDbTextStyleTableRecord", "Standard");
        file.all(&[
            ("70", "0"),
            ("40", "0"),
            ("41", "1"),
            ("50", "0"),
            ("71", "0"),
            ("42", "2.5"),
            ("3", "txt"),
            ("4", ""),
        ]);
    });
    table(file, "VIEW", "6", "0", |_| {});
    table(file, "UCS", "7", "0", |_| {});
    table(file, "APPID", "9", "1", |file| {
        record(file, "APPID", "18", "9", "AcDbRegAppTableRecord", "ACAD");
        file.put("70", "0");
    });
    // The one table with a class of its own, and the one whose records have their handle under 105.
    file.all(&[("0", "TABLE"), ("2", "DIMSTYLE"), ("5", "A"), ("330", "0"), ("100", "AcDbSymbolTable"), ("70", "1")]);
    file.all(&[("100", "AcDbDimStyleTable"), ("71", "0"), ("0", "DIMSTYLE"), ("105", "19"), ("330", "A")]);
    file.all(&[("100", "AcDbSymbolTableRecord"), ("100", "AcDbDimStyleTableRecord"), ("2", "Standard"), ("70", "0")]);
    file.put("0", "ENDTAB");
    table(file, "BLOCK_RECORD", "1", "2", |file| {
        for (handle, name, layout) in [(MODEL_SPACE, "*Model_Space", "22"), (PAPER_SPACE, "*Paper_Space", "23")] {
            record(file, "BLOCK_RECORD", handle, "1", "AcDbBlockTableRecord", name);
            file.put("340", layout);
        }
    });
    file.all(&[("0", "ENDSEC"), ("0", "SECTION"), ("2", "BLOCKS")]);
    for (owner, name, handles) in
        [(MODEL_SPACE, "*Model_Space", ["20", "21"]), (PAPER_SPACE, "*Paper_Space", ["1C", "1D"])]
    {
        file.all(&[("0", "BLOCK"), ("5", handles[0]), ("330", owner), ("100", "AcDbEntity"), ("8", "0")]);
        file.all(&[("100", "AcDbBlockBegin"), ("2", name), ("70", "0"), ("10", "0"), ("20", "0"), ("30", "0")]);
        file.all(&[("3", name), ("1", ""), ("0", "ENDBLK"), ("5", handles[1]), ("330", owner), ("100", "AcDbEntity")]);
        file.all(&[("8", "0"), ("100", "AcDbBlockEnd")]);
    }
    file.put("0", "ENDSEC");
}

fn table(file: &mut Writer, name: &str, handle: &str, count: &str, records: impl FnOnce(&mut Writer)) {
    file.all(&[("0", "TABLE"), ("2", name), ("5", handle), ("330", "0"), ("100", "AcDbSymbolTable"), ("70", count)]);
    records(file);
    file.put("0", "ENDTAB");
}

fn record(file: &mut Writer, kind: &str, handle: &str, owner: &str, class: &str, name: &str) {
    file.all(&[
        ("0", kind),
        ("5", handle),
        ("330", owner),
        ("100", "AcDbSymbolTableRecord"),
        ("100", class),
        ("2", name),
    ]);
}

/// The named objects without which readers of R2000 do not start.
fn objects(file: &mut Writer) {
    file.all(&[("0", "SECTION"), ("2", "OBJECTS")]);
    file.all(&[("0", "DICTIONARY"), ("5", "C"), ("330", "0"), ("100", "AcDbDictionary"), ("281", "1")]);
    file.all(&[
        ("3", "ACAD_GROUP"),
        ("350", "D"),
        ("3", "ACAD_LAYOUT"),
        ("350", "1A"),
        ("3", "ACAD_PLOTSTYLENAME"),
        ("350", "E"),
    ]);
    file.all(&[("0", "DICTIONARY"), ("5", "D"), ("330", "C"), ("100", "AcDbDictionary"), ("281", "1")]);
    file.all(&[("0", "ACDBDICTIONARYWDFLT"), ("5", "E"), ("330", "C"), ("100", "AcDbDictionary"), ("281", "1")]);
    file.all(&[("3", "Normal"), ("350", "F"), ("100", "AcDbDictionaryWithDefault"), ("340", "F")]);
    file.all(&[("0", "ACDBPLACEHOLDER"), ("5", "F"), ("330", "E")]);
    file.all(&[("0", "DICTIONARY"), ("5", "1A"), ("330", "C"), ("100", "AcDbDictionary"), ("281", "1")]);
    file.all(&[("3", "Layout1"), ("350", "23"), ("3", "Model"), ("350", "22")]);
    for (handle, name, order, block, flags) in
        [("22", "Model", "0", MODEL_SPACE, "1024"), ("23", "Layout1", "1", PAPER_SPACE, "0")]
    {
        file.all(&[("0", "LAYOUT"), ("5", handle), ("330", "1A"), ("100", "AcDbPlotSettings"), ("1", ""), ("2", "")]);
        file.all(&[
            ("4", ""),
            ("6", ""),
            ("70", flags),
            ("100", "AcDbLayout"),
            ("1", name),
            ("70", "1"),
            ("71", order),
        ]);
        file.all(&[("330", block)]);
    }
    file.put("0", "ENDSEC");
}

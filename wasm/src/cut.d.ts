/** How a sheet or file is wanted; what is left out has its default. */
export interface CutOptions {
    /** Metal to weigh; the setup's own where it is left out. */
    metal?: "mild_steel" | "4130" | "stainless_304" | "6061_t6";
    /** Width of the cut in mm, 0 to 5: files are larger by half of it, their holes smaller. */
    kerf?: number;
    paper?: "a4" | "letter";
    date?: string;
    link?: string;
    /** Whether the other leg's dropout is wanted too; it is unless switched off. */
    other_side?: boolean;
}

export type CutPieceKey = "plate" | "dropout" | "tab" | "other_side";
/** [back, up] in the leg frame, mm. */
export type FlatPoint = [number, number];

export interface CutPiece {
    key: CutPieceKey;
    title: string;
    /** Seen on the outer face; viewBox in mm. */
    svg: string;
    width: number;
    height: number;
    thickness: number;
    /** mm². */
    area: number;
    cut_length: number;
    /** kg. */
    mass: number;
    fillet_radius: number;
    hole_count: number;
}

export interface CutHole {
    name: "A" | "B" | "axle";
    /** None with posts. */
    piece: CutPieceKey | null;
    kind: "clearance" | "threaded" | "axle" | "slot";
    back: number;
    up: number;
    distance: number;
    from_lower_edge: number;
    from_neck_edge: number;
    along_neck: number;
    from_old_edge: number | null;
    /** Drill, or width of the slot. */
    diameter: number;
    thread: "M5" | "M6" | "";
    /** "H12", "H13", "H14" or "". */
    fit: string;
    /** Material from rim to nearest edge. */
    edge: number | null;
    back_plus_minus: number | null;
    up_plus_minus: number | null;
    distance_plus_minus: number | null;
}

export interface CutDimension {
    label: string;
    value: number;
    /** ISO 2768-1; null where the class has none. */
    plus_minus: number | null;
}

export interface CutPosts {
    face_distance: number;
    along: [number, number];
    spacing: number;
    axis: Point;
    from_inner_face: number;
    thread: "M5" | "M6";
    tap_drill: number;
    thread_depth: number;
    drill_depth: number;
    boss_diameter: number;
    boss_length: [number | null, number | null];
    sentence: string;
}

export interface CutSection {
    name: "eye" | "neck" | "tab" | "opening" | "edge_A" | "edge_B" | "hole_to_axle" | "between_holes";
    label: string;
    piece: CutPieceKey;
    width: number;
    least: number;
    ok: boolean;
    from: FlatPoint;
    to: FlatPoint;
    field: string;
    remedy: string;
}

export interface CutGap {
    name: "caliper/plate" | "rotor/plate";
    label: string;
    /** What is nearest to the plate. */
    part: string;
    gap: number;
    /** Without fillets, as in the report. */
    sharp: number;
    required: number;
    verdict: Verdict;
    sharp_verdict: Verdict;
    from: FlatPoint;
    to: FlatPoint;
    /** Where the fillets make it worse: the largest radius that does not. */
    largest_fillet: number | null;
}

export interface CutWeld {
    side: string;
    lap: number;
    gap: number | null;
    leg: number;
    joints: string[];
    tacks: string[];
    checklist: string[];
    cautions: string[];
}

export interface CutSheet {
    build: "one_piece" | "butt_welded" | "on_existing" | "stepped" | "lapped" | "posts";
    build_sentence: string;
    pieces: CutPiece[];
    holes: CutHole[];
    sizes: CutDimension[];
    /** What to measure while tacking, in order. */
    checks: CutDimension[];
    posts: CutPosts | null;
    sections: CutSection[];
    gaps: CutGap[];
    /** Density in g/cm³. */
    metal: { key: string; label: string; density: number };
    /** kg. */
    mass: number;
    tolerances: { class: "f" | "m" | "c" | "v"; rows: { from: number; to: number; plus_minus: number | null }[] };
    hole_fit: {
        fit: "fine" | "medium" | "coarse";
        class: "H12" | "H13" | "H14";
        rows: { size: "M5" | "M6"; fine: number; medium: number; coarse: number }[];
    };
    weld: CutWeld;
    warnings: Warning[];
}

export interface CutFile {
    name: string;
    mime: string;
    text: string;
}

export interface CutTemplate {
    paper: "a4" | "letter";
    columns: number;
    rows: number;
    overlap: number;
    tiled: boolean;
    pages: {
        name: string;
        /** width and height in mm. */
        svg: string;
        width: number;
        height: number;
        column: number;
        row: number;
        /** Where a code may be drawn, mm from the upper left corner. */
        qr: { x: number; y: number; size: number } | null;
    }[];
}

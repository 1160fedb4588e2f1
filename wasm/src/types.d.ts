/** One input of a setup. Lengths in mm, angles in degrees. */
export interface Field {
    /** Full dotted path in a setup, such as "wheel.hub_width". */
    key: string;
    label: string;
    help: string;
    unit: "" | "mm" | "°" | "kg" | "N" | "N·m" | "MPa" | "%";
    kind: "number" | "choice" | "flag" | "text" | "vector" | "points" | "readings" | "bodies";
    default: unknown;
    /** Left out of a setup, it means the default. */
    optional: boolean;
    /** Outside this range there is no answer, only an error; of each, where there are several readings. */
    hard: [number, number] | null;
    /** Outside this range the answer comes with a warning. */
    plausible: [number, number] | null;
    step: number | null;
    /** Usual values, marked on a slider. */
    stops: number[];
    /** More decimals than these are rounded away. */
    decimals: number | null;
    /** What the coordinates of points are. */
    axes: string[];
    choices: { value: string; label: string }[];
}

export interface FieldGroup {
    /** Key of the group in a setup; "" for the fields at the top. */
    key: string;
    label: string;
    help: string;
    fields: Field[];
}

/** A nested object of the shape that default_setup() returns; every field's path is in fields(). */
export type Setup = { [key: string]: unknown };

export interface Problem {
    /** Dotted path of the field, or "" for the setup as a whole. */
    field: string;
    /** The value found, as JSON text. */
    value: string;
    message: string;
}

export type Verdict = "clears" | "tight" | "hits";
/** [back, up, out] in the leg frame, mm. */
export type Point = [number, number, number];

export interface Pair {
    name: string;
    label: string;
    parts: [string, string];
    gap: number;
    required: number;
    margin: number;
    verdict: Verdict;
    points: [Point, Point];
}

export interface Hole {
    back: number;
    up: number;
    distance: number;
    from_lower_edge: number;
    from_neck_edge: number;
}

export interface Report {
    verdict: Verdict | "cannot_build";
    summary: string;
    binding: string;
    pairs: Pair[];
    holes: [Hole, Hole];
    hole_spacing: number;
    post: { face_distance: number; axis: Point; along: [number, number] } | null;
    pad: { radius: number; coverage: number; overhang: number; below_band: number; sentence: string };
    lateral: {
        slot_centre: number;
        rotor_plane: number;
        misalignment: number;
        adjust: number;
        room_inboard: number;
        room_outboard: number;
        usable: boolean;
        sentence: string;
    };
    line: { angle: number; run: "up" | "across" | "away"; turn: number; room: number; sentence: string };
    recess: { value: number; kind: "short" | "lap" | "let_in" | "beyond"; sentence: string };
    wheel_removal: { comes_out: boolean; gap: number | null; travel: number | null; sentence: string };
    warnings: { field: string; value: number; message: string }[];
}

export type UpdateResult =
    | { ok: true; report: Report; drawings: { side?: string; section?: string } }
    | { ok: false; errors: Problem[] };
export type ReportResult = { ok: true; report: Report } | { ok: false; errors: Problem[] };
export type DrawingResult = { ok: true; svg: string } | { ok: false; errors: Problem[] };

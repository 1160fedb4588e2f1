/** "told" is a number to know, without a limit; "over" is above the limit. */
export type LoadState = "told" | "holds" | "close" | "over";

export interface LoadResult {
    /** Stable key, such as "weld_static". */
    id: string;
    label: string;
    value: number;
    unit: "" | "N" | "N·m" | "MPa" | "mm" | "°" | "%";
    /** Null for a number that is only to be known. */
    allowable: number | null;
    /** value / allowable, never below 0; null where nothing limits it. */
    utilisation: number | null;
    state: LoadState;
    /**
     * The state in a word or three: "Holds", "Close to its limit", "Too much"; "" where there is nothing to judge.
     * "Slips" and "Twists" are "close" whatever the utilisation: what is passed there is no strength.
     */
    verdict: string;
    /** The result in a sentence. */
    sentence: string;
    /** The formula's name in words. */
    formula: string;
    source: string;
    /** One line. */
    caution: string;
}

export interface LoadGroup {
    id: "pads" | "axle" | "bolts" | "tab" | "weld" | "fatigue" | "tube";
    label: string;
    /** What is and is not in these numbers; "" where there is nothing to say. */
    note: string;
    results: LoadResult[];
}

/** Points and directions [back, up, out] in the leg frame: mm, N, N·mm. */
export interface ForceVector {
    id: string;
    label: string;
    on: "wheel" | "caliper" | "plate" | "fork";
    point: Point;
    force: Point;
    moment: Point;
    size: number;
}

export interface Loads {
    /** Stands above everything else. */
    caution: string;
    /** In words first, where something is too much; null where nothing is. */
    headline: string | null;
    /** The largest utilisation, and the id of its result. */
    worst: number | null;
    worst_id: string;
    state: LoadState;
    /** The braking that is judged, in a sentence. */
    case: string;
    groups: LoadGroup[];
    forces: ForceVector[];
    /** Clock angles of the caliper at which the brake keeps the axle in its slot. */
    seating: Arc[];
    /** Hand force for the same stop with other rotors, as a multiple of that with this one. */
    rotors: { rotor: number; hand: number; pad_force: number }[];
    /** What another slot would change; `direction` and `outward` are null for a closed hole. */
    slots: { label: string; direction: number | null; outward: number | null; seats: boolean; sentence: string }[];
    /** The weakest straight cuts, [back, up] of both ends. */
    cuts: { id: "root" | "neck"; label: string; ends: [[number, number], [number, number]]; utilisation: number }[];
    /** The lines of weld that were counted. */
    seams: { id: "tube" | "joint"; ends: [Point, Point] }[];
}

/** Of a tyre's ISO 5775 designation; lengths in mm. */
export interface WheelSize {
    width: number;
    bead_seat: number;
    diameter: number;
    /** Half the diameter, for wheel.tyre_radius. */
    radius: number;
    /** For load.wheel. */
    wheel: "by_radius" | "24" | "26" | "650b" | "700c";
}

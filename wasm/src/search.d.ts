export type Shortest =
    | { kind: "found"; tube_end: number; clock: number; binding: string; before: string | null; after: string | null }
    | { kind: "none"; obstacle: string };

export interface Standing {
    clock: number;
    verdict: Verdict | "cannot_build";
    margin: number;
    binding: string;
}

export interface WhatIfCell {
    rotor_diameter: number;
    hub_width: number;
    tube_gap: number;
    as_cut: Standing;
    as_cut_tube_end: number | null;
    best: Standing | null;
    shortest: Shortest;
    recess: number;
    joint: "short" | "lap" | "let_in" | "beyond";
}

export interface TwoRotors {
    rotors: [number, number];
    spacer: number;
    windows: (Arc & { best: number; margins: [number, number]; bindings: [string, string] })[];
    shortest: Shortest;
    /** `binding` is "rules" where no clock angle keeps to the rules. */
    obstacle: { rotor: number | null; binding: string; missing: number } | null;
}

export interface Fixes {
    verdict: Verdict | "cannot_build";
    margin: number;
    /** The least trouble first. */
    fixes: {
        changes: { field: string; from: number; to: number }[];
        margin: number;
        gain: number;
        binding: string;
        line: "up" | "across" | "away";
        wheel_out: boolean;
    }[];
}

export interface Position {
    side: "left" | "right";
    behind: boolean;
    above: boolean;
    clock: number;
    verdict: Verdict;
    margin: number;
    binding: string;
    line: "up" | "across" | "away";
    wheel_out: boolean;
    axle: "seats" | "lifts" | "neither";
}

export interface Comparison {
    verdicts: [Verdict | "cannot_build", Verdict | "cannot_build"];
    margins: [number, number];
    bindings: [string, string];
    holes_moved: [number, number];
    pad_radii: [number, number];
    torque_ratio: number;
    sentences: string[];
}

/** Paragraphs on lines of their own. */
export interface Explanation {
    message: string;
}

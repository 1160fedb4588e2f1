/** What can be read on a tacked part: a key inside `tack.before` and `tack.after`. */
export type Reading = "hole_1" | "hole_2" | "spacing" | "neck_1" | "neck_2" | "step_1" | "step_2" | "rotor" | "tube";

/** The sideways stack: from the hub's face to the caliper's slot, against the caliper's own adjustment. */
export interface Stack {
    /** Slot minus rotor as designed, outboard positive. */
    misalignment: number;
    /** The caliper's adjustment either way. */
    adjust: number;
    /** In the order of the way from the hub to the slot. */
    contributions: {
        /** Path of the tolerance, such as "tolerance.rotor_inset". */
        field: string;
        label: string;
        unit: "mm" | "°";
        /** ± in `unit`. */
        tolerance: number;
        /** Millimetres of misalignment for one unit. */
        sensitivity: number;
        /** |sensitivity| · tolerance, mm. */
        effect: number;
        /** Share of the variance, 0 to 1. */
        share: number;
        /** Why it counts as it does. */
        note: string;
    }[];
    /** ± about `misalignment` if every part errs the same way at once. */
    worst: number;
    /** ± about `misalignment`, root sum of squares: three standard deviations. */
    rss: number;
    ranges: { worst: [number, number]; rss: [number, number] };
    /** Share of builds that the caliper's adjustment takes up: normal distributions, ± = 3σ. */
    within: number;
    /** Even the worst case is taken up. */
    always: boolean;
    /** The contribution that matters most; null where all are 0. */
    decisive: string | null;
    simulation: {
        builds: number;
        seed: number;
        shapes: { shape: "normal" | "uniform" | "triangular"; within: number; standard_error: number }[];
    };
    /** How true the tab must be welded sideways for `share` of all builds; null where no tab is true enough. */
    tab: { share: number; now: number; tolerance: number | null; held: boolean; sentence: string };
    /** What the general tolerance classes would give for each dimension. */
    classes: {
        field: string;
        label: string;
        /** The size that the class is looked up by, mm. */
        nominal: number;
        /** The tolerance of the setup now. */
        now: number;
        unit: "mm" | "°";
        rows: { standard: string; class: string; tolerance: number }[];
    }[];
    tilt: {
        /** The setup's own ± of the tab's tilt, degrees. */
        tolerance: number;
        /** Pad to rotor on each side, mm. */
        running: number;
        /** Rotor's swing either way, mm. */
        runout: number;
        /** Along the rotor's edge. */
        length: TiltWay;
        /** Towards the axle. */
        height: TiltWay;
        sentence: string;
    };
    sentences: string[];
}

/** `svg` is a bar to scale: adjustment range, rotor, worst case, root sum of squares. */
export interface StackDrawing {
    stack: Stack;
    svg: string;
}

/** One direction of a tilted tab. */
export interface TiltWay {
    /** Pad's size that way, mm. */
    pad: number;
    /** pad · tan(tolerance), mm. */
    taper: number;
    /** Degrees at which the pad's edges touch a true rotor. */
    rub: number;
    /** Degrees at which they touch a rotor that swings by its runout; 0 where that touches by itself. */
    clear: number;
    /** The tolerance is beyond `rub`. */
    rubs: boolean;
    /** The tolerance is beyond `clear`. */
    drags: boolean;
}

/** A number with its ± (19 times in 20) and what it was meant to be. */
export interface Built {
    value: number;
    uncertainty: number;
    designed: number;
}

export interface TackCheck {
    /** What each reading is called, how it is taken and what a part exactly as designed would read. */
    readings: { key: Reading; label: string; help: string; designed: number }[];
    before: Tacked;
    /** Null while there are no readings after welding. */
    after: Tacked | null;
    /** What welding did to it; null until both are solved. */
    pull: WeldPull | null;
    /** In the order of the work. */
    check_list: { key: string; title: string; text: string; readings: Reading[] }[];
    cautions: string[];
}

/** Designed and built part over each other, null where not solved; errors and ellipses are drawn enlarged, which the picture says. */
export interface TackDrawing {
    check: TackCheck;
    svg: { before: string | null; after: string | null };
}

/** What the readings of one state say. */
export interface Tacked {
    state: "incomplete" | "contradiction" | "solved";
    /** Those that were given, in the order of `TackCheck.readings`. */
    readings: {
        key: Reading;
        label: string;
        given: number[];
        mean: number;
        /** Largest less smallest. */
        spread: number;
        /** ± of the mean. */
        uncertainty: number;
        designed: number;
        /** What the part as solved would read; null until solved. */
        solved: number | null;
        /** mean − solved. */
        residual: number | null;
        /** Residual against its own standard deviation; beyond 3.29 it disagrees. Null where nothing checks it. */
        normalised: number | null;
        suspect: boolean;
    }[];
    /** What has to be read yet, the next one first. */
    missing: { key: Reading; label: string; why: string }[];
    /** What would make it surer, though it is not needed. */
    useful: { key: Reading; label: string; why: string }[];
    contradiction: {
        /** The numbers that cannot be together. */
        readings: Reading[];
        /** The one that explains it best, where one does. */
        suspect: Reading | null;
        message: string;
        /** Two readings that would fit if they were exchanged. */
        swap: { exchange: [Reading, Reading]; message: string } | null;
    } | null;
    /** Null until solved. */
    as_built: AsBuilt | null;
    advice: Advice;
}

export interface AsBuilt {
    holes: [BuiltHole, BuiltHole];
    /** What fixes the place round the axle: "readings", or "design" where it is taken as designed ± `about`. */
    rotation: { from: "readings" | "design"; about: number; sentence: string };
    spacing: Built;
    /** Slot minus rotor with the caliper in the middle of its adjustment. */
    misalignment: Built;
    /** Tab against dropout plane halfway between the holes, outboard positive. */
    offset: Built;
    rotor_inset: Built;
    /** Along the line of the holes, degrees; positive where hole 2 lies outboard. */
    tilt: Built;
    pads: {
        /** Middle of the pads, [back, up]. */
        centre: [number, number];
        radius: Built;
        clock: Built;
        /** Caliper turned in the wheel plane against the radius, degrees, growing clock angles positive. */
        skew: number;
        coverage: Built;
        overhang: Built;
        below_band: Built;
        /** pad · tan(tilt) along the rotor's edge and towards the axle. */
        taper: [number, number];
        sentence: string;
    };
    pairs: { name: string; label: string; gap: Built; required: number; margin: number; verdict: "clears" | "tight" | "hits"; sure: boolean }[];
    /** Everything the advice hangs on. */
    limits: Limit[];
}

export interface BuiltHole {
    back: number;
    up: number;
    designed: [number, number];
    /** Built less designed: away from the axle, and in the way of growing clock angles. */
    off: { radial: number; tangential: number; distance: number };
    /** Covariance of (back, up), mm². */
    covariance: [[number, number], [number, number]];
    /** Holds the true hole 19 times in 20: half axes, angle of the longer one from `back` towards `up`, closed outline. */
    ellipse: { major: number; minor: number; angle: number; outline: [number, number][] };
}

export interface Limit {
    /** "spacing", "sideways", "tilt", "coverage" or the name of a pair. */
    key: string;
    label: string;
    /** "" for a share. */
    unit: "mm" | "°" | "";
    value: number;
    uncertainty: number;
    /** Allowed from `low` to `high`; null where there is no limit on that side. */
    low: number | null;
    high: number | null;
    ok: boolean;
    /** Whether the ± leaves it on the same side of the limit. */
    sure: boolean;
    sentence: string;
}

/** Exactly one; what belongs to another kind is null. */
export interface Advice {
    kind: "measure_more" | "measure_again" | "redesign" | "weld" | "shim" | "file" | "break";
    /** Two to eight words. */
    title: string;
    text: string;
    /** It would be another advice at one end of the ±. */
    close: boolean;
    /** To take, or to take again. */
    readings: Reading[];
    /** `pieces` under hole 1 and hole 2. */
    shim: { thickness: [number, number]; pieces: [number[], number[]]; misalignment: number; tilt: number } | null;
    /** Slot hole 1 or 2 by `amount`; `direction` is [back, up], `towards` says it in words. */
    file: { hole: 1 | 2; amount: number; direction: [number, number]; towards: string } | null;
    /** How the tab has to move: halfway between its holes, sideways, and turned. */
    move: {
        back: number;
        up: number;
        radial: number;
        tangential: number;
        out: number;
        /** Degrees along the line of the holes. */
        tilt: number;
        /** Degrees in the wheel plane, growing clock angles positive. */
        turn: number;
    } | null;
}

export interface WeldPull {
    holes: [Pulled, Pulled];
    offset: { change: number; uncertainty: number; sure: boolean };
    tilt: { change: number; uncertainty: number; sure: boolean };
    spacing: { change: number; uncertainty: number; sure: boolean };
    sentence: string;
}

/** How one hole moved in welding. */
export interface Pulled {
    back: number;
    up: number;
    distance: number;
    uncertainty: number;
    sure: boolean;
}

/** A tab that was bought or drilled: distances, or both places as [back, up]. */
export type TabHoles = { hole_1: number; hole_2: number; spacing: number } | { points: [[number, number], [number, number]] };

export interface FitTab {
    hole_1: number;
    hole_2: number;
    spacing: number;
    /** Spacing less the caliper's own. */
    misfit: number;
    /** What the bolts' play takes up. */
    play: number;
    bolts_fit: boolean;
    /** Of the pads' middle once the caliper is on. */
    pad_radius: number;
    /** Caliper turned against the radius, degrees. */
    skew: number;
    misalignment: number;
    sideways: boolean;
    /** The tab's own place where points were given, else null. */
    clock: number | null;
    rotors: {
        rotor_diameter: number;
        /** How far the pads lie beyond full cover of this rotor, outward positive. */
        reach: number;
        coverage: number;
        overhang: number;
        below_band: number;
        serves: boolean;
        /** Clock angles at which everything clears; empty where it does not serve. */
        windows: (Arc & { best: number; margin: number; binding: string })[];
        /** At the tab's own clock angle, else at the setup's. */
        here: { clock: number; verdict: Verdict | "cannot_build"; margin: number; binding: string } | null;
        sentence: string;
    }[];
    sentence: string;
}

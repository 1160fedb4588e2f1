/** A caliper as it is measured: one number, in millimetres, for each of `MeasuredCaliper.fields`. */
export type Measured = Record<string, number>;

export type MeasureQuestion = Measured | null | undefined;

export interface Footing {
    verdict: Verdict | "cannot_build";
    /** Gap beyond what is wanted, of the pair that binds. */
    margin: number;
    binding: string;
    /** Sideways adjustment left on the side with less of it. */
    sideways: number;
}

/** With one millimetre or degree more and less; null where that cannot be worked out. */
export interface Sensitivity {
    now: Footing;
    more: Footing | null;
    less: Footing | null;
}

export interface MeasuredCaliper {
    fields: Field[];
    measured: Measured;
    /** Whether the caliper is drawn in just the pieces that these numbers tell. */
    tells_all: boolean;
}

/** The setup with another caliper; `doubt` where the measurements contradict each other. */
export interface CaliperAsMeasured {
    setup: Setup;
    doubt: { field: string; value: number; message: string } | null;
}

export type MeasureAnswer = Answer<string | Sensitivity | MeasuredCaliper | CaliperAsMeasured>;

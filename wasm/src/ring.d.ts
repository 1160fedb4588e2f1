export type Answer<T> = { ok: true; answer: T } | { ok: false; errors: Problem[] };

/** A stretch of clock angles from `from` in the way of growing angles; degrees. */
export interface Arc {
    from: number;
    width: number;
}

export interface Ring {
    /** All round from −180 to 180: one verdict and one binding pair each. */
    stretches: { from: number; to: number; verdict: Verdict; binding: string; margin: number }[];
    /** Where everything clears; `best` has most room. */
    windows: (Arc & { best: number; margin: number; binding: string })[];
    line_up: Arc[];
    wheel_out: Arc[];
    buildable: boolean;
}

/** `svg` is a document about the axle, in the side view's coordinates. */
export interface RingDrawing {
    ring: Ring;
    svg: string;
}

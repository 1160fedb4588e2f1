import type { FieldGroup, Problem, Report, ReportResult, Setup, UpdateResult } from "./tabwright_wasm.js";

export type { FieldGroup, Problem, Report, ReportResult, Setup, UpdateResult };

/**
 * `<tabwright-fit setup="…" view="side">` draws a setup and says whether the brake clears the fork.
 *
 * Lengths are millimetres, angles degrees. Its size is that of any block: as wide as its surroundings and as high as its
 * drawing, or what the page's style sheet says. The drawing is an image with a name of its own. Colours follow the system's light or dark scheme; any of the custom
 * properties of `css/tokens.css`, such as `--sheet` or `--steel`, may be set on the element. `::part(caption)` and
 * `::part(problems)` are its texts.
 *
 * Event `report` (`detail: Report`) after each drawing, event `problems` (`detail: Problem[]`) where there is none; both bubble.
 */
export class TabwrightFit extends HTMLElement {
    /**
     * A setup like the one that `geometry()` returns by `defaultSetup()`, whole. Set it anew after changing something in it.
     * The attribute of the same name takes it as JSON text; of attribute and property, the one set last counts.
     */
    get setup(): Setup | null;
    set setup(setup: Setup | null);
    /** Which drawing; also an attribute. "side" unless given. */
    get view(): "side" | "section";
    set view(view: "side" | "section");
    /** Of the setup on show; null before the first drawing and while there are problems. */
    readonly report: Report | null;
    /** Why there is no drawing; empty when all is well. */
    readonly problems: readonly Problem[];

    addEventListener(
        type: "report",
        listener: (event: CustomEvent<Report>) => void,
        options?: boolean | AddEventListenerOptions,
    ): void;
    addEventListener(
        type: "problems",
        listener: (event: CustomEvent<Problem[]>) => void,
        options?: boolean | AddEventListenerOptions,
    ): void;
    addEventListener(
        type: string,
        listener: EventListenerOrEventListenerObject,
        options?: boolean | AddEventListenerOptions,
    ): void;
}

/** The calls behind the element; rejected where the files cannot be loaded. `tabwright_wasm.d.ts` describes the answers. */
export function geometry(): Promise<{
    fields(): FieldGroup[];
    defaultSetup(): Setup;
    report(setup: Setup): ReportResult;
    update(setup: Setup, views: ("side" | "section")[]): UpdateResult;
}>;

declare global {
    interface HTMLElementTagNameMap {
        "tabwright-fit": TabwrightFit;
    }
}

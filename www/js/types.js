/**
 * The shapes of what passes between the geometry core and the page.
 *
 * Lengths are millimetres, angles degrees. A point is [back, up, out] in the frame of the fork leg unless said otherwise.
 *
 * @typedef {Record<string, any>} Setup  A whole setup as nested plain data; a value the builder mistyped stays in it as text.
 *
 * @typedef {Object} Field
 * @property {string} key  Full dotted path in a setup.
 * @property {string} label
 * @property {string} help
 * @property {string} unit  Unit symbol, or "".
 * @property {"number"|"choice"|"flag"|"text"|"vector"|"points"|"readings"|"bodies"} kind
 * @property {any} default
 * @property {boolean} optional  Left out, it means the default.
 * @property {[number, number]|null} hard  Outside these limits there is no answer; of each, where there are several readings.
 * @property {[number, number]|null} plausible  Outside these limits the answer comes with a warning.
 * @property {number|null} step
 * @property {number[]} stops  The usual values.
 * @property {number|null} decimals  More than these are rounded away.
 * @property {{value: string, label: string}[]} choices
 * @property {string[]} axes  Of two coordinates of points, what each is called.
 *
 * @typedef {Object} FieldGroup
 * @property {string} key
 * @property {string} label
 * @property {string} help
 * @property {Field[]} fields
 *
 * @typedef {Object} Remark  On one value of the setup.
 * @property {string} field  Path of the value, or "" for the setup as a whole.
 * @property {string} message
 *
 * @typedef {Remark & {value: string}} Problem  Why a value was refused.
 * @typedef {Remark & {value: number}} Warning  Why a value deserves a second look.
 *
 * @typedef {"clears"|"tight"|"hits"} PairVerdict
 * @typedef {PairVerdict|"cannot_build"} Verdict
 *
 * @typedef {Object} Pair
 * @property {string} name
 * @property {string} label
 * @property {number} gap
 * @property {number} required
 * @property {number} margin
 * @property {PairVerdict} verdict
 *
 * @typedef {Object} Hole
 * @property {number} back
 * @property {number} up
 * @property {number} distance
 * @property {number} from_lower_edge
 * @property {number} from_neck_edge
 *
 * @typedef {Object} Post
 * @property {number} face_distance
 * @property {[number, number, number]} axis
 * @property {[number, number]} along
 *
 * @typedef {Object} Report
 * @property {Verdict} verdict
 * @property {string} summary
 * @property {string} binding
 * @property {Pair[]} pairs
 * @property {[Hole, Hole]} holes
 * @property {number} hole_spacing
 * @property {Post|null} post
 * @property {{sentence: string}} pad
 * @property {{sentence: string}} lateral
 * @property {{sentence: string}} line
 * @property {{sentence: string, value: number, kind: "short"|"lap"|"let_in"|"beyond"}} recess  `value`: the plate's outer face past the tube's inner side.
 * @property {{sentence: string}} wheel_removal
 * @property {Warning[]} warnings
 *
 * @typedef {"side"|"section"} View
 * @typedef {Partial<Record<View, string>>} Drawings  SVG text of the views asked for.
 *
 * @typedef {{ok: true, report: Report}|{ok: false, errors: Problem[]}} ReportAnswer
 * @typedef {{ok: true, report: Report, drawings: Drawings}|{ok: false, errors: Problem[]}} UpdateAnswer
 *
 * @typedef {{from: number, width: number}} Arc  A stretch of clock angles, in the way of growing angles.
 * @typedef {Arc & {best: number, margin: number, binding: string}} RingWindow
 *
 * @typedef {Object} Ring
 * @property {RingWindow[]} windows  Where everything clears.
 * @property {Arc[]} line_up  Where the line runs up the leg.
 * @property {Arc[]} wheel_out  Where the wheel drops out.
 * @property {boolean} buildable
 *
 * @typedef {{ok: true, answer: {ring: Ring, svg: string}}|{ok: false, errors: Problem[]}} RingAnswer
 *
 * @typedef {Object} Core
 * @property {(unit: "mm"|"in") => void} speakIn  How words from here on write lengths.
 * @property {() => FieldGroup[]} fields
 * @property {() => Setup} defaultSetup
 * @property {(setup: Setup) => ReportAnswer} report
 * @property {(setup: Setup, views: View[]) => UpdateAnswer} update  Report and drawings in one go.
 * @property {(setup: Setup) => RingAnswer} ring
 * @property {(setup: Setup, what: string, path?: string, text?: string, measured?: Record<string, any>) => {ok: true, answer: any}|{ok: false, errors: Problem[]}} measure
 *   "picture" of a number, "sensitivity" to it, the "caliper" in measured numbers and from them; see wasm/src/measure.rs.
 *
 * @typedef {{verdict: Verdict, margin: number, binding: string, sideways: number}} Footing
 * @typedef {{now: Footing, more: Footing|null, less: Footing|null}} Sensitivity  With one unit more or less of a number.
 *
 * @typedef {Object} Model  What every part of the page is given to show.
 * @property {Setup} setup  As typed.
 * @property {Problem[]} problems  Why `setup` has no report; empty when all is well.
 * @property {Report} report  Of the last setup that had one.
 * @property {Drawings} drawings  Of the views on show, of that same setup.
 *
 * @typedef {Object} Part  One visible part of the page.
 * @property {(model: Model) => void} update
 *
 * @typedef {Object} Context  What a panel may use.
 * @property {Core} core
 * @property {import("./search/client.js").SearchClient} client  For whatever takes longer than a frame.
 * @property {() => Setup} goodSetup  The last setup that had an answer.
 * @property {() => Setup} setup  As typed.
 * @property {(message: string) => void} tell  Shows a message at the top of the page.
 *
 * @typedef {Object} Panel  What fills the dialog when its button is tapped; it changes the setup by events alone.
 * @property {HTMLElement} element
 * @property {(model: Model) => void} update  Called when the panel is opened, and for each change while it is open.
 * @property {() => void} [closed]
 * @property {(input: any) => Promise<boolean>} [take]  What was dropped on the page or pasted; whether nothing is left to say.
 *
 * @typedef {Object} PanelModule
 * @property {string} title
 * @property {(context: Context) => Panel} createPanel
 *
 * @typedef {Object} Edit  Detail of an "edit" event: one value of the setup was changed by the builder.
 * @property {string} path
 * @property {any} value  `undefined` leaves the value out.
 */

export {};

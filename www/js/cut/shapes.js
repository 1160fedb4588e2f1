/**
 * The shapes of what the core says about cutting; see wasm/src/cut.d.ts. Lengths mm, areas mm², masses kg.
 *
 * @typedef {import("../types.js").Problem} Problem
 * @typedef {import("../types.js").Warning} Warning
 *
 * @typedef {Object} Piece
 * @property {string} key
 * @property {string} title
 * @property {string} svg
 * @property {number} width
 * @property {number} height
 * @property {number} thickness
 * @property {number} area
 * @property {number} cut_length
 * @property {number} mass
 * @property {number} fillet_radius
 * @property {number} hole_count
 *
 * @typedef {Object} HoleEntry
 * @property {string} name
 * @property {string|null} piece
 * @property {"clearance"|"threaded"|"axle"|"slot"} kind
 * @property {number} back
 * @property {number} up
 * @property {number} distance
 * @property {number} from_lower_edge
 * @property {number} from_neck_edge
 * @property {number} along_neck
 * @property {number|null} from_old_edge
 * @property {number} diameter
 * @property {string} thread
 * @property {string} fit
 * @property {number|null} edge
 * @property {number|null} back_plus_minus
 * @property {number|null} up_plus_minus
 * @property {number|null} distance_plus_minus
 *
 * @typedef {{label: string, value: number, plus_minus: number|null}} Dimension
 *
 * @typedef {Object} PostLayout
 * @property {number} face_distance
 * @property {[number, number]} along
 * @property {number} spacing
 * @property {number} from_inner_face
 * @property {string} thread
 * @property {number} tap_drill
 * @property {number} thread_depth
 * @property {number} drill_depth
 * @property {number} boss_diameter
 * @property {[number|null, number|null]} boss_length
 * @property {string} sentence
 *
 * @typedef {{label: string, piece: string, width: number, least: number, ok: boolean}} Section
 * @typedef {{label: string, part: string, gap: number, sharp: number, required: number, verdict: import("../types.js").PairVerdict}} CutGap
 *
 * @typedef {Object} Sheet
 * @property {string} build_sentence
 * @property {Piece[]} pieces
 * @property {HoleEntry[]} holes
 * @property {Dimension[]} sizes
 * @property {Dimension[]} checks
 * @property {PostLayout|null} posts
 * @property {Section[]} sections
 * @property {CutGap[]} gaps
 * @property {{key: string, label: string, density: number}} metal
 * @property {number} mass
 * @property {{class: string}} tolerances
 * @property {{fit: string, class: string, rows: {size: string, fine: number, medium: number, coarse: number}[]}} hole_fit
 * @property {{side: string, lap: number, gap: number|null, leg: number, joints: string[], tacks: string[], checklist: string[], cautions: string[]}} weld
 * @property {Warning[]} warnings
 *
 * @typedef {{name: string, mime: string, text: string}} CutFile
 *
 * @typedef {{name: string, svg: string, width: number, height: number, qr: {x: number, y: number, size: number}|null}} TemplatePage
 * @typedef {{paper: "a4"|"letter", overlap: number, tiled: boolean, pages: TemplatePage[]}} Template
 */

export {};

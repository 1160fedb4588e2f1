import { emit } from "../dom.js";
import { withValueAt } from "../path.js";

/**
 * The numbers a caliper is measured by, between what is typed and the setup. What was typed last stays what it is, even
 * where the numbers do not yet go together; the setup follows as soon as they do.
 * @typedef {import("../types.js").Context} Context
 * @typedef {import("../types.js").Field} Field
 * @typedef {import("../types.js").Remark} Remark
 */

export const MEASURED = "measured.";
const HOLES = "measured.hole_";
/** Fields of the setup that measured numbers start from: a caliper drawn by these is drawn anew when one changes. */
const BASES = ["caliper.mount", "caliper.mating_face", "caliper.mount_depth", "caliper.pad.length", "caliper.pad.height"];
const POST_BOLTS = [0, -1, 0];

/** @param {Context} context @param {HTMLElement} root  Tells of changes. */
export function createMeasuredCaliper({ core, setup, goodSetup }, root) {
  /** @type {Field[]} */
  let fields = [];
  /** @type {Record<string, any>} */
  let values = {};
  let tellsAll = false;
  let touched = { holes: false, bodies: false };
  /** @type {Remark[]} */
  let problems = [];
  /** @type {Remark|null} */
  let doubt = null;
  /** The caliper that all of this speaks of. @type {any} */
  let known;

  function scope() {
    return { holes: tellsAll || touched.holes, bodies: tellsAll || touched.bodies };
  }

  /** Looks at the setup again, unless it is as this left it. */
  function refresh() {
    const { caliper } = goodSetup();
    if (caliper === known) return;
    const answer = core.measure(goodSetup(), "caliper");
    if (!answer.ok) return;
    ({ fields, measured: values, tells_all: tellsAll } = answer.answer);
    known = caliper;
    touched = { holes: false, bodies: false };
    problems = [];
    doubt = null;
  }

  return {
    refresh,
    get fields() { return fields; },
    /** Whether the pieces at hand are more than these numbers tell. */
    get isDetailed() { return !tellsAll && !touched.bodies; },
    /** @param {string} path */
    valueOf(path) {
      const value = values[path.slice(MEASURED.length)];
      // Worked out, it has more decimals than anyone can measure.
      return typeof value === "number" ? Math.round(value * 100) / 100 : value;
    },
    /** What is wrong with a number and those that go with it. @param {string} path */
    remarks(path) {
      const isHole = path.startsWith(HOLES);
      const [own, doubts] = [problems, doubt ? [doubt] : []]
        .map((list) => list.filter(({ field }) => field.startsWith(HOLES) === isHole));
      return { problems: own, doubts };
    },
    /** Whether a change of that value is for `set`. @param {string} path */
    takes(path) {
      const { holes, bodies } = scope();
      return path.startsWith(MEASURED) || path === BASES[0] || (BASES.includes(path) && (holes || bodies));
    },
    /** @param {string} path @param {any} value */
    set(path, value) {
      const isOwn = path.startsWith(MEASURED);
      let [base, typed] = [goodSetup(), setup()];
      if (isOwn) {
        values = { ...values, [path.slice(MEASURED.length)]: value };
        touched = { ...touched, [path.startsWith(HOLES) ? "holes" : "bodies"]: true };
      } else {
        [base, typed] = [base, typed].map((one) => withPosts(withValueAt(one, path, value)));
      }
      const { holes, bodies } = scope();
      if (!holes && !bodies) {
        emit(root, "edit", { path: "caliper", value: typed.caliper });
        return;
      }
      const what = holes && bodies ? "whole" : holes ? "holes" : "bodies";
      const answer = core.measure(base, what, "", "", values);
      problems = answer.ok ? [] : answer.errors;
      doubt = answer.ok ? answer.answer.doubt : null;
      if (!answer.ok && isOwn) return;
      const found = answer.ok ? answer.answer.setup.caliper : typed.caliper;
      known = { ...typed.caliper, ...(holes && { holes: found.holes }), ...(bodies && { bodies: found.bodies }) };
      emit(root, "edit", { path: "caliper", value: known });
    },
  };
}

/** Posts need the way their bolts go in. @param {any} setup */
function withPosts(setup) {
  const isMissing = setup.caliper.mount === "post" && setup.caliper.bolt_direction == null;
  return isMissing ? withValueAt(setup, "caliper.bolt_direction", POST_BOLTS) : setup;
}

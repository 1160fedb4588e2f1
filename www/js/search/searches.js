import { byId } from "../dom.js";
import { fixesSearch } from "./fixes.js";
import { createOptions } from "./options.js";
import { positionsSearch } from "./positions.js";
import { createSection } from "./section.js";
import { shortestSearch } from "./shortest.js";
import { sideBySideSearch } from "./side-by-side.js";
import { twoRotorsSearch } from "./two-rotors.js";
import { whatIfSearch } from "./what-if.js";

/**
 * @typedef {import("../types.js").Setup} Setup
 * @typedef {import("../types.js").FieldGroup} FieldGroup
 * @typedef {ReturnType<typeof createSection>} Section
 */

/** A setup that has not changed for this long is worth searching. */
const QUIET_MS = 250;

/**
 * All searches of the page. Each works while its section is open and the setup is at rest.
 * @param {FieldGroup[]} groups @param {() => Setup} goodSetup  The last setup that had an answer.
 * @param {import("./client.js").SearchClient} client
 */
export function createSearches(groups, goodSetup, client) {
  const fields = new Map(groups.flatMap((group) => group.fields).map((field) => [field.key, field]));
  const fixesPlace = byId("fixes-section");
  const options = createOptions(
    /** @type {any} */ (fields.get("wheel.rotor_diameter")),
    /** @type {any} */ (fields.get("wheel.hub_width")),
    askSoon,
  );
  const whatIf = whatIfSearch(options, { ask: askSoon, draw: () => whatIfSection.draw() });
  const pair = sideBySideSearch(options, askSoon);
  const whatIfSection = createSection("what-if", whatIf.search, client);
  /** @type {{section: Section, options: () => any[]}[]} */
  const sections = [
    { section: createSection("positions", positionsSearch(), client), options: () => [] },
    { section: createSection("two-rotors", twoRotorsSearch(options), client), options: () => [options.rotors, ...options.rules] },
    { section: createSection("side-by-side", pair.search, client), options: () => pair.options },
    { section: whatIfSection, options: () => whatIf.options },
    { section: createSection("shortest", shortestSearch(options), client), options: () => options.rules },
    { section: createSection("fixes", fixesSearch(fields), client), options: () => [] },
  ];
  for (const { section } of sections) section.whenOpened(askSoon);
  let timer = 0;
  /** @type {Setup} */
  let seen;

  function askSoon() {
    clearTimeout(timer);
    timer = setTimeout(ask, QUIET_MS);
  }

  /** The last asked is answered first. */
  function ask() {
    for (const { section, options: wanted } of sections) if (section.isOpen) section.ask(seen, wanted());
  }

  return {
    /** @param {import("../types.js").Model} model */
    update({ report }) {
      const setup = goodSetup();
      if (setup === seen) return;
      seen = setup;
      fixesPlace.hidden = report.verdict === "clears";
      for (const { section } of sections) if (section.isOpen) section.outdate();
      askSoon();
    },
  };
}

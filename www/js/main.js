import { Controller } from "./controller.js";
import { loadCore } from "./core.js";
import { byId } from "./dom.js";
import { createDrawings } from "./drawings.js";
import { createForm } from "./form/form.js";
import { startLinks } from "./link.js";
import { startNotices } from "./notices.js";
import { startOffline } from "./offline.js";
import { createPanels } from "./panels.js";
import { createProblems } from "./problems.js";
import { createRing } from "./ring/ring.js";
import { createGaps } from "./results/gaps.js";
import { createHoles } from "./results/holes.js";
import { createNotes } from "./results/notes.js";
import { atRestOutOfSight } from "./results/rest.js";
import { createWarnings } from "./results/warnings.js";
import { startSafety } from "./safety.js";
import { SearchClient } from "./search/client.js";
import { searchesOnDemand } from "./search/on-demand.js";
import { startDrop } from "./setups/drop.js";
import { startAgainButton } from "./start-again.js";
import { createKeeper, startingState } from "./state.js";
import { packed } from "./steps.js";
import { startUnitSwitch } from "./unit-switch.js";
import { startUndo } from "./undo.js";
import { createVerdict } from "./verdict.js";
import { warmUp } from "./warm-up.js";

const notices = startNotices();
startSafety();
// Not awaited: what is loaded later waits for this script to end.
start().then(startOffline);

async function start() {
  const boot = byId("boot");
  try {
    await run(await loadCore());
    boot.hidden = true;
    byId("main").hidden = false;
  } catch (error) {
    console.error(error);
    boot.textContent = "The geometry could not be started, so nothing can be checked. "
      + "Load the page again; if you are offline, do that once with a connection. "
      + `If it still fails, use a current browser with WebAssembly allowed. (${error instanceof Error ? error.message : error})`;
  }
}

/** @param {import("./types.js").Core} core */
async function run(core) {
  startUnitSwitch(core.speakIn, () => controller.renew());
  const { remark, past, future, ...state } = startingState(core);
  const groups = core.fields();
  const fields = groups.flatMap((group) => group.fields);
  if (remark) notices.tell(remark);

  const drawings = createDrawings();
  const client = new SearchClient();
  const goodSetup = () => controller.state.goodSetup;
  const keeper = createKeeper(() => ({
    ...controller.state,
    past: packed(controller.state.setup, history.steps.past, fields),
    future: packed(controller.state.setup, history.steps.future, fields),
  }), notices.tell);
  const panels = createPanels(() => ({ core, client, goodSetup, setup: () => controller.state.setup, tell: notices.tell }));
  const parts = [
    createForm(groups),
    createVerdict(),
    drawings,
    createRing(client, core.ring, goodSetup),
    createProblems(),
    createWarnings(),
    atRestOutOfSight(byId("gap-rows"), createGaps()),
    atRestOutOfSight(byId("hole-rows"), createHoles()),
    atRestOutOfSight(byId("notes"), createNotes()),
    searchesOnDemand(groups, goodSetup, client),
    keeper,
    panels,
  ];
  const controller = new Controller(core, parts, state);

  const history = startUndo(controller, { past, future });
  document.addEventListener("views", (event) => controller.show(/** @type {CustomEvent} */ (event).detail));
  startDrop((input) => panels.show("setups", input));
  startAgainButton(byId("start-again"), () => history.replace(core.defaultSetup()));
  // What a link brings is shown first, not what was kept before it.
  await startLinks(core, notices.tell);
  controller.show(drawings.views());
  import("./soon.js").then(({ startSeatingArc, startSheet }) => {
    parts.push(startSeatingArc(client, goodSetup));
    startSheet(core, () => controller.state);
  }, console.warn);
  warmUp(() => core.update(controller.state.goodSetup, drawings.views()));
}

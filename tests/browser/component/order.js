// A property set before the element is known, and both events written down.
const fit = document.getElementById("fit");
const TYPES = ["report", "problems"];
window.events = [];
for (const type of TYPES) {
  document.addEventListener(type, ({ target, detail }) => window.events.push({ type, id: target.id, detail }));
}
/** Changes the element and gives the event that follows. */
window.changed = (change) => new Promise((resolve) => {
  for (const type of TYPES) fit.addEventListener(type, ({ detail }) => resolve({ type, detail }), { once: true });
  change(fit);
});
fit.setup = await (await fetch("setup.json")).json();
window.component = await import("../vendor/fit/tabwright-fit.js");

// A property set before the element is known, and both events written down.
const fit = document.getElementById("fit");
const TYPES = ["report", "problems"];
window.events = [];
for (const type of TYPES) {
  document.addEventListener(type, ({ target, detail }) => window.events.push({ type, id: target.id, detail }));
}
/**
 * Changes the element and gives the event that follows. In a task of its own: inside a script of its driver, WebKit runs
 * what is to come after a script in the middle of it.
 */
window.changed = (change) => new Promise((resolve) => {
  for (const type of TYPES) fit.addEventListener(type, ({ detail }) => resolve({ type, detail }), { once: true });
  setTimeout(() => change(fit));
});
fit.setup = await (await fetch("setup.json")).json();
window.component = await import("../vendor/fit/tabwright-fit.js");

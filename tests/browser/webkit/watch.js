// Notes what a page complains about and what it asks for, for a driver that does not tell. A plain script, so that it can be the page's first.
{
  const place = Symbol.for("tabwright.watched");
  if (!globalThis[place]) {
    const watched = [];
    Object.defineProperty(globalThis, place, { value: watched });
    const shown = (value) => value instanceof Error ? `${value.name}: ${value.message}` : String(value);
    const told = (level) => {
      const tell = console[level].bind(console);
      console[level] = (...values) => {
        watched.push({ kind: "console", level, text: values.map(shown).join(" ") });
        tell(...values);
      };
    };
    ["debug", "log", "info", "warn", "error"].forEach(told);
    addEventListener("error", (event) => {
      const { target, message, error } = event;
      if (target instanceof Element) watched.push({ kind: "console", level: "error", text: `could not load ${target.src ?? target.href}` });
      else watched.push({ kind: "fault", text: error instanceof Error ? shown(error) : message });
    }, true);
    addEventListener("unhandledrejection", ({ reason }) => watched.push({ kind: "fault", text: shown(reason) }));
    addEventListener("securitypolicyviolation", ({ blockedURI, effectiveDirective }) => {
      watched.push({ kind: "console", level: "error", text: `refused by ${effectiveDirective}: ${blockedURI}` });
    }, true);
    new PerformanceObserver((list) => {
      for (const { name } of list.getEntries()) watched.push({ kind: "request", url: name });
    }).observe({ type: "resource", buffered: true });
  }
}

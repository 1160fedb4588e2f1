export function isOfComponent(name) { return name.startsWith("component/"); }
export function buildComponent() {}

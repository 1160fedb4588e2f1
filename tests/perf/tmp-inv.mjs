import { PHONE, launch, serveSite, untilAnswered } from "../browser/harness.js";
import { stepSlider } from "./steps.mjs";
const key = process.argv[2] ?? "tab.clock";
const site = await serveSite(); const browser = await launch();
const context = await browser.newContext({ viewport: PHONE }); const page = await context.newPage();
await page.goto(site.url); await untilAnswered(page);
await page.evaluate(stepSlider, { key, steps: 20, warmUp: 20, mark: "m" });
await browser.startTracing(page, { categories: ["devtools.timeline","blink.user_timing","disabled-by-default-devtools.timeline","disabled-by-default-devtools.timeline.invalidationTracking","disabled-by-default-blink.debug.layout"] });
await page.evaluate(stepSlider, { key, steps: 50, warmUp: 0, mark: "m" });
const { traceEvents } = JSON.parse((await browser.stopTracing()).toString());
const c={};
for (const e of traceEvents) { const d=e.args?.data; if(!/Invalidat|LayoutTree|^Layout$|Paint$/.test(e.name)) continue; let k=e.name; if(d) k+=" | "+(d.nodeName??"")+" | "+(d.reason??"")+" | "+(d.extraData??"")+" | "+(d.changedAttribute??"")+(d.changedClass??""); if(e.name==="UpdateLayoutTree") k+=" "+e.args.elementCount; if(e.name==="Layout") k+=" dirty "+e.args.beginData?.dirtyObjects+"/"+e.args.beginData?.totalObjects; c[k]=(c[k]??0)+1; }
for (const [k,n] of Object.entries(c).sort((a,b)=>b[1]-a[1]).slice(0,70)) console.log(n, k.slice(0,200));
await browser.close(); await site.stop();

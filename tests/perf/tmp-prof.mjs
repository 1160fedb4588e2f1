import { PHONE, launch, serveSite, untilAnswered } from "../browser/harness.js";
import { stepSlider } from "./steps.mjs";
const key = process.argv[2] ?? "wheel.rotor_diameter", rate = Number(process.argv[3] ?? 1);
const site = await serveSite(); const browser = await launch();
const context = await browser.newContext({ viewport: PHONE }); const page = await context.newPage();
await page.goto(site.url); await untilAnswered(page);
const dt = await context.newCDPSession(page);
await dt.send("Emulation.setCPUThrottlingRate", { rate });
await page.evaluate(stepSlider, { key, steps: 20, warmUp: 20, mark: "m" });
await browser.startTracing(page, { categories: ["devtools.timeline","blink.user_timing","disabled-by-default-devtools.timeline","blink","cc","v8"] });
await page.evaluate(stepSlider, { key, steps: 100, warmUp: 0, mark: "m" });
const { traceEvents } = JSON.parse((await browser.stopTracing()).toString());
const marks = traceEvents.filter(e=>e.name==="m"); const {pid,tid}=marks[0];
const own = traceEvents.filter(e=>e.pid===pid&&e.tid===tid&&e.ph==="X").sort((a,b)=>a.ts-b.ts||b.dur-a.dur);
const open=[]; const sum={}, cnt={};
for (const e of own){ while(open.length&&open.at(-1).ts+open.at(-1).dur<=e.ts) open.pop(); const t=e.tdur??e.dur; if(open.length) open.at(-1).o-=t; e.o=t; open.push(e);}
for (const e of own){ sum[e.name]=(sum[e.name]??0)+e.o; cnt[e.name]=(cnt[e.name]??0)+1;}
const rows=Object.entries(sum).sort((a,b)=>b[1]-a[1]).slice(0,28);
for(const [n,t] of rows) console.log(n.padEnd(50),(t/1000/100).toFixed(3),"ms/step",(cnt[n]/100).toFixed(1));
await dt.send("Profiler.enable"); await dt.send("Profiler.setSamplingInterval",{interval:200}); await dt.send("Profiler.start");
await page.evaluate(stepSlider, { key, steps: 100, warmUp: 0, mark: "m" });
const { profile } = await dt.send("Profiler.stop");
const self={}; const dts=profile.timeDeltas; const byId=new Map(profile.nodes.map(n=>[n.id,n]));
profile.samples.forEach((id,i)=>{const n=byId.get(id); const k=n.callFrame.functionName+" "+n.callFrame.url.split("/").pop()+":"+n.callFrame.lineNumber+":"+n.callFrame.columnNumber; self[k]=(self[k]??0)+dts[i];});
console.log("--- js self"); for(const [n,t] of Object.entries(self).sort((a,b)=>b[1]-a[1]).slice(0,30)) console.log(n.padEnd(70),(t/1000/100).toFixed(3));
await browser.close(); await site.stop();

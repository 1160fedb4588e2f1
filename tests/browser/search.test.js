// The searches: fixes, what if, side by side, two rotors, shortest dropout, positions; and a worker that dies.
import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import {
  SCREENS, launch, loseWorker, named, openSearch, openSite, typeInto, untilAnswered, untilOffline, untilPainted, untilVerdict,
} from "./harness.js";

let browser;

before(async () => { browser = await launch(); });
after(() => browser.close());

function cell(page, rotor, hub) {
  return page.locator(`#what-if [data-name="Rotor ${rotor}, hub ${hub}"]`);
}

/** The table is complete and belongs to the setup as it is. */
async function untilCells(page, count = 20) {
  await page.locator("#what-if .answer:not(.outdated) .cell").nth(count - 1).waitFor();
  await page.waitForFunction((wanted) => {
    const cells = document.querySelectorAll("#what-if .answer:not(.outdated) .cell").length;
    return cells === wanted && !document.querySelector("#what-if .pending");
  }, count);
}

for (const screen of SCREENS) {
  test(`at ${named(screen)} what would fix it comes by itself, and a tap on it clears as one step`, async (t) => {
    const { page, complaints } = await openSite(t, browser, { screen });
    const fixes = page.locator("#fixes-section");
    assert.equal(await fixes.isVisible(), false, "nothing to fix");
    await typeInto(page, "wheel.rotor_diameter", "180");
    const first = page.locator("#fixes .choice").first();
    await first.waitFor();
    assert.match(await first.innerText(), /Clock angle 28° → \d+(\.\d)?°: then \d+\.\d mm to spare, closest .* to .*/);
    const count = await page.locator("#fixes .choice").count();
    for (let index = 0; index < count; index++) {
      await page.locator("#fixes .answer:not(.outdated) .choice").nth(index).click();
      await untilVerdict(page, "Clears");
      assert.equal(await fixes.isVisible(), false);
      assert.match(await page.locator("#changed").innerText(), /Changed: .* → /);
      await page.locator("#changed").getByRole("button", { name: "Undo" }).click();
      await untilVerdict(page, "Hits");
    }
    assert.deepEqual(complaints, []);
  });

  test(`at ${named(screen)} the what-if table has its verdicts, and a cell becomes the setup and back`, async (t) => {
    const { page, complaints } = await openSite(t, browser, { screen });
    await openSearch(page, "what-if");
    await untilCells(page);
    const word = (rotor, hub) => cell(page, rotor, hub).locator(".pair-verdict").innerText();
    assert.equal(await word(203, 100), "Clears");
    for (const [rotor, hub] of [[180, 100], [180, 115], [203, 115]]) assert.notEqual(await word(rotor, hub), "Clears");
    assert.match(await cell(page, 203, 115).innerText(), /let in 7\.5 mm/);
    assert.doesNotMatch(await cell(page, 203, 100).innerText(), /let in/);
    assert.equal(await cell(page, 203, 100).getAttribute("aria-current"), "true");

    await cell(page, 180, 115).click();
    await untilVerdict(page, "Hits");
    assert.equal(await page.inputValue("#wheel-rotor_diameter"), "180");
    assert.equal(await page.inputValue("#wheel-hub_width"), "115");
    assert.match(await page.locator("#changed").innerText(), /Changed to rotor 180 on hub 115\./);
    await page.locator("#changed").getByRole("button", { name: "Undo" }).click();
    await untilVerdict(page, "Clears");
    assert.equal(await page.inputValue("#wheel-rotor_diameter"), "203");
    assert.equal(await page.inputValue("#wheel-hub_width"), "100");
    assert.equal(await page.locator("#changed").isVisible(), false);

    await untilCells(page);
    await page.getByRole("radio", { name: "Best" }).check();
    await page.getByRole("radio", { name: "Follows the hub" }).check();
    await untilPainted(page);
    await page.locator("#what-if .answer", { hasText: /at \d+\.\d°/ }).waitFor();
    await page.waitForFunction(() => !/let in/.test(document.querySelector("#what-if .answer").innerText));
    await untilCells(page);
    await cell(page, 180, 115).click();
    // The verdict before was the same word.
    await untilPainted(page);
    await untilVerdict(page, "Clears");
    assert.equal(await page.locator("#fork-tube_gap").inputValue(), "127", "115 and two dropouts of 6");
    assert.notEqual(await page.inputValue("#tab-clock"), "28");
    await page.locator("#undo").click();
    await untilPainted(page);
    assert.equal(await page.locator("#fork-tube_gap").inputValue(), "112");
    assert.equal(await page.inputValue("#tab-clock"), "28");
    assert.deepEqual(complaints, []);
  });

  test(`at ${named(screen)} a list that cannot be read explains itself and keeps the last good table`, async (t) => {
    const { page } = await openSite(t, browser, { screen });
    await openSearch(page, "what-if");
    const rotors = page.getByLabel("Rotors, mm");
    await rotors.fill("180, 203");
    await untilCells(page, 8);
    for (const wrong of ["180, large", "5", "", "99999", "1,2,3,4,5,6,7,8,9"]) {
      await rotors.fill(wrong);
      const note = page.locator("#rotor-list .field-note");
      assert.ok(await note.isVisible(), wrong);
      assert.match(await note.innerText(), /The last good list stays: 180, 203\./);
      assert.equal(await rotors.getAttribute("aria-invalid"), "true");
      assert.equal(await rotors.inputValue(), wrong);
      assert.equal(await page.locator("#what-if .cell").count(), 8);
    }
    await rotors.fill("160;180 203,5");
    assert.equal(await page.locator("#rotor-list .field-note").isVisible(), false);
    await cell(page, 203.5, 100).waitFor();
    await untilCells(page, 12);
  });

  test(`at ${named(screen)} two rotors side by side have one scale and their difference in words`, async (t) => {
    const { page, complaints } = await openSite(t, browser, { screen });
    await openSearch(page, "side-by-side");
    const drawings = page.locator("#side-by-side svg");
    await drawings.nth(1).waitFor();
    const scaled = async (first, second) => {
      const widths = await drawings.evaluateAll((svgs) => svgs.map((svg) => (
        // Without the outline, which some engines count among the width.
        svg.querySelector(".rotor").getBBox().width * svg.getScreenCTM().a
      )));
      assert.ok(Math.abs(widths[1] / widths[0] - second / first) < 0.01, `rotors ${widths} px wide`);
    };
    await scaled(180, 203);
    assert.match(await page.locator("#side-by-side ul").innerText(), /rotor 180.*rotor 203.*caliper holes move/is);
    const ids = await page.evaluate(() => [...document.querySelectorAll("[id]")].map(({ id }) => id));
    assert.deepEqual(ids.filter((id, index) => ids.indexOf(id) !== index), [], "no id twice");
    // So large that its drawing alone would have a wider page.
    await openSearch(page, "what-if");
    await page.getByLabel("Rotors, mm").fill("180, 203, 310");
    await page.locator("#second-rotor option", { hasText: "310" }).waitFor({ state: "attached" });
    await page.selectOption("#second-rotor", "310");
    await page.locator("#side-by-side figcaption", { hasText: "Rotor 310" }).waitFor();
    await scaled(180, 310);
    assert.deepEqual(complaints, []);
  });

  test(`at ${named(screen)} two rotors on one tab say none and why, and the shortest dropout can be used`, async (t) => {
    const { page } = await openSite(t, browser, { screen });
    await openSearch(page, "two-rotors");
    const cards = page.locator("#two-rotors li");
    await cards.filter({ hasText: /spacer/ }).nth(9).waitFor();
    const card = await cards.filter({ hasText: /^180 and 203/ }).innerText();
    assert.match(card, /spacer 11\.5 mm/);
    assert.match(card, /None, because with rotor \d+ .* to .* lacks \d+\.\d mm/);

    await openSearch(page, "shortest");
    const use = page.locator("#shortest").getByRole("button", { name: "Use it" });
    await use.waitFor();
    const [, end] = (await page.locator("#shortest").innerText()).match(/Tube end (\d+\.\d) mm/);
    await use.click();
    await page.waitForFunction((end) => Number(document.getElementById("fork-tube_end").value) === end, Number(end));
    await untilVerdict(page, "Clears");
    await typeInto(page, "fork.tube_end", String(Number(end) - 0.2));
    await page.locator("#verdict-word", { hasText: /Tight|Hits/ }).waitFor();
  });

  test(`at ${named(screen)} a tap on a position takes side and clock angle as one step`, async (t) => {
    const { page } = await openSite(t, browser, { screen });
    await openSearch(page, "positions");
    const place = page.locator('#positions [data-name="Right, ahead above"]');
    await place.waitFor();
    assert.match(await place.innerText(), /line up the leg/);
    await place.click();
    await untilPainted(page);
    assert.ok(await page.getByRole("radio", { name: "Right" }).isChecked());
    assert.ok(Number(await page.inputValue("#tab-clock")) < 0);
    assert.match(await page.locator("#notes").innerText(), /leaves up the leg/);
    await page.locator("#undo").click();
    await untilPainted(page);
    assert.ok(await page.getByRole("radio", { name: "Left" }).isChecked());
    assert.equal(await page.inputValue("#tab-clock"), "28");
  });
}

test("rules taken away change the shortest dropout's answer where they bind", async (t) => {
  const { page } = await openSite(t, browser, {});
  await typeInto(page, "dropout.slot_direction", "90");
  await openSearch(page, "shortest");
  const answer = page.locator("#shortest .answer:not(.outdated)");
  await answer.filter({ hasText: /Tube end|none/ }).waitFor();
  const before = await answer.innerText();
  await page.getByLabel("Line up the leg").uncheck();
  await page.getByLabel("Wheel drops out").uncheck();
  await page.waitForFunction((text) => {
    const shown = document.querySelector("#shortest .answer:not(.outdated)");
    return shown && shown.innerText !== text;
  }, before);
});

test("a new value greys the answers until the new ones are there, and the newest setup wins", async (t) => {
  const { page } = await openSite(t, browser, {});
  await openSearch(page, "positions");
  await openSearch(page, "what-if");
  await untilCells(page);
  await page.evaluate(() => {
    const answer = document.querySelector("#what-if .answer");
    new MutationObserver(() => { answer.dataset.greyed ||= answer.className.includes("outdated") || ""; })
      .observe(answer, { attributeFilter: ["class"] });
  });
  await typeInto(page, "fork.tube_end", "40");
  await page.locator("#what-if .answer[data-greyed=true]").waitFor({ state: "attached" });
  for (const end of ["60", "80", "20"]) await typeInto(page, "fork.tube_end", end);
  await untilCells(page);
  assert.match(await cell(page, 203, 100).innerText(), /Clears[\s\S]*0\.5 mm to spare/);
});

test("a search is stopped and taken up again", async (t) => {
  const { page } = await openSite(t, browser, {});
  await page.evaluate(() => {
    // Each answer is held back, so that there is time to stop.
    const post = Worker.prototype.postMessage;
    globalThis.asked = 0;
    Worker.prototype.postMessage = function (message) {
      globalThis.asked++;
      setTimeout(() => post.call(this, message), 150);
    };
  });
  await openSearch(page, "what-if");
  await page.locator("#what-if .cell").nth(1).waitFor();
  await page.locator("#what-if").getByRole("button", { name: "Stop" }).click();
  await page.getByText(/^Stopped after \d+ of 20\.$/).waitFor();
  assert.ok(await page.locator("#what-if .cell").count() < 20);
  const asked = await page.evaluate(() => globalThis.asked);
  await page.waitForTimeout(600);
  assert.equal(await page.evaluate(() => globalThis.asked), asked, "nothing more is asked of the worker");
  await page.locator("#what-if").getByRole("button", { name: "Try again" }).click();
  await untilCells(page);
});

for (const screen of SCREENS) {
  test(`at ${named(screen)} a worker that dies in mid-search leaves a plain message, and trying again finishes`, async (t) => {
    const { page } = await openSite(t, browser, { screen });
    await openSearch(page, "positions");
    await page.locator("#positions .cell").nth(7).waitFor();
    await page.clock.install();
    await loseWorker(page);
    await page.locator("details:has(#what-if) > summary").click();
    await page.clock.runFor(1000);
    await page.locator("#what-if progress").waitFor();
    await page.clock.runFor(60_000);
    const message = page.locator("#what-if").getByText(/stopped answering/);
    await message.waitFor();
    await typeInto(page, "tab.offset", "1");
    assert.equal(await page.inputValue("#tab-offset"), "1", "the rest works on");
    await page.clock.resume();
    await typeInto(page, "tab.offset", "0");
    await untilCells(page);
    assert.equal(await message.count(), 0);
  });

  test(`at ${named(screen)} a worker that cannot be had leaves a plain message and a button`, async (t) => {
    let isRefused = true;
    const { page } = await openSite(t, browser, { screen, refuses: (path) => isRefused && path.endsWith("worker.js") });
    await openSearch(page, "shortest");
    const message = page.locator("#shortest").getByText(/could not be started/);
    await message.waitFor();
    await typeInto(page, "wheel.rotor_diameter", "180");
    await untilVerdict(page, "Hits");
    await message.waitFor();
    const windows = page.locator("#window-list");
    await windows.filter({ hasText: /31\.5° to/ }).waitFor();
    isRefused = false;
    await page.locator("#shortest").getByRole("button", { name: "Try again" }).click();
    await page.locator("#shortest").getByRole("button", { name: "Use it" }).waitFor();
  });
}

test("the searches work after the server is gone", async (t) => {
  const { page, site, complaints } = await openSite(t, browser, {});
  await untilOffline(page);
  await site.stop();
  await page.reload();
  await untilAnswered(page);
  await openSearch(page, "what-if");
  await untilCells(page);
  assert.deepEqual(complaints, []);
});

// Opening a link and making one: the panel Send, its code read by another program, and text that stays text.
import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import jsQR from "jsqr";
import { VERSION } from "../../www/js/link/versions.js";
import { DESK, LACKS, PHONE, drawing, launch, named, openSite, some, row, typeInto, untilAnswered, untilPainted, untilVerdict, withoutPictures } from "./harness.js";

const ROTOR = "wheel.rotor_diameter";
const HOSTILE = "<img src=x onerror=\"document.body.dataset.hurt=1\"><script>document.body.dataset.hurt=1</script>";
const LINK = "#v=1&wheel.rotor_diameter=180&tab.clock=45.5&end=1";
let browser;

before(async () => { browser = await launch(); });
after(() => browser.close());

const rotorOf = (page) => page.inputValue("#wheel-rotor_diameter");
const notices = (page) => page.locator("#notices p").allInnerTexts();
const addressOf = (page) => page.evaluate(() => location.href);

async function openSend(page) {
  await page.getByRole("button", { name: "Send", exact: true }).click();
  await page.locator("#message:not(:empty)").waitFor();
}

/** Opens the page anew at a link, as a tap in a message does. */
async function openAt(page, site, fragment) {
  await page.goto("about:blank");
  await page.goto(site.url + fragment);
  await untilAnswered(page);
  await page.waitForFunction(() => location.hash === "");
  await untilPainted(page);
}

/** What another program reads from the pixels of a code on the page. */
async function scanned(page, code) {
  await code.evaluate((svg) => {
    const body = document.getElementById("panel-body");
    body.scrollTop += svg.getBoundingClientRect().top - body.getBoundingClientRect().top;
  });
  await untilPainted(page);
  const png = (await code.screenshot()).toString("base64");
  const box = await code.boundingBox();
  const { width, height, greys } = await page.evaluate(async ([png, box]) => {
    const image = new Image();
    image.src = `data:image/png;base64,${png}`;
    await image.decode();
    const [width, height] = [box.width, box.height].map(Math.round);
    const context = Object.assign(document.createElement("canvas"), { width, height }).getContext("2d");
    // Some engines give the whole window whatever is asked for.
    const isWhole = image.width === innerWidth && image.height === innerHeight;
    context.drawImage(image, isWhole ? -box.x : 0, isWhole ? -box.y : 0);
    const { data } = context.getImageData(0, 0, width, height);
    let greys = "";
    for (let index = 0; index < data.length; index += 4) greys += String.fromCharCode(data[index]);
    return { width, height, greys: btoa(greys) };
  }, [png, box]);
  const pixels = Uint8ClampedArray.from([...Buffer.from(greys, "base64")].flatMap((grey) => [grey, grey, grey, 255]));
  return jsQR(pixels, width, height)?.data;
}

test("a link wins over the setup kept from last time, which Undo brings back in one step", async (t) => {
  const { page, site, complaints } = await openSite(t, browser);
  await typeInto(page, ROTOR, "220");
  await typeInto(page, "tab.reach", "1");
  await openAt(page, site, LINK);
  assert.equal(await rotorOf(page), "180");
  assert.equal(await page.inputValue("#tab-clock"), "45.5");
  assert.equal(await page.inputValue("#tab-reach"), "0", "what the link leaves out stands at its default");
  assert.match(await page.locator("#changed").innerText(), /The setup from the link is open\. Undo brings back the one before\./);
  assert.deepEqual(await notices(page), []);
  await page.locator("#undo").click();
  await untilPainted(page);
  assert.equal(await rotorOf(page), "220");
  assert.equal(await page.inputValue("#tab-reach"), "1");
  assert.deepEqual(complaints, []);
});

test("the address is cleaned, so that a reload keeps later work", async (t) => {
  const { page, site } = await openSite(t, browser);
  await openAt(page, site, LINK);
  assert.equal(await addressOf(page), site.url);
  await typeInto(page, ROTOR, "160");
  await page.reload();
  await untilAnswered(page);
  assert.equal(await rotorOf(page), "160");
});

test("a link that comes while the page is open is one step too, time after time", async (t) => {
  const { page, complaints } = await openSite(t, browser);
  for (const rotor of ["180", "160", "180"]) {
    await page.evaluate((rotor) => { location.hash = `#v=1&wheel.rotor_diameter=${rotor}&end=1`; }, rotor);
    await page.waitForFunction((rotor) => document.querySelector("#wheel-rotor_diameter").value === rotor && location.hash === "", rotor);
  }
  await page.locator("#undo").click();
  await untilPainted(page);
  assert.equal(await rotorOf(page), "160");
  await page.locator("#redo").click();
  await untilPainted(page);
  assert.equal(await rotorOf(page), "180");
  assert.deepEqual(complaints, []);
});

test("the page's own places are no links", async (t) => {
  const { page } = await openSite(t, browser);
  await page.evaluate(() => { location.hash = "#controls"; });
  await untilPainted(page);
  assert.equal(new URL(await addressOf(page)).hash, "#controls");
  assert.ok(await page.locator("#undo").isDisabled());
});

test("what a link brings that cannot be read is told, and the rest is open", async (t) => {
  const { page, site, complaints } = await openSite(t, browser);
  await openAt(page, site, "#v=1&wheel.rotor_diameter=20&side=up&tab.reach=1&end=1");
  const told = await notices(page);
  assert.equal(told.length, 2);
  assert.match(told.join("\n"), /Rotor size is 20.*Give 90 to 320 mm.*the example value, 203, stands instead/);
  assert.match(told.join("\n"), /Brake side, "up" \(side\), is none of left, right/);
  assert.equal(await page.inputValue("#tab-reach"), "1");
  await untilVerdict(page, "Clears");

  await openAt(page, site, `#v=1&${Array.from({ length: 9 }, (_, index) => `a${index}=1`).join("&")}&end=1`);
  assert.match((await notices(page)).at(-1), /^4 more of what the link brings could not be read\.$/);
  assert.deepEqual(complaints, []);
});

test("where the part that reads links cannot be loaded, the page says so and works on", async (t) => {
  const { page, site } = await openSite(t, browser, { refuses: (path) => /\/js\/read-\w+\.js$/.test(path) });
  await page.goto(`${site.url}${LINK}`);
  await page.getByText("The link could not be opened").waitFor();
  assert.equal(new URL(await addressOf(page)).hash, LINK, "for the next try");
  await page.evaluate(() => dispatchEvent(new HashChangeEvent("hashchange")));
  assert.equal(await rotorOf(page), "203");
});

test("text in a link is text on the page, in the drawings and in the message", async (t) => {
  const { page, site, complaints } = await openSite(t, browser);
  await openAt(page, site, `#v=1&name=${encodeURIComponent(HOSTILE.slice(0, 80))}&side=${encodeURIComponent(HOSTILE)}&${encodeURIComponent(HOSTILE)}=1&caliper.bodies=${encodeURIComponent(HOSTILE.slice(0, 60))},12,15,bolted;-38,2;38,2;0,36&end=1`);
  assert.equal(await page.inputValue("#name"), HOSTILE.slice(0, 80));
  assert.ok((await notices(page)).join("\n").includes("<img src=x"), "the notices show it as it is");
  for (const view of ["side", "section"]) {
    const markup = await drawing(page, view);
    assert.doesNotMatch(markup, /<img|<script/);
    assert.match(markup, /<title>[^<]*&lt;img src=x onerror/, "the name of the body is there as text");
  }
  await openSend(page);
  assert.ok((await page.locator("#message").innerText()).startsWith(HOSTILE.slice(0, 40)));
  assert.ok((await page.locator("#link").inputValue()).includes("%3Cimg%20src%3Dx"));
  assert.equal(await page.locator("img[src=x], script:not([src])").count(), 0);
  assert.equal(await page.evaluate(() => document.body.dataset.hurt), undefined);
  assert.deepEqual(complaints, []);
});

for (const [screen, colorScheme] of some([[PHONE, "light"], [DESK, "dark"]], 1)) {
  test(`at ${named(screen)} in ${colorScheme} another program reads the code, and what it reads opens the same setup`, { skip: screen === DESK && LACKS.pictures }, async (t) => {
    const { page, site, complaints } = await openSite(t, browser, { screen, colorScheme });
    await openAt(page, site, "#v=1&name=Drei%20R%C3%A4der&wheel.rotor_diameter=180&caliper.holes=-37,12;37,12&tab.clock=45.5&end=1");
    await openSend(page);
    const link = await page.locator("#link").inputValue();
    const own = page.locator(".send .code").first();
    const read = await scanned(page, own.locator("svg"));
    assert.ok(read?.startsWith(`${site.url}#v=${VERSION}&`), read);
    assert.ok(read.length <= link.length);
    const { width } = await own.boundingBox();
    assert.ok(width >= Math.min(screen.width - 48, 500), `${width} px wide`);

    await page.getByRole("button", { name: "Full screen" }).click();
    assert.equal(await scanned(page, page.locator(".code-whole svg")), read);
    await page.locator(".code-whole").getByRole("button", { name: "Close" }).click();
    for (const address of [read, link]) {
      await openAt(page, site, new URL(address).hash);
      assert.equal(await page.inputValue("#name"), "Drei Räder");
      assert.equal(await rotorOf(page), "180");
      assert.equal(await page.inputValue("#caliper-holes-0-0"), "-37");
      assert.equal(await page.inputValue("#tab-clock"), "45.5");
      assert.deepEqual(await notices(page), []);
    }
    assert.deepEqual(withoutPictures(complaints), []);
  });
}

test("a setup with very much in it gets a code that can still be read, and a word that it is fine", async (t) => {
  const { page, site, complaints } = await openSite(t, browser);
  const outline = "10.123457,0.234561;200.123456,1.654321;299.123457,90.123456;280.123456,270.123456;150.123456,299.999999;-5.123456,200.123456";
  const bodies = Array.from({ length: 8 }, (_, index) => `body ${index},12.000001,15.654321;${outline}`).join("/");
  await openSend(page);
  const fine = page.getByText("hold the other phone close");
  assert.ok(await fine.isHidden());
  await openAt(page, site, `#v=1&name=${encodeURIComponent("自転車屋".repeat(10))}&tab.clock=33.333333333333336&caliper.bodies=${bodies}&end=1`);
  assert.deepEqual(await notices(page), []);
  await openSend(page);
  assert.ok(await fine.isVisible());
  const link = await page.locator("#link").inputValue();
  await page.getByRole("button", { name: "Full screen" }).click();
  const read = await scanned(page, page.locator(".code-whole svg"));
  assert.ok(read.includes("packed=") && read.length < link.length + 1, read);
  await openAt(page, site, new URL(read).hash);
  assert.equal(await page.inputValue("#name"), "自転車屋".repeat(10));
  assert.equal(await page.inputValue("#caliper-bodies-7-outline-5-0"), "-5.123456");
  assert.equal(await page.inputValue("#tab-clock"), "33.333333333333336");
  assert.deepEqual(withoutPictures(complaints), []);
});

test("Copy takes the whole link, and selects it where the browser does not let the page copy", async (t) => {
  const { page } = await openSite(t, browser);
  await page.evaluate(() => {
    Object.defineProperty(navigator, "clipboard", { configurable: true, value: { writeText: async (text) => { window.copied = text; } } });
  });
  await openSend(page);
  const field = page.locator("#link");
  const [linkCopy, messageCopy] = [0, 1].map((index) => page.locator(".sharing").nth(index).getByRole("button", { name: "Copy" }));
  await linkCopy.click();
  await page.getByText("Copied.", { exact: true }).waitFor();
  assert.equal(await page.evaluate(() => window.copied), await field.inputValue());
  await messageCopy.click();
  await page.waitForFunction(() => window.copied === document.querySelector("#message").textContent);

  await page.evaluate(() => {
    navigator.clipboard.writeText = async () => { throw new Error("refused"); };
    document.execCommand = () => false;
  });
  await linkCopy.click();
  await page.getByText("copy it by hand").waitFor();
  assert.equal(
    await field.evaluate((element) => element.value.slice(element.selectionStart, element.selectionEnd)),
    await field.inputValue(),
  );
  await messageCopy.click();
  assert.match(await page.evaluate(() => getSelection().toString()), /^Disc brake[^]*come first\.$/);
});

test("Share hands link and message to the device, and a change of mind is no fault", async (t) => {
  const { page, context, complaints } = await openSite(t, browser);
  await context.addInitScript(() => {
    navigator.share = async (data) => {
      window.shared = data;
      if (window.refusal) throw window.refusal;
    };
  });
  await page.reload();
  await untilAnswered(page);
  await openSend(page);
  const shares = page.getByRole("button", { name: "Share" });
  await shares.first().click();
  const linked = await page.evaluate(() => window.shared);
  assert.deepEqual([linked.title, linked.url], ["Tabwright", await page.locator("#link").inputValue()]);
  assert.match(linked.text, /never an approval/);
  await shares.last().click();
  const { text, url } = await page.evaluate(() => window.shared);
  assert.equal(text, await page.locator("#message").textContent());
  assert.equal(url, await page.locator("#link").inputValue());
  await page.evaluate(() => { window.refusal = new DOMException("", "AbortError"); });
  await shares.first().click();
  assert.equal(await page.getByText("could not be shared").count(), 0);
  await page.evaluate(() => { window.refusal = new DOMException("", "NotAllowedError"); });
  await shares.first().click();
  await page.getByText("It could not be shared from here. Copy it instead.").waitFor();
  assert.deepEqual(complaints, []);
});

// A wide fork has room for the caliper of the larger rotor only: common practice, no source.
test("the message says why 203 works and 180 does not, in the page's own numbers", async (t) => {
  const { page } = await openSite(t, browser);
  const summary = await page.locator("#verdict-summary").innerText();
  await openSend(page);
  const message = page.locator("#message");
  const text = await message.innerText();
  assert.match(text, /left fork leg, rotor 203, hub 100 mm wide, 112 mm between the tubes, caliper at 28°/);
  assert.ok(text.includes(`It fits. ${summary}`), text);
  assert.match(text, /Why not rotor 180\? Hits: /);
  assert.match(text, /Geometry only, not an approval/);
  assert.ok(text.length <= 700);

  await page.getByLabel("Compared with").selectOption("160");
  await page.waitForFunction(() => /rotor 160/.test(document.querySelector("#message").textContent));
  await page.getByLabel("Compared with").selectOption({ label: "Nothing" });
  await page.waitForFunction(() => !/with rotor|Why not/.test(document.querySelector("#message").textContent));

  await page.locator("#panel .panel-head button").click();
  await typeInto(page, ROTOR, "180");
  await untilVerdict(page, "Hits");
  await openSend(page);
  await page.getByLabel("Compared with").selectOption("203");
  await page.waitForFunction(() => /Better with rotor 203: Everything clears\./.test(document.querySelector("#message").textContent));
});

test("with a mistyped value the last good setup is sent, and the panel says so", async (t) => {
  const { page } = await openSite(t, browser);
  await typeInto(page, ROTOR, "180");
  await untilVerdict(page, "Hits");
  await typeInto(page, ROTOR, "abc");
  await untilVerdict(page, "Not checked");
  await openSend(page);
  assert.ok(await page.getByText("This is the last setup that had one.").isVisible());
  assert.match(await page.locator("#link").inputValue(), /wheel\.rotor_diameter=180&end=1$/);
  assert.equal(await row(page, ROTOR).locator("input[type=text]").first().inputValue(), "abc");
});

test("the length on show is that of the link", async (t) => {
  const { page } = await openSite(t, browser);
  await openSend(page);
  const length = (await page.locator("#link").inputValue()).length;
  assert.match(await page.locator("#link-length").innerText(), new RegExp(`^${length} characters\\.`));
});

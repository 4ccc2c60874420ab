// The page in headless Chromium, by keyboard alone:
//
//	node page_test.mjs FOLDER
//
// FOLDER is what `browser -out` wrote; playwright-core drives the browser.

import assert from "node:assert/strict";
import { readFile } from "node:fs/promises";
import { createServer } from "node:http";
import { extname, join } from "node:path";
import { chromium } from "playwright-core";

const folder = process.argv[2];
const types = { ".html": "text/html", ".js": "text/javascript", ".css": "text/css", ".wasm": "application/wasm" };
let sent = 0;
const server = createServer(async (request, response) => {
  const name = request.url === "/" ? "/index.html" : new URL(request.url, "http://x").pathname;
  try {
    const data = await readFile(join(folder, name + ".br"));
    sent += data.length;
    response.writeHead(200, { "Content-Type": types[extname(name)], "Content-Encoding": "br" }).end(data);
  } catch {
    response.writeHead(404).end();
  }
});
await new Promise(done => server.listen(0, "127.0.0.1", done));

const browser = await chromium.launch({
  executablePath: process.env.CHROMIUM || "/usr/bin/chromium",
  args: ["--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking", "--disable-component-update", "--disable-sync"],
});
try {
  const page = await browser.newPage({ viewport: { width: 360, height: 740 } });
  const problems = [];
  page.on("pageerror", e => problems.push(String(e)));
  page.on("console", m => { if (m.type() === "error") problems.push(m.text()); });
  await page.goto(`http://127.0.0.1:${server.address().port}/`);
  const key = k => page.keyboard.press(k);
  const focused = () => page.evaluate(() => document.activeElement.id);
  const tabTo = async id => {
    for (let i = 0; i < 60; i++) {
      if (await focused() === id) return;
      await key("Tab");
    }
    assert.fail(`the keyboard does not come to ${id}`);
  };
  const type = async (id, text) => {
    await tabTo(id);
    await key("Control+a");
    await page.keyboard.type(text);
  };
  await page.locator("#form").waitFor({ timeout: 120_000 });
  console.log(`${sent} bytes sent`);
  assert.ok(sent < 1_500_000, "the page loads more than 1.5 MB");

  // A calculation is picked by the first letters of its title and the arrows.
  await tabTo("pick");
  await page.keyboard.type("Dil");
  for (let i = 0; i < 20 && await page.locator("#pick").inputValue() !== "dilution"; i++) await key("ArrowDown");
  assert.equal(await page.locator("#pick").inputValue(), "dilution");
  await page.locator("#in-consistency-in").waitFor();

  // Typing changes the worked solution.
  await type("in-mass-flow", "600 t/h");
  await type("in-consistency-in", "4.6 %");
  await type("in-consistency-out", "0.92 %");
  assert.match(await page.locator("#work").innerText(), /2400 t\/h/);
  assert.match(await page.locator("#work").innerText(), /q_w = q\*\(c_in - c_out\)\/\(c_out - c_w\)/);

  // A wrong unit is told, and its field says so to a screen reader.
  await page.locator("#pick").focus();
  await type("in-mass-flow", "600 m");
  assert.match(await page.locator("#wrong").innerText(), /no unit of mass flow/);
  assert.equal(await page.locator("#in-mass-flow").getAttribute("aria-invalid"), "true");
  assert.equal(await page.locator("#in-mass-flow").getAttribute("aria-describedby"), "wrong");
  assert.equal(await page.locator("#solution").isVisible(), false);
  await type("in-mass-flow", "600 t/h");
  assert.equal(await page.locator("#wrong").innerText(), "");

  // A range is drawn, and told in words and in numbers.
  await type("in-consistency-in", "3..5 %");
  const picture = page.locator("#drawing svg");
  assert.match(await picture.getAttribute("aria-label"), /^water-flow \[t\/h\] over consistency-in \[%\]: 1356\.52 at 3, 2660\.87 at 5$/);
  assert.equal((await picture.locator("polyline").getAttribute("points")).split(" ").length, 121);

  // A result given is solved for.
  await type("in-consistency-in", "4.6 %");
  await page.locator("#pick").focus();
  await type("in-mass-flow", "");
  await key("Delete");
  await page.locator("#form summary").focus();
  await key("Enter");
  await type("in-water-flow", "1200 t/h");
  assert.match(await page.locator("#work").innerText(), /mass-flow = 300 t\/h/);

  // Nothing is wider than a telephone, for any calculation; every field has a
  // label, and what is filled in is computed. The page goes through them by itself:
  // each answer to a question takes as long as the machine is busy.
  const shown = await page.evaluate(() => [...document.querySelectorAll("#pick option")].map(({ value: name }) => {
    const pick = document.getElementById("pick");
    pick.value = name;
    pick.dispatchEvent(new Event("change"));
    document.querySelectorAll("details").forEach(d => { d.open = true; });
    return {
      name,
      wide: document.documentElement.scrollWidth,
      unnamed: [...document.querySelectorAll("input, select")].filter(e => !e.labels.length).map(e => e.id),
      wrong: document.getElementById("wrong").textContent,
    };
  }));
  for (const { name, wide, unnamed, wrong } of shown) {
    assert.ok(wide <= 360, `${name} is ${wide} px wide`);
    assert.deepEqual(unnamed, [], name);
    assert.equal(wrong, "", name);
  }
  assert.deepEqual(problems, []);
  console.log(`${shown.length} calculations shown`);
} finally {
  await browser.close();
  server.close();
}

// Reads every page of a handbook in headless Chromium, offline, and says what is
// wrong with it:
//
//     node check.mjs DIR [--all]
//
// - a link leads to a file or a place that is not there, or a page asks for
//   anything outside DIR;
// - a page is wider than a telephone of 360 px, or something on it is, and does
//   not scroll within itself;
// - a formula has no size, or shows an error;
// - axe finds a violation of WCAG 2.1 A or AA, or of its best practices, on an
//   index or on each eighth of the other pages, which are all of one form;
//   --all asks it of every page.
import { readFileSync, readdirSync } from 'node:fs';
import { createRequire } from 'node:module';
import { resolve } from 'node:path';
import { pathToFileURL } from 'node:url';
import { chromium } from 'playwright-core';

const all = process.argv.includes('--all');
const dir = resolve(process.argv[2]);
const base = pathToFileURL(dir + '/').href;
const names = readdirSync(dir).filter(name => name.endsWith('.html')).sort();
const axe = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');
const problems = [];
const ids = new Map();
const links = [];
let formulas = 0, inspected = 0;

// look runs in the page.
function look() {
  const width = document.documentElement.clientWidth;
  const scrolls = e => {
    for (; e && e !== document.body; e = e.parentElement) {
      if (['auto', 'scroll', 'hidden'].includes(getComputedStyle(e).overflowX)) return true;
    }
    return false;
  };
  const wide = document.documentElement.scrollWidth > width ? ['the page: ' + document.documentElement.scrollWidth + ' px'] : [];
  for (const e of document.body.querySelectorAll('*')) {
    const box = e.getBoundingClientRect();
    if (box.right > width + 0.5 && box.width > 0 && !scrolls(e) && !e.closest('.skip')) {
      wide.push(e.tagName + ' ' + e.textContent.slice(0, 40));
    }
  }
  const maths = [...document.querySelectorAll('math')];
  return {
    wide: wide.slice(0, 3),
    formulas: maths.length,
    empty: maths.filter(m => {
      const box = m.getBoundingClientRect();
      return !(box.width > 0 && box.height > 0) || m.namespaceURI !== 'http://www.w3.org/1998/Math/MathML'
        || m.querySelector('merror') || getComputedStyle(m).display.indexOf('math') < 0;
    }).map(m => m.textContent),
    ids: [...document.querySelectorAll('[id]')].map(e => e.id),
    links: [...document.querySelectorAll('a[href], link[href]')].map(e => e.href),
  };
}

async function read(page, name) {
  await page.goto(base + name);
  const seen = await page.evaluate(look);
  formulas += seen.formulas;
  ids.set(base + name, new Set(seen.ids));
  for (const to of seen.links) links.push([name, to]);
  for (const what of seen.wide) problems.push(`${name}: wider than 360 px: ${what}`);
  for (const what of seen.empty) problems.push(`${name}: formula not shown: ${what}`);
  if (!all && names.indexOf(name) % 8 !== 0 && !['index.html', 'questions.html', 'standards.html'].includes(name)) return;
  inspected++;
  await page.evaluate(axe);
  const found = await page.evaluate(() => axe.run({ resultTypes: ['violations'], preload: false }));
  for (const v of found.violations) problems.push(`${name}: ${v.id}: ${v.help}: ${v.nodes[0].html.slice(0, 100)}`);
}

const browser = await chromium.launch({
  executablePath: '/usr/bin/chromium',
  args: ['--no-sandbox', '--disable-gpu', '--disable-quic', '--no-first-run', '--disable-background-networking', '--disable-component-update', '--disable-sync'],
});
try {
  const context = await browser.newContext({ viewport: { width: 360, height: 740 }, offline: true });
  const waiting = [...names];
  await Promise.all([1, 2].map(async () => {
    const page = await context.newPage();
    page.on('pageerror', e => problems.push(`${page.url()}: ${e.message}`));
    page.on('request', r => { if (!r.url().startsWith(base)) problems.push(`${page.url()} asks for ${r.url()}`); });
    page.on('requestfailed', r => problems.push(`${page.url()} misses ${r.url()}`));
    for (let name; (name = waiting.shift());) await read(page, name);
  }));
  for (const [name, to] of links) {
    const [file, place] = to.split('#');
    if (file.endsWith('.css') ? !readdirSync(dir).includes(file.slice(base.length)) : !ids.has(file) || place && !ids.get(file).has(place)) {
      problems.push(`${name} leads to ${to}, which is not there`);
    }
  }
} finally {
  await browser.close();
}
for (const p of problems.slice(0, 40)) console.log(p);
console.log(`${names.length} pages, ${links.length} links, ${formulas} formulas, ${inspected} pages inspected by axe, ${problems.length} problems`);
if (problems.length > 0 || names.length < 4 || formulas === 0) process.exit(1);

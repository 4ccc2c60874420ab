"use strict";

// The page asks the library for texts and numbers, and sets them. It computes
// nothing but where a line of the drawing goes.

const at = id => document.getElementById(id);

function make(name, text, attributes = {}) {
  const e = document.createElement(name);
  if (text) e.textContent = text;
  for (const [key, value] of Object.entries(attributes)) e.setAttribute(key, value);
  return e;
}

let described;

// Later, not within the call: what fails in the page would end the library too.
globalThis.millmathsReady = () => setTimeout(begin);

function begin() {
  for (const room of millmathsRooms().result) {
    const group = make("optgroup", "", { label: room.title });
    for (const c of room.calculations) group.append(make("option", c.title, { value: c.name }));
    at("pick").append(group);
  }
  const wanted = decodeURIComponent(location.hash.slice(1));
  if ([...at("pick").options].some(o => o.value === wanted)) at("pick").value = wanted;
  at("pick").addEventListener("change", () => { location.hash = at("pick").value; pick(); });
  at("form").addEventListener("input", e => { if (e.target !== at("pick")) work(); });
  at("form").addEventListener("submit", e => e.preventDefault());
  at("of").addEventListener("change", draw);
  at("state").hidden = true;
  at("form").hidden = false;
  pick();
}

function pick() {
  described = millmathsDescribe(at("pick").value).result;
  at("answers").textContent = described.answers;
  at("inputs").replaceChildren(...described.inputs.flatMap(f => row(f, f.example)));
  const names = described.inputs.map(f => f.name);
  at("outputs").replaceChildren(...described.outputs.filter(f => f.range && !names.includes(f.name)).flatMap(f => row(f, "")));
  work();
}

// row is the label and the field of one value.
function row(f, text) {
  const id = "in-" + f.name;
  const label = make("label", f.name, { for: id });
  const say = [f.help];
  if (f.default) say.push("default " + f.default);
  else if (!f.needed && !f.choices.length) say.push("may be left out");
  if (f.unit) say.push("in " + f.unit + " or another unit");
  label.append(" ", make("small", (f.choices.length ? "" : f.symbol + ": ") + say.join("; ")));
  let input;
  if (f.choices.length) {
    input = make("select", "", { id, name: f.name });
    input.append(make("option", "", { value: "" }), ...f.choices.map(c => make("option", c, { value: c })));
  } else {
    input = make("input", "", { id, name: f.name, type: "text", autocomplete: "off", autocapitalize: "off", spellcheck: "false" });
  }
  input.value = text;
  return [label, input];
}

let curves = [];

function work() {
  const fields = [...at("form").querySelectorAll("#inputs [name], #outputs [name]")];
  const texts = Object.fromEntries(fields.map(e => [e.name, e.value]));
  const { result, error } = millmathsWork(at("pick").value, texts);
  for (const e of fields) {
    const bad = error && e.name === error.input;
    e.setAttribute("aria-invalid", bad ? "true" : "false");
    if (bad) e.setAttribute("aria-describedby", "wrong"); else e.removeAttribute("aria-describedby");
  }
  at("wrong").textContent = error ? error.text : "";
  at("solution").hidden = !result.solution;
  if (result.solution) at("work").replaceChildren(...solution(result.solution));
  const before = at("of").value;
  curves = result.curves.filter(c => c.pieces.length);
  at("curve").hidden = !curves.length;
  at("of").replaceChildren(...curves.map(c => make("option", c.output)));
  if (curves.some(c => c.output === before)) at("of").value = before;
  draw();
}

function solution(s) {
  const parts = described.cautions.map(c => make("p", "Caution: " + c));
  if (s.solved) parts.push(make("p", "Solved for: " + s.solved));
  for (const step of s.steps) {
    parts.push(make("pre", step.formula + "\n  = " + step.substituted + (step.result ? "\n  = " + step.result : "")));
  }
  if (s.method) parts.push(make("p", "Method: " + s.method));
  parts.push(table(["symbol", "result", "name", "u"], s.results.map(r => [r.symbol, r.reported, r.name, r.u])));
  for (const w of s.warnings) parts.push(make("p", "Warning: " + w));
  parts.push(make("p", "Source: " + s.source + " (" + s.status + ")", { class: "hint" }));
  return parts;
}

function table(heads, rows) {
  const used = heads.map((_, i) => rows.some(r => r[i]));
  const t = make("table");
  const line = (cells, name) => {
    const tr = make("tr");
    cells.forEach((c, i) => { if (used[i]) tr.append(make(name, c, name === "th" ? { scope: "col" } : {})); });
    return tr;
  };
  t.append(line(heads, "th"), ...rows.map(r => line(r, "td")));
  return t;
}

const people = x => String(Number(x.toPrecision(6)));

// ticks are round numbers from low to high, about five of them.
function ticks(low, high) {
  if (low === high) { const d = Math.abs(low) / 10 || 1; low -= d; high += d; }
  const raw = (high - low) / 5, power = 10 ** Math.floor(Math.log10(raw));
  const step = power * [1, 2, 5, 10].find(m => m * power >= raw * 0.999);
  const list = [];
  for (let i = Math.floor(low / step + 1e-9); i <= Math.ceil(high / step - 1e-9); i++) list.push(i * step);
  return list;
}

function draw() {
  const c = curves.find(c => c.output === at("of").value) || curves[0];
  if (!c) { at("drawing").replaceChildren(); return; }
  const points = c.pieces.flat();
  const xs = ticks(Math.min(...points.map(p => p[0])), Math.max(...points.map(p => p[0])));
  const ys = ticks(Math.min(...points.map(p => p[1])), Math.max(...points.map(p => p[1])));
  const [left, right, top, bottom] = [64, 348, 14, 222];
  const scale = (list, from, to) => v => from + (v - list[0]) / (list[list.length - 1] - list[0]) * (to - from);
  const x = scale(xs, left, right), y = scale(ys, bottom, top);
  const first = points[0], last = points[points.length - 1];
  const name = `${c.y} over ${c.x}: ${people(first[1])} at ${people(first[0])}, ${people(last[1])} at ${people(last[0])}`;
  const svg = (tag, attributes, text) => {
    const e = document.createElementNS("http://www.w3.org/2000/svg", tag);
    for (const [key, value] of Object.entries(attributes)) e.setAttribute(key, value);
    if (text) e.textContent = text;
    return e;
  };
  const picture = svg("svg", { viewBox: "0 0 360 262", role: "img", "aria-label": name });
  for (const v of xs) {
    picture.append(svg("line", { x1: x(v), x2: x(v), y1: top, y2: bottom, stroke: "#d8d8d8" }),
      svg("text", { x: x(v), y: bottom + 16, "text-anchor": "middle" }, people(v)));
  }
  for (const v of ys) {
    picture.append(svg("line", { x1: left, x2: right, y1: y(v), y2: y(v), stroke: "#d8d8d8" }),
      svg("text", { x: left - 6, y: y(v) + 4, "text-anchor": "end" }, people(v)));
  }
  for (const piece of c.pieces) {
    picture.append(svg("polyline", { points: piece.map(p => x(p[0]).toFixed(2) + "," + y(p[1]).toFixed(2)).join(" "), fill: "none", stroke: "#1d2321", "stroke-width": 2 }));
  }
  picture.append(svg("text", { x: (left + right) / 2, y: 256, "text-anchor": "middle" }, c.x));
  at("drawing").replaceChildren(make("p", c.y, { class: "hint" }), picture);
  at("numbers").replaceChildren(...table([c.x, c.y], points.filter((_, i) => i % 12 === 0).map(p => p.map(people))).childNodes);
}

const go = new Go();
fetch("millmaths.wasm")
  .then(r => { if (!r.ok) throw new Error(r.status + " " + r.statusText); return WebAssembly.instantiateStreaming(r, go.importObject); })
  .then(m => go.run(m.instance))
  .catch(e => { at("state").textContent = "The library could not be loaded: " + e.message; });

"use strict";
const data = JSON.parse(document.getElementById("data").textContent);
const words = data.words;
const NS = "http://www.w3.org/2000/svg";
const count = data.frames;
const calm = matchMedia("(prefers-reduced-motion: reduce)");
const one = id => document.getElementById(id);
// No figure reads minus nothing.
const number = (value, places) => (Math.abs(value) < 0.5 * 10 ** -places ? 0 : value).toLocaleString(data.language, { minimumFractionDigits: places, maximumFractionDigits: places });
const say = (template, values) => template.replace(/\{(\w+)\}/g, (_, name) => values[name]);

function draw(parent, name, attributes, text) {
  const element = document.createElementNS(NS, name);
  for (const [key, value] of Object.entries(attributes)) element.setAttribute(key, value);
  if (text !== undefined) element.textContent = text;
  parent.appendChild(element);
  return element;
}

// Round ticks, about so many.
function ticks(low, high, about) {
  const rough = (high - low) / about, power = 10 ** Math.floor(Math.log10(rough));
  const step = [1, 2, 5, 10].map(m => m * power).find(s => s >= rough);
  const found = [];
  for (let i = Math.ceil(low / step - 1e-9); i * step <= high + 1e-9 * step; i++) found.push(i * step);
  return { found, places: Math.max(0, -Math.floor(Math.log10(step) + 1e-9)) };
}

// An empty chart: scales, axes, and where a value lies.
function chart(id, height, x, y, unitX, unitY) {
  const svg = one(id), width = Math.max(280, svg.clientWidth), left = 50, right = 14, top = 24, bottom = 40;
  svg.replaceChildren();
  svg.setAttribute("viewBox", `0 0 ${width} ${height}`);
  const X = v => left + (v - x[0]) / (x[1] - x[0]) * (width - left - right);
  const Y = v => height - bottom - (v - y[0]) / (y[1] - y[0]) * (height - top - bottom);
  const tx = ticks(x[0], x[1], 6), ty = ticks(y[0], y[1], Math.max(3, height / 60));
  for (const v of ty.found) {
    draw(svg, "line", { x1: left, x2: width - right, y1: Y(v), y2: Y(v), class: "axis" });
    draw(svg, "text", { x: left - 6, y: Y(v) + 5, "text-anchor": "end" }, number(v, ty.places));
  }
  for (const v of tx.found) draw(svg, "text", { x: X(v), y: height - bottom + 18, "text-anchor": "middle" }, number(v, tx.places));
  draw(svg, "text", { x: width - right, y: height - 4, "text-anchor": "end" }, unitX);
  draw(svg, "text", { x: 2, y: 13 }, unitY);
  return { svg, X, Y, left, right: width - right, bottom: height - bottom };
}

const path = (xs, ys) => xs.map((x, i) => `${i ? "L" : "M"}${x.toFixed(1)} ${ys[i].toFixed(1)}`).join("");
const scaled = (list, factor) => list.map(v => v * factor);
const head = scaled(data.head, data.headFactor), velocity = scaled(data.velocity, data.velocityFactor);
const measured = scaled(data.measured, data.pressureFactor);
const places = data.places, length = data.length * data.headUnit;
const along = Array.from({ length: places }, (_, i) => i / (places - 1) * length);
const span = (list, room) => { const low = Math.min(...list), high = Math.max(...list); return [low - room * (high - low), high + room * (high - low)]; };
const supply = data.supply * data.headUnit, vessel = data.vessel * data.headUnit;

const body = Array.from({ length: count }, (_, i) => head[i * places + places - 1] / data.headUnit * data.pressurePerHead);
const times = Array.from({ length: count }, (_, i) => i * data.step);
let grade, under, gradeLine, flow, speedLine, trace, running, dot;

// Charts are as wide as the page lets them be, their letters always of one size.
function layout() {
  grade = chart("grade", 330, [0, length], span([...head, 0, supply, vessel], 0.06), words.along, words.headAxis);
  under = draw(grade.svg, "path", { class: "under" });
  for (const [level, name] of [[supply, words.supply], [vessel, words.vesselHead]]) {
    draw(grade.svg, "line", { x1: grade.left, x2: grade.right, y1: grade.Y(level), y2: grade.Y(level), class: "level" });
  }
  gradeLine = draw(grade.svg, "path", { class: "grade" });
  for (const [level, name] of [[supply, words.supply], [vessel, words.vesselHead]]) {
    draw(grade.svg, "text", { x: grade.X(0.25 * length), y: grade.Y(level) - 7, class: "strong" }, name);
  }
  flow = chart("speed", 210, [0, length], span([...velocity, 0], 0.08), words.along, words.velocityAxis);
  draw(flow.svg, "line", { x1: flow.left, x2: flow.right, y1: flow.Y(0), y2: flow.Y(0), class: "level" });
  speedLine = draw(flow.svg, "path", { class: "speed" });
  trace = chart("trace", 250, [0, count * data.step], span([...body, ...measured], 0.06), words.time, words.pressureAxis);
  draw(trace.svg, "path", { class: "twin", d: path(times.map(trace.X), body.map(trace.Y)) });
  draw(trace.svg, "path", { class: "measured", d: path(times.map(trace.X), measured.map(trace.Y)) });
  running = draw(trace.svg, "line", { y1: 18, y2: trace.bottom, class: "mark" });
  dot = draw(trace.svg, "circle", { r: 5, class: "dot" });
}

// The ram: fixed iron, and what the twin moves.
const ram = one("ram");
ram.setAttribute("viewBox", "0 0 376 352");
draw(ram, "path", { class: "fill", d: "M0 205 L70 222 L70 268 L0 251 Z M70 222 H300 V268 H70 Z" });
const water = draw(ram, "rect", { class: "fill", x: 82, width: 96 });
draw(ram, "path", { class: "iron", d: "M0 203 L70 220 H108 M152 220 H218 M262 220 H300 V270 H70 L0 253" });
draw(ram, "path", { class: "iron", d: "M80 218 V90 Q80 50 130 50 Q180 50 180 90 V150 M180 178 V218" });
draw(ram, "path", { class: "iron", d: "M182 150 H276 V40 M182 178 H302 V40" });
const wastePlug = draw(ram, "rect", { class: "plug", x: 210, width: 60, height: 9 });
const deliveryPlug = draw(ram, "rect", { class: "plug", x: 102, width: 56, height: 9 });
// Travel of both plugs, 0 shut to 100 % open.
const wasteY = opening => 222 + 30 * Math.min(1.1, opening), deliveryY = opening => 209 - 30 * Math.min(1.1, opening);
for (const share of [0, 0.5, 1]) {
  draw(ram, "line", { class: "tick", x1: 306, x2: 316, y1: wasteY(share) + 4, y2: wasteY(share) + 4 });
  draw(ram, "text", { x: 320, y: wasteY(share) + 9 }, share === 1 ? "100 %" : number(100 * share, 0));
  draw(ram, "line", { class: "tick", x1: 186, x2: 196, y1: deliveryY(share) + 5, y2: deliveryY(share) + 5 });
  // At rest the mark lies on the iron, its figure above it.
  draw(ram, "text", { x: 200, y: deliveryY(share) + (share === 0 ? 3 : 10) }, share === 1 ? "100 %" : number(100 * share, 0));
}
const greatest = Math.max(...data.waste, ...data.delivery, data.main) || 1;
const arrows = [["waste", 240, 212], ["delivery", 130, 166], ["main", 289, 110]].map(([name, x, y]) => {
  const line = draw(ram, "line", { class: "arrow", x1: x, x2: x, y1: y });
  return { name, x, y, line, tip: draw(ram, "path", { class: "tip" }) };
});
const pixels = value => 62 * value / greatest;
const most = Math.max(...data.vesselMl.map(Math.abs)) || 1;
for (const y of [92, 120]) draw(ram, "line", { class: "tick", x1: 64, x2: 78, y1: y, y2: y });
draw(ram, "text", { x: 4, y: 24, class: "strong" }, words.vessel);
draw(ram, "text", { x: 274, y: 28, class: "strong" }, words.main);
draw(ram, "text", { x: 196, y: 292, class: "strong" }, words.waste);
draw(ram, "text", { x: 4, y: 292, class: "strong" }, words.pipe);
draw(ram, "line", { class: "arrow", x1: 4, x2: 66, y1: 318, y2: 318 });
draw(ram, "text", { x: 76, y: 323 }, `${number(greatest * data.flowFactor, data.flowPlaces)} ${data.flowUnit}`);
draw(ram, "line", { class: "tick", x1: 52, x2: 66, y1: 334, y2: 334 });
draw(ram, "line", { class: "tick", x1: 52, x2: 66, y1: 348, y2: 348 });
draw(ram, "text", { x: 76, y: 347 }, say(words.levelScale, { volume: `${number(2 * most * data.volumeFactor, data.volumePlaces)} ${data.volumeUnit}` }));

const list = one("figures");
const rows = {};
for (const name of ["pressure", "velocity", "waste", "delivery", "opening", "lift", "vessel"]) {
  draw2(list, "dt", words["row_" + name]);
  rows[name] = draw2(list, "dd", "");
}
function draw2(parent, name, text) {
  const element = document.createElement(name);
  element.textContent = text;
  parent.appendChild(element);
  return element;
}

let place = 0, playing = false, last = 0;
const slider = one("at"), go = one("go"), said = one("say"), pace = one("pace");
slider.max = count - 1;

const between = (list, frame, share, width = 1, offset = 0) => {
  const next = (frame + 1) % count;
  return list[frame * width + offset] * (1 - share) + list[next * width + offset] * share;
};

function phase(values) {
  if (values.delivery > 0.02 * greatest && values.lift > 0.02) return words.phase_delivery;
  if (values.opening > 0.05) return values.velocity < 0 ? words.phase_recoil : values.opening < 0.9 ? words.phase_moving : words.phase_open;
  return values.velocity < 0 ? words.phase_recoil : words.phase_knock;
}

function show() {
  const frame = Math.min(count - 1, Math.floor(place)), share = place - frame;
  const heads = along.map((_, i) => between(head, frame, share, places, i));
  const speeds = along.map((_, i) => between(velocity, frame, share, places, i));
  const xs = along.map(grade.X), ys = heads.map(grade.Y);
  const line = path(xs, ys);
  gradeLine.setAttribute("d", line);
  under.setAttribute("d", `${line}L${grade.X(length)} ${grade.Y(0)}L${grade.X(0)} ${grade.Y(0)}Z`);
  speedLine.setAttribute("d", path(along.map(flow.X), speeds.map(flow.Y)));
  const values = {
    opening: between(data.wasteOpening, frame, share) / 1000, lift: between(data.deliveryOpening, frame, share) / 1000,
    waste: between(data.waste, frame, share), delivery: between(data.delivery, frame, share), main: data.main,
    vessel: between(data.vesselMl, frame, share), velocity: speeds[places - 1],
    pressure: heads[places - 1] / data.headUnit * data.pressurePerHead
  };
  wastePlug.setAttribute("y", wasteY(values.opening));
  deliveryPlug.setAttribute("y", deliveryY(values.lift));
  const level = 106 - 14 * values.vessel / most;
  water.setAttribute("y", level);
  water.setAttribute("height", 220 - level);
  for (const arrow of arrows) {
    const size = pixels(values[arrow.name]), end = arrow.y - size, turn = Math.sign(size) || 1;
    arrow.line.setAttribute("y2", end);
    arrow.tip.setAttribute("d", Math.abs(size) < 1.5 ? "" : `M${arrow.x - 7} ${end}L${arrow.x + 7} ${end}L${arrow.x} ${end - 9 * turn}Z`);
  }
  const at = place * data.step;
  const x = trace.X(at);
  running.setAttribute("x1", x);
  running.setAttribute("x2", x);
  dot.setAttribute("cx", x);
  dot.setAttribute("cy", trace.Y(between(measured, frame, share)));
  rows.pressure.textContent = `${number(values.pressure, data.pressurePlaces)} ${data.pressureUnit}`;
  rows.velocity.textContent = `${number(values.velocity, 2)} ${data.velocityUnit}`;
  rows.waste.textContent = `${number(values.waste * data.flowFactor, data.flowPlaces)} ${data.flowUnit}`;
  rows.delivery.textContent = `${number(values.delivery * data.flowFactor, data.flowPlaces)} ${data.flowUnit}`;
  rows.opening.textContent = `${number(100 * values.opening, 0)} %`;
  rows.lift.textContent = `${number(100 * values.lift, 0)} %`;
  rows.vessel.textContent = `${number(values.vessel * data.volumeFactor, data.volumePlaces)} ${data.volumeUnit}`;
  slider.value = Math.round(place);
  slider.setAttribute("aria-valuetext", `${number(at, 3)} s`);
  said.innerHTML = "";
  const strong = document.createElement("b");
  strong.textContent = `${number(at, 3)} s`;
  said.append(strong, ` ${phase(values)}`);
}

function run(now) {
  if (!playing) return;
  // A frame may be stamped with an instant before the one at which play began.
  place = (place + Math.max(0, now - last) / 1000 / Number(pace.value) / data.step) % count;
  last = now;
  show();
  requestAnimationFrame(run);
}

function play(on) {
  playing = on;
  go.textContent = on ? words.pause : words.play;
  said.setAttribute("aria-live", on ? "off" : "polite");
  if (on) {
    last = performance.now();
    requestAnimationFrame(run);
  }
}

function step(by) {
  play(false);
  place = ((Math.floor(place) + by) % count + count) % count;
  show();
}

go.addEventListener("click", () => play(!playing));
one("back").addEventListener("click", () => step(-1));
one("on").addEventListener("click", () => step(1));
slider.addEventListener("input", () => { play(false); place = Number(slider.value); show(); });
document.addEventListener("keydown", event => {
  const { tagName } = event.target;
  if (event.ctrlKey || event.metaKey || event.altKey || tagName === "SELECT") return;
  // A button is pressed by space itself; the slider goes one step and home by itself, but no ten.
  const by = { ArrowLeft: -1, ArrowRight: 1 }[event.key];
  if (by && (event.shiftKey || tagName !== "INPUT")) step(by * (event.shiftKey ? 10 : 1));
  else if (event.key === " " && tagName !== "BUTTON") play(!playing);
  else if (event.key === "Home" && tagName !== "INPUT") step(-Math.floor(place));
  else return;
  event.preventDefault();
});
const start = Number(new URLSearchParams(location.hash.slice(1)).get("t"));
if (start > 0) place = Math.min(count - 1, start / data.step);
layout();
show();
let waiting;
addEventListener("resize", () => {
  clearTimeout(waiting);
  waiting = setTimeout(() => { layout(); show(); }, 150);
});
play(!calm.matches && !location.hash);
calm.addEventListener("change", () => calm.matches && play(false));

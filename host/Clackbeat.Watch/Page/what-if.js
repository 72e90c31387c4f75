import { post, tell } from "./desk.js";
import { by, make, sign } from "./dom.js";
import { colour, makePlot, pressure, pressureAxis, timeAxis } from "./plots.js";
import { asked, prefs } from "./prefs.js";
import { age, number, say } from "./words.js";

// The twin of the newest minute: fitted by the program, asked by sliders. One question is on its way at a time, and only the newest waits.
const POLL_MS = 300;
const FOOT_M = 0.3048;
const INCH_M = 0.0254;
const SURE = 0.9;
const FAILED = ["few-beats", "no-fit", "unlike", "flap"];
let twin = { phase: "none" };
let twinAt = 0;
let wish = {};
let told = null;
let isAsking = false;
let isStale = false;
let timer = 0;
let drawing;

export const state = () => ({ phase: twin.phase, isAsking, wish, told });

/** Takes a state of the program's and draws it; while a fit is at work, asks on. */
function take(message) {
  const isNew = twin.phase !== message.phase;
  if (isNew && message.phase !== "fitting") {
    wish = {};
    told = null;
  }
  twin = message;
  twinAt = performance.now();
  if (isNew) build();
  else showHead();
  clearTimeout(timer);
  if (twin.phase === "fitting") timer = setTimeout(look, POLL_MS);
}

async function guarded(act) {
  try {
    await act();
  } catch (failure) {
    tell(say("desk.failed", { why: failure.message }));
  }
}

/** What is already there, made for another device or before this page was opened. */
export const look = () => guarded(async () => {
  const answer = await fetch("/twin");
  if (answer.ok) take(await answer.json());
});

export const fit = () => guarded(async () => take(await post("/twin/fit")));

async function ask() {
  isStale = true;
  if (isAsking) return;
  isAsking = true;
  while (isStale) {
    isStale = false;
    await guarded(async () => { told = isAsItIs() ? null : await post("/twin/try", wish); });
  }
  isAsking = false;
  showAnswer();
}

const isAsItIs = () => Object.values(wish).every(v => v === undefined);

function build() {
  const hadFocus = by("what-if-body").contains(document.activeElement);
  drawing?.end();
  drawing = undefined;
  const body = [make("p", "", say("what.lead")), make("div", "twin-head")];
  const tried = make("div", "twin-try");
  body.push(tried);
  if (twin.measured) {
    const plot = make("div", "plot twin-plot");
    plot.setAttribute("role", "img");
    tried.append(make("div", "twin-beat", make("ul", "key twin-key"), plot, make("p", "axis small", say("overlay.axis"))));
  }
  if (twin.phase === "ready") {
    tried.append(sliders());
    body.push(answer());
  }
  by("what-if-body").replaceChildren(...body);
  showHead();
  showAnswer();
  // Whoever asked for the fit waits beside its progress and goes on at the first slider.
  if (hadFocus) (by("what-if-body").querySelector("input") ?? by("twin-fit") ?? by("what-if-body").querySelector(".twin-head")).focus({ preventScroll: true });
}

/** The button, how far a fit is, and of when the twin is. */
function showHead() {
  const head = by("what-if-body").querySelector(".twin-head");
  head.tabIndex = -1;
  const parts = [];
  if (twin.phase === "fitting") {
    const bar = make("progress");
    bar.value = Math.max(0.03, twin.share);
    bar.setAttribute("aria-label", say("what.fitting"));
    parts.push(make("p", "", say("what.fitting"), " ", say("age.seconds", { n: twin.forS })), bar);
  } else {
    if (FAILED.includes(twin.phase)) parts.push(make("p", "notice", say("what.none." + twin.phase)));
    if (twin.beats) parts.push(make("p", "small twin-age", ageWords()));
    const go = make("button", twin.phase === "ready" ? "" : "main", say(twin.phase === "none" ? "what.fit" : "what.again"));
    go.type = "button";
    go.id = "twin-fit";
    go.addEventListener("click", fit);
    parts.push(go);
  }
  const isBegun = twin.phase === "fitting" && head.querySelector("progress");
  if (isBegun) {
    head.querySelector("p").textContent = parts[0].textContent;
    isBegun.value = parts[1].value;
    return;
  }
  head.replaceChildren(...parts);
}

const ageWords = () => say("what.from", { beats: twin.beats, age: age(twin.ageS + (performance.now() - twinAt) / 1000) });

/** The age of the twin counts on. */
export function showAge() {
  const place = by("what-if-body").querySelector(".twin-age");
  const words = place && ageWords();
  if (place && place.textContent !== words) place.textContent = words;
}

function sliders() {
  const box = make("div", "twin-sliders", ...twin.knobs.map(knob => slider(knob.id, knob.low, knob.high, 5, 0, v => percent(knob, v))));
  if (twin.air) box.append(slider("air", 0, twin.air.places.length - 1, 1, twin.air.now, airWords));
  const back = make("button", "", say("what.reset"));
  back.type = "button";
  back.id = "twin-reset";
  back.addEventListener("click", () => {
    wish = {};
    for (const range of box.querySelectorAll("input")) {
      range.value = range.dataset.now;
      range.dispatchEvent(new Event("input"));
    }
  });
  box.append(back);
  return box;
}

function slider(id, low, high, step, now, words) {
  const range = make("input");
  Object.assign(range, { type: "range", id: "twin-" + id, min: low, max: high, step });
  range.dataset.now = now;
  range.value = wish[id] ?? now;
  const label = make("label", "", say("what." + id));
  label.htmlFor = range.id;
  const out = make("output");
  out.htmlFor = range.id;
  const show = () => {
    out.textContent = words(Number(range.value));
    range.setAttribute("aria-valuetext", out.textContent);
  };
  range.addEventListener("input", () => {
    const value = Number(range.value);
    wish = { ...wish, [id]: value === now ? undefined : value };
    show();
    ask();
  });
  show();
  return make("div", "twin-slider", label, out, range);
}

/** A place of a slider of per cent: the quantity itself, where it is known, and the change. */
function percent(knob, value) {
  const change = value === 0 ? say("what.as-is") : `${value > 0 ? "+" : "\u2212"}${Math.abs(value)}\u00a0%`;
  if (knob.now === undefined) return change;
  const m = knob.now * (1 + value / 100);
  const [figure, unit, digits] = knob.id === "stroke"
    ? prefs.units === "us" ? [m / INCH_M, "in", 2] : [1000 * m, "mm", 1]
    : prefs.units === "us" ? [m / FOOT_M, "ft", 1] : [m, "m", m < 10 ? 2 : 1];
  return `${number(figure.toFixed(digits))}\u00a0${unit} (${change})`;
}

const inUnits = row => prefs.units === "us" ? row.us : row.metric;
const volume = row => `${number(inUnits(row).value)}\u00a0${inUnits(row).unit}`;

function airWords(place) {
  if (place !== twin.air.now) return volume(twin.air.places[place]) + (place === 0 ? ` (${say("what.air.lost")})` : place === twin.air.places.length - 1 ? ` (${say("what.air.full")})` : "");
  return say(twin.air.isOpen ? "what.air.least" : "what.air.now", { air: volume(twin.air.told) });
}

function answer() {
  const says = make("p", "twin-says");
  says.setAttribute("role", "status");
  const table = make("table", "twin-table");
  const link = make("a", "twin-slow", say("what.slow"));
  Object.assign(link, { href: asked("/twin/slow-motion"), target: "_blank", rel: "noopener" });
  const notes = [...twin.notes.map(n => say("what.note." + n)), say("what.how")];
  return make("div", "twin-answer", says, table, make("p", "", link), make("ul", "why small", ...notes.map(n => make("li", "", n))));
}

/** Drawing, sentence and table, as the newest answer has them. */
function showAnswer() {
  if (twin.measured) draw();
  const body = by("what-if-body");
  const table = body.querySelector(".twin-table");
  if (!table) return;
  const then = told?.then;
  const says = body.querySelector(".twin-says");
  const tone = !then ? "none" : stops() || then.pipe === "over" ? "bad" : then.willBeat < SURE || then.pipe === "near" ? "near" : "good";
  says.dataset.tone = tone;
  const words = sentence(then);
  if (says.textContent !== words) says.replaceChildren(sign(tone), make("span", "", words));
  table.replaceChildren(
    make("caption", "only-read", say("what.table")),
    make("thead", "", make("tr", "", make("td"), heading(say("what.now"), "col"), then ? heading(say("what.then"), "col") : null)),
    make("tbody", "", ...rows(then)));
}

const heading = (words, scope) => Object.assign(make("th", "", words), { scope });
const stops = () => told && !told.then.rows.some(r => r.id === "rate");

function sentence(then) {
  if (!then) return say("what.says.now");
  if (stops()) return say("what.says.stops");
  const at = rowsOf => { const row = rowsOf.find(r => r.id === "delivered"); return row ? reading(row) : null; };
  const water = at(twin.asIs.rows) && at(then.rows) ? " " + say("what.says.water", { now: at(twin.asIs.rows), then: at(then.rows) }) : "";
  return say(then.willBeat < SURE ? "what.says.doubt" : "what.says.beats") + water + (then.pipe === "over" ? " " + say("what.says.pipe") : "");
}

function rows(then) {
  const ids = ["rate", "delivered", "waste", "peak", "efficiency", ...then?.rows.some(r => r.id === "swing") ? ["swing"] : []];
  const row = (name, now, changed) => make("tr", "", heading(name, "row"), make("td", "", now), then ? make("td", "", changed) : null);
  const cell = (column, id) => { const found = column?.rows.find(r => r.id === id); return found ? reading(found) : "\u2013"; };
  const odds = column => say("what.odds", { odds: Math.round(100 * column.willBeat) });
  return [
    ...ids.map(id => row(say(id === "swing" ? "what.swing" : "tile." + id), cell(twin.asIs, id), cell(then, id))),
    row(say("what.beats"), odds(twin.asIs), then && odds(then)),
    row(say("what.pipe"), say("what.pipe." + twin.asIs.pipe), then && say("what.pipe." + then.pipe)),
  ];
}

function reading(row) {
  const r = inUnits(row);
  return [r.atMost ? say("tile.at-most") : "", number(r.value) + (r.margin ? "\u00a0\u00b1\u00a0" + number(r.margin) : ""), r.unit].filter(Boolean).join(" ");
}

function draw() {
  const host = by("what-if-body").querySelector(".twin-plot");
  const own = told?.now ?? twin.twin;
  const curves = [twin.measured, own, told?.beat].filter(Boolean);
  // Each curve has places of its own: together they make the axis, and each is read between its two nearest.
  const from = Math.min(...curves.map(c => c.startS));
  const to = Math.max(...curves.map(c => c.startS + c.stepS * (c.kpa.length - 1)));
  const xs = [...new Set(curves.flatMap(c => c.kpa.map((_, i) => c.startS + i * c.stepS)))].sort((a, b) => a - b);
  const data = [xs, ...[twin.measured, own, told?.beat].map(c => c ? xs.map(x => at(c, x)) : xs.map(() => null))];
  drawing?.end();
  drawing = makePlot(host, {
    scales: {
      x: { time: false, range: () => [from, to] },
      y: { range: (_, low, high) => [Math.min(0, low) - 0.05 * (high - low), high + 0.08 * (high - low)] },
    },
    axes: [timeAxis(undefined, (_, places) => places.map(s => number(Number(s.toFixed(2)).toString()))), pressureAxis()],
    series: [
      {},
      { stroke: colour("ink"), width: 2.5, points: { show: false } },
      { stroke: colour("blue"), width: 1.5, dash: [6, 4], points: { show: false } },
      { stroke: colour("recoil"), width: 2.5, points: { show: false } },
    ],
  }, data);
  const names = [["measured", "what.key.measured"], ["twin", "what.key.twin"], ...told?.beat ? [["then", "what.key.then"]] : []];
  by("what-if-body").querySelector(".twin-key").replaceChildren(...names.map(([name, words]) => make("li", "", make("span", "swatch twin-" + name), say(words))));
  const highest = curve => pressure(1000 * Math.max(...curve.kpa));
  host.setAttribute("aria-label", say("what.alt", { measured: highest(twin.measured), twin: highest(own) })
    + (told?.beat ? " " + say("what.alt.then", { then: highest(told.beat) }) : ""));
}

function at(curve, x) {
  const place = (x - curve.startS) / curve.stepS;
  const i = Math.floor(place + 1e-9);
  if (i < 0 || i >= curve.kpa.length - 1) return i === curve.kpa.length - 1 ? 1000 * curve.kpa[i] : null;
  return 1000 * (curve.kpa[i] + (place - i) * (curve.kpa[i + 1] - curve.kpa[i]));
}

/** Words, units or colours have changed. */
export const restyle = build;

build();

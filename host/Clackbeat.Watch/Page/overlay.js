import { GAP, colour, makePlot, pressure, pressureAxis, stepsOf, timeAxis } from "./plots.js";
import { number, say } from "./words.js";

const MOST = 8;
const POINTS = 480;
const PHASES = ["delivery", "recoil", "open", "closing"];
const host = document.getElementById("overlay");

let about;
let beats = [];
let band = null;
let drawing;
let spanS = 1;
let leadS = 0.1;

export function describe(picture, message) {
  about = picture;
  band = readMessage(message);
}

export function takeBand(message) {
  band = readMessage(message);
  draw();
}

const readMessage = message => message && {
    isGiven: message.isGiven, leadS: message.leadS, columnS: message.columnS,
    low: stepsOf(message.low), high: stepsOf(message.high),
  };

export function takeBeats(messages, isWhole) {
  if (isWhole) beats = [];
  for (const beat of messages) {
    if (beats.some(b => b.number === beat.number)) continue;
    beats.push({ ...beat, steps: stepsOf(beat.steps) });
  }
  beats = beats.slice(-MOST);
  draw();
}

const pa = step => step === undefined || step === GAP ? null : about.lowPa + about.stepPa * step;

/** A curve's two points a column, read at the places of the drawing. */
function readCurve(beat, xs) {
  const pointS = beat.columnS / 2;
  const step = xs[1] - xs[0];
  let last = beat.steps[0];
  return xs.map(x => {
    const from = Math.floor((x + beat.leadS) / pointS);
    const to = Math.max(from, Math.ceil((x + step + beat.leadS) / pointS) - 1);
    let pick = beat.steps[from];
    for (let i = from + 1; i <= to; i++) {
      // Of the points that share a place the one that stands out most is shown, so that no spike is lost.
      const step = beat.steps[i];
      if (step !== undefined && Math.abs(step - last) > Math.abs(pick - last)) pick = step;
    }
    if (from < 0 || pick === undefined) return null;
    last = pick;
    return pa(pick);
  });
}

const readBand = (edge, xs) => xs.map(x => pa(edge[Math.floor((x + band.leadS) / band.columnS)]));

function draw() {
  key();
  strip();
  if (!about || (beats.length === 0 && !band)) return;
  const median = beats.map(b => b.intervalS).sort((a, b) => a - b)[beats.length >> 1] ?? band.columnS * band.low.length - band.leadS;
  spanS = median;
  leadS = 0.12 * median;
  const xs = Array.from({ length: POINTS }, (_, i) => -leadS + (i + 0.25) * (spanS + leadS) / POINTS);
  const nothing = new Array(POINTS).fill(null);
  const data = [xs, band ? readBand(band.high, xs) : nothing, band ? readBand(band.low, xs) : nothing];
  for (let i = 0; i < MOST; i++) {
    const beat = beats[beats.length - MOST + i];
    data.push(beat ? readCurve(beat, xs) : nothing);
  }
  if (!drawing) make(data);
  else drawing.plot.setData(data, true);
}

function make(data) {
  host.replaceChildren();
  const curves = Array.from({ length: MOST }, (_, i) => ({
    stroke: colour(i === MOST - 1 ? "ink" : "old"),
    width: i === MOST - 1 ? 2.5 : 1,
    alpha: i === MOST - 1 ? 1 : 0.25 + 0.6 * i / MOST,
    points: { show: false },
  }));
  drawing = makePlot(host, {
    scales: {
      x: { time: false, range: () => [-leadS, spanS] },
      y: { range: (_, low, high) => [Math.min(0, low) - 0.05 * (high - low), high + 0.08 * (high - low)] },
    },
    axes: [
      timeAxis(undefined, (_, places) => places.map(s => number(Number(s.toFixed(2)).toString()))),
      pressureAxis(),
    ],
    series: [
      {},
      { stroke: colour("band-edge"), width: 1, points: { show: false } },
      { stroke: colour("band-edge"), width: 1, points: { show: false } },
      ...curves,
    ],
    bands: [{ series: [1, 2], fill: colour("band") }],
  }, data);
}

function key() {
  const list = document.getElementById("overlay-key");
  const rows = [["newest", say("overlay.newest")], ["older", say("overlay.older")]];
  rows.push(band ? ["band", say(band.isGiven ? "overlay.band.given" : "overlay.band.minute")] : ["", say("overlay.band.none")]);
  list.replaceChildren(...rows.map(([name, words]) => {
    const row = document.createElement("li");
    if (name) {
      const swatch = document.createElement("span");
      swatch.className = "swatch " + name;
      row.append(swatch);
    }
    row.append(words);
    return row;
  }));
}

/** The newest beat's phases, under the drawing and on its scale of time. */
function strip() {
  const newest = beats[beats.length - 1];
  const bar = document.getElementById("strip");
  const list = document.getElementById("phases");
  if (!newest) {
    bar.replaceChildren();
    list.replaceChildren();
    return;
  }
  const lead = document.createElement("i");
  lead.style.flexGrow = 0;
  lead.style.width = 46 + Math.max(0, (host.clientWidth - 54) * leadS / (spanS + leadS)) + "px";
  const end = document.createElement("i");
  end.style.flexGrow = 0;
  end.style.width = "8px";
  bar.replaceChildren(lead, ...newest.phasesS.map((s, i) => {
    const piece = document.createElement("i");
    piece.className = "ph-" + PHASES[i];
    piece.style.flexGrow = s;
    piece.style.flexBasis = 0;
    return piece;
  }), end);
  list.replaceChildren(...newest.phasesS.map((s, i) => {
    const row = document.createElement("div");
    const name = document.createElement("dt");
    const swatch = document.createElement("i");
    swatch.className = "ph-" + PHASES[i];
    name.append(swatch, say("phase." + PHASES[i]));
    const value = document.createElement("dd");
    value.textContent = s < 0.1 ? `${Math.round(1000 * s)}\u00a0ms` : `${number(s.toFixed(2))}\u00a0s`;
    row.append(name, value);
    return row;
  }));
}

export function speak() {
  const newest = beats[beats.length - 1];
  host.setAttribute("aria-label", newest ? say("overlay.alt", {
    count: beats.length, interval: number(newest.intervalS.toFixed(2)), peak: pressure(newest.peakPa),
  }) : say("overlay.none"));
}

export function restyle() {
  drawing?.end();
  drawing = undefined;
  draw();
}

import { GAP, colour, level, makePlot, pressure, pressureAxis, stepsOf, timeAxis } from "./plots.js";
import { say, number } from "./words.js";

const SPAN_S = 8;
const SMOOTH_S = 0.12;
const RANGE_EVERY_MS = 250;
const MOST_MARKS = 12;
const host = document.getElementById("trace");

let about;
let columnS = 0;
let ys = [];
let next = -1;
let lagS = 0;
let range = [-1e4, 1e5];
let rangeAt = 0;
let isFresh = false;
let marks = [];
let drawing;
let sheet;
let ink;

/** What tests and a curious reader may look at. */
export const stats = { frames: 0, newestS: 0, resyncs: 0, edgePa: null, begunMs: performance.now(), firstDrawnMs: null };

export function describe(picture) {
  about = picture;
}

/** Takes new columns, or with a picture all that is kept. */
export function take(message, isPicture) {
  const steps = stepsOf(message.steps);
  const count = steps.length / 2;
  if (!count) return;
  if (message.columnS !== columnS) reset(message.columnS);
  if (isPicture) ys.fill(null);
  if (isPicture || next < 0) next = message.from;
  const skip = Math.max(0, Math.min(count, next - message.from));
  append(Math.max(0, message.from - next), steps, skip, count);
  const freshS = (message.from + count - next) * columnS;
  next = message.from + count;
  stats.newestS = next * columnS;
  isFresh = true;
  // What has just come is let in at the speed of time, so that the drawing glides and doesn't jump.
  lagS = isPicture ? 0 : Math.min(lagS + Math.max(0, freshS), Math.max(SMOOTH_S, 2 * freshS));
  if (!drawing) draw();
}

/** Takes what somebody changed at the ram: a flag each, as long as it is in sight. */
export function takeMarks(messages, isWhole) {
  const fresh = isWhole ? messages : messages.filter(m => !marks.some(k => k.atS === m.atS));
  marks = (isWhole ? fresh : [...marks, ...fresh]).slice(-MOST_MARKS);
}

function reset(newColumnS) {
  columnS = newColumnS;
  ys = new Array(2 * Math.ceil((SPAN_S + 0.3) / columnS)).fill(null);
  next = -1;
}

function append(hole, steps, skip, count) {
  const fresh = Math.min(ys.length, 2 * (hole + count - skip));
  ys.copyWithin(0, fresh);
  const from = ys.length - fresh;
  const first = 2 * count - fresh;
  for (let i = 0; i < fresh; i++) {
    const at = first + i;
    const step = at >= 2 * skip ? steps[at] : GAP;
    ys[from + i] = step === GAP ? null : about.lowPa + about.stepPa * step;
  }
}

/** Axes and levels are drawn by the plotting library when they change; the curve has a sheet of its own over them. */
function draw() {
  drawing?.end();
  host.replaceChildren();
  follow();
  ink = { line: colour("blue"), gap: colour("gap"), text: colour("ink"), sheet: colour("sheet") };
  sheet = document.createElement("canvas");
  const seconds = () => Array.from({ length: SPAN_S / 2 + 1 }, (_, i) => 2 * i - SPAN_S);
  drawing = makePlot(host, {
    scales: { x: { time: false, range: () => [-SPAN_S, 0] }, y: { range: () => range } },
    axes: [
      timeAxis(seconds, (_, places) => places.map(s => s === 0 ? "0 s" : `\u2212${-s}`)),
      pressureAxis(),
    ],
    series: [{}, { points: { show: false } }],
    hooks: {
      draw: [u => {
        level(u, about.supplyPa, say("trace.supply"));
        level(u, about.deliveryPa, say("trace.delivery"));
      }],
      setSize: [fit],
      ready: [u => { u.over.append(sheet); fit(u); }],
    },
  }, [[-SPAN_S, 0], [null, null]]);
}

function fit(u) {
  const { width, height } = u.bbox;
  sheet.width = width;
  sheet.height = height;
  sheet.style.width = width / devicePixelRatio + "px";
  sheet.style.height = height / devicePixelRatio + "px";
  paint();
}

function paint() {
  const ctx = sheet.getContext("2d");
  const { width, height } = sheet;
  ctx.clearRect(0, 0, width, height);
  if (!columnS) return;
  const [low, high] = range;
  const scale = height / (high - low);
  const columns = ys.length / 2;
  // Some columns share a pixel: of each such group lowest and highest are drawn. Groups keep their members while they glide.
  const perGroup = Math.max(1, Math.round(0.75 * devicePixelRatio * SPAN_S / columnS / width));
  const first = (perGroup - (next - columns) % perGroup) % perGroup;
  ctx.beginPath();
  let gapFrom = -1;
  let isDown = false;
  for (let c = first; c < columns; c += perGroup) {
    const x = width * (1 + ((c + 0.5 - columns) * columnS + lagS) / SPAN_S);
    const points = extremes(2 * c, Math.min(2 * (c + perGroup), ys.length));
    if (!points) {
      if (gapFrom < 0) gapFrom = x;
      isDown = false;
      continue;
    }
    if (gapFrom >= 0) shade(ctx, gapFrom, x, height);
    gapFrom = -1;
    for (const pa of points) {
      const y = height - (pa - low) * scale;
      if (isDown) ctx.lineTo(x, y);
      else ctx.moveTo(x, y);
      isDown = true;
    }
  }
  ctx.strokeStyle = ink.line;
  ctx.lineWidth = 1.75 * devicePixelRatio;
  ctx.lineJoin = "round";
  ctx.stroke();
  marks.forEach((mark, i) => flag(ctx, mark, i % 3, width, height));
  const newest = ys.length - 1 - Math.min(ys.length - 1, 2 * Math.floor(lagS / columnS));
  stats.edgePa = ys[newest];
}

function extremes(from, to) {
  let low = null;
  let high = null;
  let isLowFirst = true;
  for (let i = from; i < to; i++) {
    const y = ys[i];
    if (y === null) continue;
    if (low === null) low = high = y;
    else if (y < low) [low, isLowFirst] = [y, false];
    else if (y > high) [high, isLowFirst] = [y, true];
  }
  return low === null ? null : isLowFirst ? [low, high] : [high, low];
}

// Where no sample came there is no line; the shade says that this is no calm water.
function shade(ctx, from, to, height) {
  ctx.save();
  ctx.fillStyle = ink.gap;
  ctx.globalAlpha = 0.5;
  ctx.fillRect(from, 0, to - from, height);
  if (to - from > 110 * devicePixelRatio) {
    ctx.globalAlpha = 1;
    ctx.fillStyle = ink.text;
    ctx.textAlign = "center";
    ctx.font = `${13 * devicePixelRatio}px 'Noto Sans', sans-serif`;
    ctx.fillText(say("trace.gap"), (Math.max(0, from) + to) / 2, height / 2);
  }
  ctx.restore();
}

function flag(ctx, { atS, words }, row, width, height) {
  const x = width * (1 + (atS - next * columnS + lagS) / SPAN_S);
  if (x < 0 || x > width) return;
  const ratio = devicePixelRatio;
  ctx.save();
  ctx.strokeStyle = ctx.fillStyle = ink.text;
  ctx.lineWidth = 1.5 * ratio;
  ctx.beginPath();
  ctx.moveTo(x, 0);
  ctx.lineTo(x, height);
  ctx.stroke();
  ctx.font = `bold ${12 * ratio}px 'Noto Sans', sans-serif`;
  const label = words.length > 24 ? words.slice(0, 23) + "\u2026" : words;
  const wide = ctx.measureText(label).width + 10 * ratio;
  const left = x + wide > width ? x - wide : x;
  const top = row * 19 * ratio;
  ctx.fillRect(left, top, wide, 17 * ratio);
  ctx.fillStyle = ink.sheet;
  ctx.textBaseline = "middle";
  ctx.fillText(label, left + 5 * ratio, top + 9 * ratio);
  ctx.restore();
}

/** Keeps the scale of pressure: it grows at once and shrinks only when much is empty, for a restless axis can't be read. */
function follow() {
  let low = 0;
  let high = about.deliveryPa;
  for (const y of ys) {
    if (y === null) continue;
    if (y < low) low = y;
    if (y > high) high = y;
  }
  const room = 0.06 * (high - low);
  const [from, to] = range;
  if (low - room / 2 >= from && high + room / 2 <= to && high - low >= 0.6 * (to - from)) return false;
  range = [low - room, high + 2 * room];
  return true;
}

/** Draws what is new; called for each frame of the screen. */
export function frame(now, sinceMs) {
  if (!drawing || !(isFresh || lagS > 0)) return;
  if (now - rangeAt > RANGE_EVERY_MS) {
    rangeAt = now;
    if (follow()) drawing.plot.setData(drawing.plot.data, true);
  }
  const pace = Math.max(1, lagS / SMOOTH_S);
  lagS = Math.max(0, lagS - pace * sinceMs / 1000);
  isFresh = false;
  paint();
  stats.frames++;
  stats.firstDrawnMs ??= performance.now();
}

/** The highest pressure of the last seconds [Pa]; null where none has come. */
export const highestPa = lastS => {
  const values = ys.slice(-Math.ceil(2 * lastS / columnS)).filter(y => y !== null);
  return columnS && values.length ? Math.max(...values) : null;
};

/** Whether any of what is drawn is missing. */
export const hasGap = () => ys.some(y => y === null);

/** The drawing in words. */
export function speak() {
  const values = ys.filter(y => y !== null);
  host.setAttribute("aria-label", values.length === 0 ? say("trace.none") : say("trace.alt", {
    span: number(SPAN_S),
    now: pressure(values[values.length - 1]),
    high: pressure(Math.max(...values)),
    low: pressure(Math.min(...values)),
  }) + marks.filter(m => m.atS > next * columnS - SPAN_S).map(m => ` ${say("trace.mark", { words: m.words })}`).join(""));
}

export function restyle() {
  if (drawing) draw();
}

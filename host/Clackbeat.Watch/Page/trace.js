import { GAP, colour, level, makePlot, pressure, pressureAxis, stepsOf, timeAxis } from "./plots.js";
import { say, number } from "./words.js";

const SPAN_S = 8;
const host = document.getElementById("trace");

let about;
let columnS = 0;
let ys = [];
let xs = [];
let next = -1;
let lagS = 0;
let pace = 1;
let drawing;
let range = [-1e4, 1e5];
let rangeAt = 0;
let arrivedAt = 0;

/** What tests and a curious reader may look at. */
export const stats = { frames: 0, newestS: 0, columns: 0, resyncs: 0, batches: 0 };

export function describe(picture) {
  about = picture;
  columnS = 0;
  next = -1;
}

export function take(message, isPicture) {
  const steps = stepsOf(message.steps);
  const count = steps.length / 2;
  if (!count) return;
  if (message.columnS !== columnS) reset(message.columnS);
  const skip = next < 0 || isPicture ? 0 : Math.max(0, Math.min(count, next - message.from));
  if (isPicture) { ys.fill(null); next = message.from; }
  if (next < 0) next = message.from;
  const hole = Math.max(0, message.from + skip - next);
  append(hole, steps, skip, count);
  const before = next;
  next = message.from + count;
  stats.newestS = next * columnS;
  stats.columns += count;
  stats.batches++;
  arrivedAt = performance.now();
  // What has just come is not shown at once but let in at the speed of time, so that the drawing glides.
  lagS = isPicture || before < 0 ? 0 : Math.min(lagS + (next - before) * columnS, 0.12 * Math.max(1, pace));
  if (!drawing) draw();
}

function reset(newColumnS) {
  columnS = newColumnS;
  const points = 2 * Math.ceil((SPAN_S + 0.3) / columnS);
  ys = new Array(points).fill(null);
  xs = Array.from(ys, (_, i) => (i + 1 - points) * columnS / 2);
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

function draw() {
  drawing?.end();
  host.replaceChildren();
  const seconds = u => {
    const places = [];
    for (let s = -SPAN_S; s <= 0; s += 2) places.push(u.scales.x.max + s);
    return places;
  };
  drawing = makePlot(host, {
    scales: {
      x: { time: false, range: () => [-lagS - SPAN_S, -lagS] },
      y: { range: () => range },
    },
    axes: [
      timeAxis(seconds, (u, places) => places.map(at => {
        const s = Math.round(u.scales.x.max - at);
        return s === 0 ? "0 s" : `\u2212${s}`;
      })),
      pressureAxis(),
    ],
    series: [{}, { stroke: colour("blue"), width: 2, points: { show: false }, spanGaps: false }],
    hooks: {
      drawClear: [shadeGaps],
      draw: [u => {
        level(u, about.supplyPa, say("trace.supply"));
        level(u, about.deliveryPa, say("trace.delivery"));
      }],
    },
  }, [xs, ys]);
}

// Where no sample came there is no line; the shade says that this is no calm water.
function shadeGaps(u) {
  const { ctx, bbox } = u;
  ctx.save();
  ctx.beginPath();
  ctx.rect(bbox.left, bbox.top, bbox.width, bbox.height);
  ctx.clip();
  ctx.fillStyle = colour("gap");
  ctx.font = `${13 * devicePixelRatio}px 'Noto Sans', sans-serif`;
  ctx.textAlign = "center";
  let from = -1;
  for (let i = 0; i <= ys.length; i++) {
    const isGap = i < ys.length && ys[i] === null;
    if (isGap && from < 0) from = i;
    if (isGap || from < 0) continue;
    if (from > 0 && i - from >= 4 || i === ys.length) shade(from, i);
    from = -1;
  }
  ctx.restore();

  function shade(start, end) {
    const left = u.valToPos(xs[Math.max(0, start - 1)], "x", true);
    const right = u.valToPos(xs[Math.min(end, xs.length - 1)], "x", true);
    ctx.globalAlpha = 0.45;
    ctx.fillRect(left, bbox.top, right - left, bbox.height);
    ctx.globalAlpha = 1;
    if (right - left > 100 * devicePixelRatio) {
      ctx.fillStyle = colour("ink");
      ctx.fillText(say("trace.gap"), (left + right) / 2, bbox.top + bbox.height / 2);
      ctx.fillStyle = colour("gap");
    }
  }
}

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
  // The scale grows at once and shrinks only when much of it is empty: a restless axis can't be read.
  if (low - room / 2 < from || high + room / 2 > to || high - low < 0.6 * (to - from)) range = [low - room, high + 2 * room];
}

export function frame(now, sinceMs) {
  if (!drawing || !columnS) return;
  if (now - rangeAt > 250) {
    rangeAt = now;
    follow();
  }
  if (lagS > 0 || now - arrivedAt < 300) {
    pace = Math.max(1, lagS / 0.08);
    lagS = Math.max(0, lagS - pace * sinceMs / 1000);
    drawing.plot.setData([xs, ys], true);
    stats.frames++;
  }
}

/** The drawing in words. */
export function speak() {
  const values = ys.filter(y => y !== null);
  host.setAttribute("aria-label", values.length === 0 ? say("trace.none") : say("trace.alt", {
    span: number(SPAN_S),
    now: pressure(values[values.length - 1]),
    high: pressure(Math.max(...values)),
    low: pressure(Math.min(...values)),
  }));
}

export function restyle() {
  if (drawing) draw();
}

import { make } from "./dom.js";
import { colour, makePlot, roundPlaces, timeAxis, unitOf } from "./plots.js";
import { capital, knobName, setting, unitName } from "./tune-words.js";
import { prefs } from "./prefs.js";
import { number, say } from "./words.js";

const GALLON_PER_MIN = 6.30901964e-5;
let drawing;

export function endPlot() {
  drawing?.end();
  drawing = undefined;
}

/** What is aimed at, in the units that were chosen. */
function measure(aim) {
  if (aim === "least-wasted") return { name: say("tile.efficiency"), unit: "%", of: v => 100 * v };
  if (aim === "gentlest-peak") return { name: say("tile.peak"), unit: unitOf().name, of: v => v / unitOf().pa };
  return prefs.units === "us"
    ? { name: say("tile.delivered"), unit: "gpm", of: v => v / GALLON_PER_MIN }
    : { name: say("tile.delivered"), unit: "L/min", of: v => 6e4 * v };
}

/** The aim's figure over the setting: trials with their \u00b1, the curve, the next setting, and where nothing may be tried. */
export function drawPlot(host, tuning) {
  if (!host) return;
  const { knob, picture, advice } = tuning;
  const aim = measure(tuning.aim);
  const trials = picture.trials.map(([index, at, ...values]) => ({ index, at, values: values.map(aim.of), isBest: index === advice.best }));
  const curve = picture.curve.map(([at, ...values]) => [at, ...values.map(aim.of)]);
  const limit = tuning.aim === "gentlest-peak" && picture.allowablePa ? aim.of(picture.allowablePa) : null;
  const all = [...trials.flatMap(t => t.values), ...curve.flatMap(([, ...v]) => v)];
  const [low, high] = [Math.min(...all), Math.max(...all)];
  const room = Math.max(0.18 * (high - low), 0.03 * high);
  const pad = 0.05 * (knob.high - knob.low);
  const xs = curve.length ? curve.map(c => c[0]) : [knob.low, knob.high];
  const column = i => curve.length ? curve.map(c => c[i]) : xs.map(() => null);
  const look = Object.fromEntries(["blue", "ink", "muted", "good", "bad", "near", "sheet"].map(n => [n, colour(n)]));
  drawing = makePlot(host, {
    padding: [22, 10, 0, 0],
    scales: {
      x: { time: false, range: () => [knob.low - pad, knob.high + pad] },
      y: { range: () => [low - room, high + room] },
    },
    axes: [
      timeAxis((_, __, from, to) => roundPlaces(from, to, 6), (_, places) => places.map(p => number(Number(p.toFixed(6)).toString()))),
      {
        ...timeAxis((_, __, from, to) => roundPlaces(from, to, 5), (_, places) => places.map(p => number(Number(p.toFixed(6)).toString()))),
        size: 52, grid: { stroke: colour("line"), width: 1 }, ticks: { show: false },
      },
    ],
    series: [
      {},
      { stroke: look.blue, width: 2, points: { show: false } },
      { stroke: colour("band-edge"), width: 1, points: { show: false } },
      { stroke: colour("band-edge"), width: 1, points: { show: false } },
    ],
    bands: [{ series: [3, 2], fill: colour("band") + "66" }],
    hooks: {
      drawClear: [u => picture.barred.forEach(b => hatch(u, b, look))],
      draw: [u => {
        if (limit !== null) line(u, limit, look);
        trials.forEach(t => point(u, t, look));
        if (advice.setting !== undefined) pointer(u, advice.setting, look);
      }],
    },
  }, [xs, column(1), column(2), column(3)]);
  host.setAttribute("role", "img");
  host.setAttribute("aria-label", say("tune.plot.alt", {
    figure: aim.name, knob: knobName(knob.name),
    trials: trials.map(t => `${setting(knob, t.at)}: ${digits(t.values[0])} ${aim.unit}`).join("; "),
    next: advice.setting === undefined ? say("tune.plot.alt.none") : setting(knob, advice.setting),
  }));
  const unit = knob.unit ? ` (${unitName(knob.unit)})` : "";
  host.before(make("p", "axis-name small", `${aim.name} (${aim.unit})`));
  host.after(make("p", "axis small", capital(knobName(knob.name)) + unit));
  key(host.parentElement.querySelector(".tune-key"), tuning, curve.length > 0);
}

const digits = value => number(Number(value.toPrecision(3)).toString());

function key(list, { picture, advice, trials }, hasCurve) {
  const rows = [["dot", say("tune.key.trial")]];
  if (hasCurve) rows.push(["band", say("tune.key.curve")]);
  if (advice.setting !== undefined && trials.length) rows.push(["next", say("tune.key.next")]);
  if (picture.barred.some(b => b.why === "pipe")) rows.push(["barred", say("tune.key.pipe")]);
  if (picture.barred.some(b => b.why === "stopped")) rows.push(["stopped", say("tune.key.stopped")]);
  list.replaceChildren(...rows.map(([name, words]) => make("li", "", make("span", "swatch " + name), words)));
}

function point(u, trial, look) {
  const ratio = devicePixelRatio;
  const { ctx } = u;
  const x = u.valToPos(trial.at, "x", true);
  const [y, low, high] = trial.values.map(v => u.valToPos(v, "y", true));
  ctx.save();
  ctx.strokeStyle = ctx.fillStyle = trial.isBest ? look.good : look.ink;
  ctx.lineWidth = 2 * ratio;
  ctx.beginPath();
  ctx.moveTo(x, low);
  ctx.lineTo(x, high);
  for (const end of [low, high]) {
    ctx.moveTo(x - 5 * ratio, end);
    ctx.lineTo(x + 5 * ratio, end);
  }
  ctx.stroke();
  ctx.beginPath();
  if (trial.isBest) {
    const r = 8 * ratio;
    ctx.moveTo(x, y - r);
    ctx.lineTo(x + r, y);
    ctx.lineTo(x, y + r);
    ctx.lineTo(x - r, y);
    ctx.closePath();
  } else {
    ctx.arc(x, y, 5 * ratio, 0, 2 * Math.PI);
  }
  ctx.fill();
  ctx.font = `bold ${13 * ratio}px 'Noto Sans', sans-serif`;
  ctx.textAlign = "left";
  ctx.textBaseline = "bottom";
  ctx.fillStyle = look.ink;
  ctx.strokeStyle = look.sheet;
  ctx.lineWidth = 4 * ratio;
  ctx.lineJoin = "round";
  ctx.strokeText(String(trial.index + 1), x + 8 * ratio, y - 6 * ratio);
  ctx.fillText(String(trial.index + 1), x + 8 * ratio, y - 6 * ratio);
  ctx.restore();
}

function pointer(u, at, look) {
  const ratio = devicePixelRatio;
  const { ctx, bbox } = u;
  const x = u.valToPos(at, "x", true);
  ctx.save();
  ctx.strokeStyle = ctx.fillStyle = look.near;
  ctx.lineWidth = 2 * ratio;
  ctx.setLineDash([5 * ratio, 4 * ratio]);
  ctx.beginPath();
  ctx.moveTo(x, bbox.top);
  ctx.lineTo(x, bbox.top + bbox.height);
  ctx.stroke();
  ctx.beginPath();
  ctx.moveTo(x - 6 * ratio, bbox.top - 10 * ratio);
  ctx.lineTo(x + 6 * ratio, bbox.top - 10 * ratio);
  ctx.lineTo(x, bbox.top);
  ctx.fill();
  ctx.font = `bold ${13 * ratio}px 'Noto Sans', sans-serif`;
  ctx.textBaseline = "bottom";
  const isRight = x > bbox.left + 0.75 * bbox.width;
  ctx.textAlign = isRight ? "right" : "left";
  ctx.fillText(say("tune.plot.next"), x + (isRight ? -10 : 10) * ratio, bbox.top - 3 * ratio);
  ctx.restore();
}

function line(u, value, look) {
  const { ctx, bbox } = u;
  const y = u.valToPos(value, "y", true);
  if (y < bbox.top) return;
  ctx.save();
  ctx.strokeStyle = look.bad;
  ctx.lineWidth = 2 * devicePixelRatio;
  ctx.beginPath();
  ctx.moveTo(bbox.left, y);
  ctx.lineTo(bbox.left + bbox.width, y);
  ctx.stroke();
  ctx.restore();
}

// Lines that lean one way for the pipe and the other for what stopped the ram: told apart without colour.
function hatch(u, { from, to, why }, look) {
  const ratio = devicePixelRatio;
  const { ctx, bbox } = u;
  const left = Math.max(bbox.left, u.valToPos(from, "x", true));
  const right = Math.min(bbox.left + bbox.width, u.valToPos(to, "x", true));
  if (right <= left) return;
  ctx.save();
  ctx.beginPath();
  ctx.rect(left, bbox.top, right - left, bbox.height);
  ctx.clip();
  ctx.strokeStyle = why === "pipe" ? look.bad : look.muted;
  ctx.globalAlpha = 0.55;
  ctx.lineWidth = 1.5 * ratio;
  ctx.beginPath();
  for (let x = left - bbox.height; x < right; x += 9 * ratio) {
    ctx.moveTo(x, why === "pipe" ? bbox.top + bbox.height : bbox.top);
    ctx.lineTo(x + bbox.height, why === "pipe" ? bbox.top : bbox.top + bbox.height);
  }
  ctx.stroke();
  ctx.restore();
}

/* global uPlot */
import { prefs } from "./prefs.js";
import { number } from "./words.js";

export const unitOf = () => prefs.units === "us"
  ? { name: "psi", pa: 6894.757293168 }
  : { name: "bar", pa: 1e5 };

/** A pressure in words, to three digits. */
export function pressure(pa) {
  const unit = unitOf();
  const value = pa / unit.pa;
  const digits = Math.abs(value) >= 100 ? 0 : Math.abs(value) >= 10 ? 1 : 2;
  return `${number(value.toFixed(digits))}\u00a0${unit.name}`;
}

export function colour(name) {
  return getComputedStyle(document.documentElement).getPropertyValue("--" + name).trim();
}

/** Base 64 of little-endian 16-bit steps. */
export function stepsOf(text) {
  const raw = atob(text);
  const steps = new Int16Array(raw.length / 2);
  for (let i = 0; i < steps.length; i++) steps[i] = raw.charCodeAt(2 * i) | (raw.charCodeAt(2 * i + 1) << 8);
  return steps;
}

export const GAP = -32768;

/** Places of round numbers between two ends. */
export function roundPlaces(low, high, most) {
  const rough = (high - low) / most;
  const power = 10 ** Math.floor(Math.log10(rough));
  const step = [1, 2, 5, 10].map(m => m * power).find(s => s >= rough);
  const places = [];
  for (let at = Math.ceil(low / step) * step; at <= high + step * 1e-6; at += step) places.push(at);
  return places;
}

export function pressureAxis() {
  const unit = unitOf();
  return {
    size: 58,
    stroke: colour("muted"),
    font: "13px 'Noto Sans', sans-serif",
    grid: { stroke: colour("line"), width: 1 },
    ticks: { show: false },
    splits: (_, __, low, high) => roundPlaces(low / unit.pa, high / unit.pa, 6).map(v => v * unit.pa),
    // The highest place carries the unit.
    values: (_, places) => places.map((pa, i) =>
      number(Number((pa / unit.pa).toFixed(2)).toString()) + (i === places.length - 1 ? "\u00a0" + unit.name : "")),
  };
}

export function timeAxis(splits, values) {
  return {
    size: 30,
    stroke: colour("muted"),
    font: "13px 'Noto Sans', sans-serif",
    grid: { show: false },
    ticks: { stroke: colour("line"), size: 5 },
    splits,
    values,
  };
}

export function makePlot(host, options, data) {
  const size = () => ({ width: host.clientWidth, height: host.clientHeight });
  const plot = new uPlot({
    ...size(),
    padding: [8, 8, 0, 0],
    legend: { show: false },
    cursor: { show: false },
    select: { show: false },
    ...options,
  }, data, host);
  const watcher = new ResizeObserver(() => plot.setSize(size()));
  watcher.observe(host);
  return { plot, end: () => { watcher.disconnect(); plot.destroy(); } };
}

/** A dashed line at a pressure, with its name. */
export function level(plot, pa, name) {
  const { ctx, bbox } = plot;
  const y = Math.round(plot.valToPos(pa, "y", true)) + 0.5;
  if (y < bbox.top + 4 || y > bbox.top + bbox.height) return;
  const ratio = devicePixelRatio;
  ctx.save();
  ctx.strokeStyle = ctx.fillStyle = colour("muted");
  ctx.lineWidth = ratio;
  ctx.setLineDash([4 * ratio, 4 * ratio]);
  ctx.beginPath();
  ctx.moveTo(bbox.left, y);
  ctx.lineTo(bbox.left + bbox.width, y);
  ctx.stroke();
  ctx.font = `${12 * ratio}px 'Noto Sans', sans-serif`;
  ctx.textAlign = "left";
  ctx.textBaseline = "bottom";
  const width = ctx.measureText(name).width + 6 * ratio;
  ctx.fillStyle = colour("sheet");
  ctx.fillRect(bbox.left + ratio, y - 17 * ratio, width, 16 * ratio);
  ctx.fillStyle = colour("muted");
  ctx.fillText(name, bbox.left + 4 * ratio, y - 2 * ratio);
  ctx.restore();
}

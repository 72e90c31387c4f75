import { by, make, sign, withCode } from "./dom.js";
import { pressure } from "./plots.js";
import { prefs } from "./prefs.js";
import { age, day, features, number, say, timesAsMuch } from "./words.js";

// The six of a report's first page in their order, and what follows beside the findings.
const IDS = ["rate", "delivered", "waste", "delivery", "peak", "efficiency"];
const FURTHER = ["velocity"];
const STOPS = ["stopped-open", "stopped-shut"];

export function showTiles(figures, isStale) {
  for (const [place, ids] of [["tiles", IDS], ["further", FURTHER]]) {
    by(place).replaceChildren(...ids.map(id => tile(id, figures?.tiles.find(t => t.id === id), isStale)));
    by(place).classList.toggle("before", Boolean(figures) && isStale);
  }
  by("window").textContent = figures ? say("figures.window", { beats: figures.beats, span: Math.round(figures.spanS) }) : "";
}

/** What to do now, the most urgent first. */
export function showToDo(figures) {
  const steps = figures?.toDo ?? ["finding.none.waiting"];
  const fresh = make("div", "", ...steps.map(step => make("p", step.startsWith("caution.") ? "caution" : "", ...withCode(say(step)))));
  const place = by("todo-steps");
  if (place.innerHTML !== fresh.innerHTML) place.replaceChildren(...fresh.children);
}

/** When, where, who, with what sensor, and how good the record is: one line. */
export function showStanding(figures, about) {
  if (!about) return;
  const parts = [
    about.source === "replay" ? about.sourceName : day(new Date()),
    about.place && say("standing.place", { place: about.place }),
    about.keeper && say("standing.keeper", { keeper: about.keeper }),
    say("standing.sensor", { low: pressure(about.sensorLowPa), high: pressure(about.sensorHighPa) }),
  ];
  const record = figures && say("standing.record", {
    duration: `${Math.round(figures.spanS)}\u00a0s`, rate: number(Math.round(figures.rateHz)), beats: figures.beats, gaps: figures.gaps, clipped: figures.clippedSamples,
  });
  const words = parts.filter(Boolean).join("; ") + (record ? `. ${record}` : "");
  if (by("standing").textContent !== words) by("standing").textContent = words;
}

/** How old the figures are, where they are no longer of now. */
export function showAge(figures, ageS) {
  const box = by("figures-age");
  box.hidden = !figures || ageS === null;
  if (box.hidden) return;
  const words = say(figures.isBefore ? "figures.before" : "figures.stale", { age: age(ageS) });
  if (box.textContent !== words) box.textContent = words;
}

function tile(id, figure, isStale) {
  const reading = figure && (prefs.units === "us" ? figure.us : figure.metric);
  const value = make("dd");
  if (reading) {
    value.append(make("div", "value",
      reading.atMost ? make("span", "most", say("tile.at-most")) : null,
      make("span", "number", number(reading.value)),
      reading.margin ? make("span", "margin", "\u00b1\u00a0" + number(reading.margin)) : null,
      reading.unit ? make("span", "unit", reading.unit) : null));
  } else {
    value.append(make("div", "none", say("tile.none")));
  }
  const tone = isStale ? "none" : figure?.tone ?? "none";
  if (figure?.note && !isStale) {
    const change = figure.changePercent === undefined ? ""
      : `${figure.changePercent > 0 ? "+" : "\u2212"}${Math.abs(figure.changePercent).toFixed(0)}\u00a0%`;
    value.append(make("div", "note", sign(tone),
      make("span", "only-read", say("tone." + tone) + ": "),
      make("span", "", say("note." + figure.note, { change }))));
  }
  const box = make("div", "", make("dt", "", say("tile." + id)), value);
  box.dataset.tone = tone;
  return box;
}

const toneOf = verdict => ({ within: "good", near: "near", over: "bad" })[verdict] ?? "none";

export function showPipe(figures, isStale) {
  const pipe = figures?.pipe;
  const bar = by("pipe-bar");
  const verdict = pipe?.verdict ?? "unknown";
  bar.parentElement.dataset.tone = pipe?.fatigueVerdict === "over" ? "bad" : isStale && verdict === "within" ? "none" : toneOf(verdict);
  by("pipe-says").replaceChildren(say("pipe." + verdict),
    pipe?.margin ? " " + say("pipe.margin", { margin: number(pipe.margin.toPrecision(2)) }) : "",
    pipe?.fatigueVerdict === "over" ? " " + say("pipe.fatigue.over")
      : pipe?.fatigueVerdict === "near" ? " " + say("pipe.fatigue.near") : "");
  bar.replaceChildren();
  bar.hidden = !pipe?.peakPa || !pipe?.allowablePa;
  if (bar.hidden) return;
  const whole = 1.12 * Math.max(pipe.allowablePa, pipe.peakPa + (pipe.peakUPa ?? 0));
  const at = pa => 100 * pa / whole;
  const filled = make("i", "fill");
  filled.style.width = at(pipe.peakPa) + "%";
  bar.append(make("div", "track", filled));
  if (pipe.peakUPa) {
    const spread = make("i", "spread");
    spread.style.left = at(pipe.peakPa - pipe.peakUPa) + "%";
    spread.style.width = at(2 * pipe.peakUPa) + "%";
    bar.append(spread);
  }
  const line = make("i", "line");
  line.style.left = at(pipe.allowablePa) + "%";
  bar.append(line,
    hung(make("span", "above", `${say("pipe.peak")} ${pressure(pipe.peakPa)}`), at(pipe.peakPa)),
    hung(make("span", "below", `${say("pipe.allowable")}: ${pressure(pipe.allowablePa)}`), at(pipe.allowablePa)));
  bar.setAttribute("aria-label", say("pipe.alt", { peak: pressure(pipe.peakPa), limit: pressure(pipe.allowablePa) }));
}

// A label stands at its place and never outside the bar.
function hung(label, percent) {
  if (percent > 50) label.style.right = Math.max(0, 100 - percent) + "%";
  else label.style.left = Math.max(0, percent - 8) + "%";
  return label;
}

export function showFinding(figures, about, status, isStale) {
  const place = by("finding");
  const found = figures?.findings ?? [];
  if (found.length === 0) {
    place.replaceChildren(make("p", "", ...withCode(say("finding.none." + (figures?.noFinding ?? "waiting")))));
    return;
  }
  const [first, ...others] = found;
  const isWell = first.code === "healthy";
  const tone = !isWell ? "near" : isStale ? "none" : "good";
  const top = make("div", "top", sign(tone),
    make("p", "", make("strong", "", capital(say("condition." + first.code))),
      first.probability === undefined ? "" : say("finding.odds", { probability: inHundred(first.probability) })));
  top.dataset.tone = tone;
  const why = make("ul", "why", ...evidence(first, status).map(words => make("li", "", words)));
  place.replaceChildren(top,
    make("h3", "", say("finding.why")), why,
    ...others.length ? [make("h3", "", say("finding.others")), make("ul", "why", ...others.map(o => make("li", "",
      `${say("condition." + o.code)} (${say("finding.odds", { probability: inHundred(o.probability) })})`)))] : [],
    make("p", "small others", ...withCode(figures.hasBaseline
      ? say("finding.against.baseline", { name: about.baseline }) : say("finding.against.site"))));
}

export const inHundred = probability => {
  const n = Math.round(20 * probability) * 5;
  return Math.min(95, Math.max(5, n));
};

const capital = words => words.charAt(0).toUpperCase() + words.slice(1);

function evidence(finding, status) {
  if (finding.features.length > 0) return finding.features.map(sentence);
  if (finding.code === "healthy") return [say("finding.well")];
  if (finding.code === "sensor-fault") return finding.sentences[prefs.language];
  if (STOPS.includes(finding.code) && status?.restShare !== undefined) {
    return [say("finding.level", { share: Math.round(100 * status.restShare) })];
  }
  return [say("finding.nothing")];
}

/** A change of the beat as a sentence in the language that was chosen. */
function sentence({ feature: name, change }) {
  const entry = features[name];
  if (!entry) return name;
  const words = entry[change > 0 ? "rise" : "fall"][prefs.language];
  const amounts = {
    ratio: () => timesAsMuch(Math.exp(change)) ?? say(change > 0 ? "feature.ratio.more" : "feature.ratio.less", { amount: percent(Math.exp(change) - 1) }),
    share: () => say("feature.share", { amount: percent(change) }),
    jump: () => say("feature.jump", { amount: percent(change) }),
    closing: () => say("feature.closing", { amount: percent(change) }),
    periods: () => say("feature.periods", { amount: number(Math.abs(change).toFixed(2)) }),
  };
  const amount = amounts[entry.as]?.();
  return amount ? `${words} (${amount}).` : `${words}.`;
}

const percent = share => number((100 * Math.abs(share)).toFixed(Math.abs(share) < 0.1 ? 1 : 0));

export function showHealth(status) {
  const health = status?.health;
  if (!health) return;
  const count = (n, none) => n > 0 ? say("health.samples", { count: n }) : say(none);
  const rows = [
    ["rate", health.rateHz === undefined ? "\u2013" : number(Math.round(health.rateHz)), "none"],
    ["lost", count(health.lostSamples, "health.none"), health.lostSamples > 0 ? "near" : "good"],
    ["skipped", count(health.skippedSamples, "health.none"), health.skippedSamples > 0 ? "near" : "good"],
    ["gaps", health.gapS > 0 ? `${number(health.gapS.toFixed(2))}\u00a0s` : say("health.never"), health.gapS > 0 ? "near" : "good"],
    ["clipped", count(health.clippedSamples, "health.none"), health.clippedSamples > 0 ? "bad" : "good"],
    ["restarts", health.restarts > 0 ? say("health.times", { count: health.restarts }) : say("health.never"), health.restarts > 0 ? "near" : "good"],
  ];
  const isSound = rows.every(([, , tone]) => tone === "good" || tone === "none");
  by("health-says").textContent = say(isSound ? "health.sound" : "health.weak");
  by("health").replaceChildren(...rows.map(([id, words, tone]) => {
    const value = make("dd", "", tone === "none" ? null : sign(tone), words);
    const row = make("div", "", make("dt", "", say("health." + id)), value);
    row.dataset.tone = tone;
    return row;
  }));
}

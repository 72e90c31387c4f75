import { by } from "./dom.js";
import { inHundred } from "./figures.js";
import { say } from "./words.js";

/** The answer to "how is my ram?" in one line, its tone, and what to do where it stands still. */
export function showVerdict({ status, figures, isConnected }) {
  const { key, tone, places } = judge(status, figures, isConnected);
  const box = by("verdict");
  box.dataset.tone = tone;
  box.querySelector("use").setAttribute("href", "#sign-" + tone);
  put("headline", say("head." + key, places));
  put("more", say(`head.${key}.more`, places));
  const stopped = ["stopped-open", "stopped-shut"].includes(key) ? key : null;
  by("restart").hidden = !stopped;
  if (stopped) put("restart-how", say("restart." + stopped));
}

// A screen reader is told of what changed, not every half second of what stayed.
function put(id, words) {
  if (by(id).textContent !== words) by(id).textContent = words;
}

function judge(status, figures, isConnected) {
  if (!isConnected) return { key: "cut", tone: "bad" };
  if (!status) return { key: "waiting", tone: "none" };
  const places = { silent: Math.floor(status.silentS ?? 0) };
  switch (status.link) {
    case "asking": return { key: "asking", tone: "none" };
    case "silent": case "lost": case "refused": case "wrong": return { key: status.link, tone: "bad" };
    case "ended": return { key: "ended", tone: "none" };
  }
  switch (status.state) {
    case "waiting": case "listening": return { key: status.state, tone: "none" };
    case "no-signal": case "stopped-open": case "stopped-shut": return { key: status.state, tone: "bad", places };
  }
  return beating(figures);
}

// What matters most is decided by the program, by the rule of its report.
const TONES = { "pipe-over": "bad", "pipe-fatigue": "bad", look: "near", "pipe-near": "near", good: "good", unsure: "none", plain: "none" };

function beating(figures) {
  if (!figures || figures.isBefore) return { key: "beating", tone: "none" };
  const key = figures.standing === "plain" && figures.noFinding === "few-beats" ? "beating" : figures.standing;
  const first = figures.findings[0];
  const places = first && { probability: inHundred(first.probability ?? 1), condition: say("condition." + first.code) };
  return { key, tone: TONES[key] ?? "none", places };
}

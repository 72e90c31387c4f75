import { by, make } from "./dom.js";
import { post, tell } from "./desk.js";
import { inHundred } from "./figures.js";
import { prefs } from "./prefs.js";
import { say } from "./words.js";

// What is done by hand at the ram and read from the live samples: the tests that decide, one after the other, and the baseline.
const POLL_MS = 500;
let check = { phase: "idle" };
let isWell = false;
let timer = 0;

export function showHand(about) {
  by("keep-baseline").hidden = !about?.mayKeepBaseline;
  by("keep-baseline").textContent = say(isWell ? "baseline.anyway" : "baseline.keep");
  const isShown = Boolean(about?.mayCheck);
  if (isShown && by("check").hidden) ask(look);
  by("check").hidden = !isShown;
  if (isShown) draw();
}

const said = words => words?.[prefs.language];

function draw() {
  const { phase } = check;
  const body = phase === "idle" ? resting() : phase === "busy" ? [make("p", "", say("hand.busy"))] : running();
  const fresh = make("div", "", ...body);
  const place = by("check-body");
  if (place.dataset.drawn !== fresh.innerHTML) {
    place.dataset.drawn = fresh.innerHTML;
    const had = document.activeElement?.dataset?.at;
    place.replaceChildren(...fresh.children);
    if (had) (place.querySelector(`[data-at="${had}"]`) ?? place.querySelector("button:not([disabled])"))?.focus();
  }
}

function running() {
  const { phase, leftS, test } = check;
  const body = [make("h3", "", say("hand." + phase))];
  if (phase === "do") body.push(make("p", "", said(test.steps)), make("p", "caution", said(test.caution)));
  if (phase === "bucket") body.push(field("hand.litres"), field("hand.seconds"));
  else if (phase !== "do") body.push(make("p", "", leftS > 0 ? say("hand.wait", { left: leftS }) : say(phase === test.last ? "hand.ready.release" : "hand.ready." + phase)));
  if (phase !== test.last || phase === "bucket") body.push(button("hand.next." + phase, "/check/next", leftS > 0, "main"));
  body.push(button("hand.cancel", "/check/cancel", false, ""));
  return body;
}

function resting() {
  const body = [];
  if (check.lack) body.push(make("p", "", said(check.lack)));
  if (check.verdict) {
    body.push(make("p", "", make("strong", "", said(check.verdict))));
    body.push(make("ul", "why", ...said(check.evidence).map(words => make("li", "", words))));
  }
  if (check.causes) {
    body.push(make("p", "", say("hand.causes")));
    body.push(make("ul", "why", ...check.causes.slice(0, 4).map(c => make("li", "", say("hand.cause", { cause: say("condition." + c.condition), odds: inHundred(c.probability) })))));
    if (check.isDecided) body.push(make("p", "", make("strong", "", say("hand.decided", { cause: say("condition." + check.causes[0].condition) }))));
    else if (!check.test) body.push(make("p", "", say("hand.undecided")));
  } else body.push(make("p", "", say("hand.lead")));
  if (check.test) body.push(make("h3", "", said(check.test.name)), ...about(check.test), button("hand.begin." + check.test.first, "/check/begin", false, "main"));
  body.push(button(check.causes ? "hand.judge.again" : "hand.judge", "/check/judge", false, check.test ? "" : "main"));
  const others = (check.tests ?? []).filter(t => t.code !== check.test?.code);
  if (others.length) {
    body.push(make("details", "", make("summary", "", say("hand.others")), ...others.map(t => make("div", "", make("h3", "", said(t.name)), ...about(t), button("hand.begin." + t.first, "/check/begin:" + t.code, false, "")))));
  }
  return body;
}

const about = test => [make("p", "", said(test.steps)), make("p", "caution", said(test.caution)), make("p", "small", said(test.meaning))];

function field(key) {
  const input = make("input", "");
  Object.assign(input, { type: "number", min: "0", step: "any", id: key.replace(".", "-") });
  return make("p", "", make("label", "", say(key), " ", input));
}

function button(words, address, isOff, className) {
  const element = make("button", className, say(words));
  element.type = "button";
  element.disabled = isOff;
  element.dataset.at = address;
  return element;
}

const look = async () => (await fetch("/check")).json();

async function ask(act) {
  try {
    check = await act();
  } catch (failure) {
    tell(say("desk.failed", { why: failure.message }));
  }
  draw();
  clearTimeout(timer);
  if (check.phase !== "idle") timer = setTimeout(() => ask(look), POLL_MS);
}

function send(at) {
  const [address, test] = at.split(":");
  const number = id => by(id)?.valueAsNumber || null;
  return post(address, address.endsWith("next") ? { litres: number("hand-litres"), seconds: number("hand-seconds") } : { test: test ?? null });
}

async function keep() {
  try {
    const answer = await post("/baseline", { isWell });
    isWell = answer.lack === "ill";
    tell(answer.lack ? say("baseline." + answer.lack) : say("baseline.kept", { name: answer.name }));
    by("keep-baseline").textContent = say(isWell ? "baseline.anyway" : "baseline.keep");
  } catch (failure) {
    tell(say("desk.failed", { why: failure.message }));
  }
}

export function begin() {
  by("keep-baseline").addEventListener("click", keep);
  by("check-body").addEventListener("click", event => {
    const at = event.target.closest("button")?.dataset.at;
    if (at) ask(() => send(at));
  });
}

import { by, make } from "./dom.js";
import { post, tell } from "./desk.js";
import { prefs } from "./prefs.js";
import { say } from "./words.js";

// What is done by hand at the ram and read from the live samples: the test for leaks, and the baseline.
const POLL_MS = 500;
const RUNNING = ["hold", "gate", "release"];
let check = { phase: "idle" };
let isWell = false;
let timer = 0;

export function showHand(about) {
  by("keep-baseline").hidden = !about?.mayKeepBaseline;
  by("keep-baseline").textContent = say(isWell ? "baseline.anyway" : "baseline.keep");
  by("check").hidden = !about?.mayCheck;
  if (about?.mayCheck) draw();
}

function draw() {
  const { phase, leftS } = check;
  const body = [];
  if (RUNNING.includes(phase)) {
    body.push(make("h3", "", say("hand." + phase)));
    body.push(make("p", "", leftS > 0 ? say("hand.wait", { left: leftS }) : say("hand.ready." + phase)));
    if (phase !== "release") body.push(button("hand.next." + phase, "/check/next", leftS > 0, "main"));
    body.push(button("hand.cancel", "/check/cancel", false, ""));
  } else {
    if (phase === "done") {
      body.push(make("p", "", make("strong", "", check.verdict[prefs.language])));
      body.push(make("ul", "why", ...check.evidence[prefs.language].map(words => make("li", "", words))));
    }
    body.push(make("p", "", say("hand.lead")), make("p", "caution", say("hand.caution")));
    body.push(button(phase === "done" ? "hand.again" : "hand.begin", "/check/begin", false, "main"));
  }
  const fresh = make("div", "", ...body);
  const place = by("check-body");
  if (place.dataset.drawn !== fresh.innerHTML) {
    place.dataset.drawn = fresh.innerHTML;
    const had = document.activeElement?.dataset?.at;
    place.replaceChildren(...fresh.children);
    if (had) (place.querySelector(`[data-at="${had}"]`) ?? place.querySelector("button:not([disabled])"))?.focus();
  }
}

function button(words, address, isOff, className) {
  const element = make("button", className, say(words));
  element.type = "button";
  element.disabled = isOff;
  element.dataset.at = address;
  return element;
}

async function ask(act) {
  try {
    check = await act();
  } catch (failure) {
    tell(say("desk.failed", { why: failure.message }));
  }
  draw();
  clearTimeout(timer);
  if (RUNNING.includes(check.phase)) timer = setTimeout(() => ask(async () => (await fetch("/check")).json()), POLL_MS);
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
    if (at) ask(() => post(at));
  });
}

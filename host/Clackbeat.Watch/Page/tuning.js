import { by, make, sign } from "./dom.js";
import { sessionForm } from "./tune-form.js";
import { drawPlot, endPlot } from "./tune-plot.js";
import { capital, knobName, percent, reading, setting, unitName } from "./tune-words.js";
import { pressure } from "./plots.js";
import { asked, prefs } from "./prefs.js";
import { say } from "./words.js";
import { tell } from "./desk.js";

const STEPS = ["safe", "turn", "settle", "record", "read", "result"];
const WONT_RUN_AFTER_S = 20;
const SOFT_PA = 2e4;
const body = by("tuning-body");

let tuning = null;
let clock = null;
let status = null;
let nowPa = null;
let drawn = "";
let hasActed = false;

/** Takes what the program tells of the session; draws only what has changed. */
export function showTuning(message) {
  tuning = message;
  draw();
}

/** Takes what changes twice a second: the clock of the step, the state of the ram, the pressure now. */
export function showClock(newStatus, highestPa) {
  status = newStatus;
  clock = newStatus?.tuning ?? null;
  nowPa = highestPa;
  tick();
}

export function restyle() {
  drawn = "";
  draw();
}

export async function ask(address, wish) {
  hasActed = true;
  try {
    const answer = await fetch(asked(address), {
      method: "POST",
      headers: { "content-type": "application/json" },
      body: JSON.stringify(wish),
    });
    const problem = await answer.json();
    if (problem.code !== "none" && !problem.field) tell(trouble(problem));
    return problem;
  } catch {
    tell(say("tune.cut"));
    return { code: "cut" };
  }
}

export const trouble = problem => say("tune.problem." + problem.code, { words: problem.words ?? "" });

const act = (name, more) => () => ask("/tuning/do", { act: name, revision: tuning.revision, ...more });

function button(words, name, className, more) {
  const made = make("button", className ?? "", words);
  made.type = "button";
  made.dataset.act = name;
  made.addEventListener("click", act(name, more));
  return made;
}

const buttons = (...inside) => make("div", "acts", ...inside);
const settingNow = () => setting(tuning.knob, tuning.setting);
const words = (...sentences) => sentences.filter(Boolean).map(s => make("p", "", s));

function draw() {
  if (!tuning) return;
  const key = `${tuning.revision} ${prefs.language} ${prefs.units} ${prefs.theme}`;
  if (key === drawn) return;
  const hadFocus = hasActed || body.contains(document.activeElement);
  const isNew = !drawn.startsWith(tuning.revision + " ");
  drawn = key;
  hasActed = false;
  endPlot();
  body.replaceChildren(...tuning.phase === "closed" ? [sessionForm(tuning, ask, trouble)]
    : tuning.phase === "ready" ? ready() : step());
  if (tuning.phase === "ready") drawPlot(body.querySelector(".tune-plot"), tuning);
  tick();
  const heading = body.querySelector("h3");
  if (isNew && heading) by("tuning-said").textContent = heading.textContent;
  if (hadFocus && isNew && tuning.phase !== "closed") {
    heading?.focus({ preventScroll: true });
    by("tuning").scrollIntoView({ block: "start", behavior: "instant" });
  }
}

const heading = text => {
  const made = make("h3", "step-title", text);
  made.tabIndex = -1;
  return made;
};

const about = () => make("p", "small", say("tune.about", {
  knob: capital(knobName(tuning.knob.name)), low: setting(tuning.knob, tuning.knob.low), high: setting(tuning.knob, tuning.knob.high),
  aim: say("tune.aim." + tuning.aim),
}), tuning.enough ? " " + say("tune.enough.is", { flow: reading(tuning.enough) }) : "");

/** One step on the way through a trial. */
function step() {
  const number = STEPS.indexOf(tuning.phase) + 1;
  const track = make("ol", "track", ...STEPS.slice(0, 4).map((name, i) => {
    const item = make("li", i + 1 < number ? "done" : i + 1 === number ? "now" : "", make("span", "", say("tune.track." + name)));
    if (i + 1 === number) item.setAttribute("aria-current", "step");
    return item;
  }));
  return [about(), track, ...tuning.notice ? [make("p", "notice", say("tune.notice." + tuning.notice.code))] : [], ...{
    safe: stepSafe, turn: stepTurn, settle: stepSettle, record: stepRecord, read: stepRead, result: stepResult,
  }[tuning.phase]()];
}

function stepSafe() {
  return [
    heading(say("tune.safe.title")),
    make("ol", "todo", ...["gate", "main", "out"].map(k => make("li", "", say("tune.safe." + k)))),
    make("p", "gauge", say("tune.safe.now"), " ", make("b", "", "\u2013")),
    make("p", "caution", say("tune.safe.caution")),
    ...virtualNote("tune.safe.virtual"),
    buttons(button(say("tune.safe.done"), "is-safe", "main"), cancel()),
  ];
}

function stepTurn() {
  return [
    heading(say("tune.turn.title", { knob: knobName(tuning.knob.name), setting: settingNow() })),
    make("p", "big", settingNow()),
    ...virtualNote("tune.turn.virtual"),
    make("ol", "todo", ...["fasten", "open", "start"].map(k => make("li", "", say("tune.turn." + k)))),
    make("p", "caution", say("restart.caution")),
    buttons(button(say("tune.turn.done"), "is-set", "main"), cancel()),
  ];
}

const virtualNote = key => tuning.isVirtual ? [make("p", "notice calm", say(key))] : [];
const cancel = () => button(say("tune.cancel"), "cancel");

function bar() {
  const meter = make("div", "meter", make("i"));
  meter.setAttribute("aria-hidden", "true");
  return meter;
}

function stepSettle() {
  const wontRun = button(say("tune.settle.wont"), "wont-run");
  wontRun.hidden = true;
  return [
    heading(say("tune.settle.title", { setting: settingNow() })),
    bar(), make("p", "settle-says"),
    buttons(button(say("tune.settle.now"), "record-now"), wontRun, cancel()),
  ];
}

function stepRecord() {
  const left = make("p", "big");
  left.setAttribute("role", "timer");
  return [
    heading(say("tune.record.title", { setting: settingNow() })),
    left, bar(), ...words(say("tune.record.hands")),
    buttons(cancel()),
  ];
}

const stepRead = () => [heading(say("tune.read.title")), ...words(say("tune.read.more")), buttons(cancel())];

function stepResult() {
  const result = tuning.result;
  const works = result.lack === "none";
  const box = make("div", "result", ...works ? [figures(result)] : [verdict("bad", say("tune.lack." + result.lack), lackMore(result))]);
  return [
    heading(say("tune.result.title", { number: tuning.trials.length + 1, setting: settingNow() })),
    box,
    ...result.isOver ? [verdict("bad", say("tune.over"), say("tune.over.more"))] : [],
    ...works ? [differences(tuning.resultPairs, tuning.trials.length)] : [],
    buttons(button(say(works ? "tune.keep" : "tune.keep.lack"), "keep", "main"), button(say("tune.reject"), "reject")),
    make("p", "small", say(works ? "tune.reject.more" : "tune.keep.lack.more")),
  ];
}

const lackMore = result => result.why?.[prefs.language] ?? "";

function verdict(tone, title, more) {
  const box = make("div", "tune-verdict", sign(tone), make("p", "", make("strong", "", title), ...more ? [" ", more] : []));
  box.dataset.tone = tone;
  return box;
}

const FIGURES = ["delivered", "waste", "efficiency", "peak", "rate"];
const figures = trial => make("dl", "trial-figures", ...FIGURES.map(id => make("div", "",
  make("dt", "", say("tile." + id)), make("dd", "", trial[id] ? reading(trial[id]) : say("tune.nothing")))));

/** Which trials really differ from one of them, in sentences. */
function differences(pairs, of) {
  const told = pairs.map(p => {
    const other = p.first === of ? p.second : p.first;
    const better = (p.second === of) === (p.percent > 0);
    const share = percent(p.second === of ? p.percent : 100 * (1 / (1 + p.percent / 100) - 1));
    const key = !p.differ ? "tune.differ.no" : better ? "tune.differ.better" : "tune.differ.worse";
    return make("li", p.differ ? "sure" : "", say(key, { a: of + 1, b: other + 1, share }));
  });
  return told.length ? make("ul", "differ", ...told) : make("p", "small", say("tune.differ.none"));
}

/** Between two trials: what comes next, the drawing, the trials so far. */
function ready() {
  const { advice, trials } = tuning;
  const best = advice.best ?? null;
  const hasFigures = trials.some(t => t.lack === "none");
  const of = best ?? first(trials);
  return [about(), make("div", "tune-columns",
    make("div", "", ...advice.setting === undefined ? end(advice, best) : next(advice)),
    make("div", "seen", ...hasFigures ? [make("div", "tune-plot plot"), make("ul", "key tune-key")] : [],
      ...trials.length ? [make("h3", "", say("tune.trials")), make("ol", "trials", ...trials.map(row))] : []),
    make("div", "", ...trials.filter(t => t.lack === "none").length > 1 ? [
      make("h3", "", say("tune.differ.title")), differences(withOne(of), of), make("p", "small", say("tune.differ.how")),
    ] : [],
    ...trials.length ? [sheets()] : [],
    buttons(button(say("tune.close"), "close")),
    make("p", "small", say("tune.file", { name: tuning.file }))))];
}

const first = trials => trials.findIndex(t => t.lack === "none");
const withOne = of => tuning.pairs.filter(p => p.first === of || p.second === of);

function next(advice) {
  const isFirst = advice.reason === "as-it-is";
  const field = make("input");
  field.id = "tune-other";
  field.inputMode = "decimal";
  field.autocomplete = "off";
  const label = make("label", "", say("tune.other", { unit: unitName(tuning.knob.unit) }), field);
  const said = make("p", "wrong");
  said.id = "tune-other-wrong";
  said.setAttribute("role", "alert");
  const go = make("button", "", say("tune.other.go"));
  go.type = "submit";
  const form = make("form", "other", label, go, said);
  form.addEventListener("submit", async event => {
    event.preventDefault();
    const problem = await ask("/tuning/do", { act: "choose", revision: tuning.revision, setting: field.value });
    if (problem.field) {
      field.setAttribute("aria-invalid", "true");
      field.setAttribute("aria-describedby", said.id);
      said.textContent = trouble(problem);
      field.focus();
    }
  });
  const text = setting(tuning.knob, advice.setting);
  return [
    heading(say(isFirst ? "tune.next.first" : "tune.next.title", { knob: knobName(tuning.knob.name), setting: text })),
    make("p", "", say("tune.reason." + advice.reason), advice.gainPercent ? " " + say("tune.next.gain", { gain: percent(advice.gainPercent) }) : ""),
    buttons(button(say(isFirst ? "tune.next.begin" : "tune.next.try", { setting: text }), "choose", "main", { setting: String(advice.setting) })),
    make("details", "", make("summary", "", say("tune.other.title")), form),
  ];
}

function end(advice, best) {
  const text = best === null ? "" : setting(tuning.knob, tuning.trials[best].setting);
  return [
    heading(best === null ? say("tune.end.none") : say("tune.end.title", { knob: knobName(tuning.knob.name), setting: text })),
    ...words(say("tune.reason." + advice.reason)),
    ...best === null ? [] : choice(advice),
    ...best === null ? [] : [make("p", "caution", say("tune.end.back", { setting: text }))],
  ];
}

/** What to know of the trial to keep to: its likes, and whether it lies at an end of the range. */
function choice(advice) {
  const trials = advice.alike.map(i => `${i + 1} (${setting(tuning.knob, tuning.trials[i].setting)})`).join(", ");
  return [
    ...trials ? [make("p", "", say(advice.wastesLess ? "tune.alike.least" : "tune.alike", { trials }))] : [],
    ...advice.bestAtEnd === "none" ? [] : [make("p", "", say("tune.end." + advice.bestAtEnd))],
  ];
}

function row(trial, i) {
  const works = trial.lack === "none";
  const tone = trial.isOver || !works ? "bad" : trial.isBest ? "good" : "none";
  const mark = !works ? say("tune.lack." + trial.lack) : trial.isOver ? say("tune.over") : trial.isBest ? say("tune.best") : "";
  const drop = button(say("tune.drop"), "drop", "quiet", { trial: i });
  drop.append(make("span", "only-read", " " + (i + 1)));
  const item = make("li", "", make("div", "trial-head",
    make("b", "", `${i + 1} \u00b7 ${setting(tuning.knob, trial.setting)}`),
    mark ? make("span", "mark", sign(tone), mark) : null, drop), works ? figures(trial) : null);
  item.dataset.tone = tone;
  return item;
}

function sheets() {
  const link = (words, ending) => {
    const made = make("a", "", words);
    made.href = asked("/tuning/sheet." + ending);
    if (ending === "html") {
      made.target = "_blank";
      made.rel = "noopener";
    }
    return made;
  };
  return make("p", "sheets", link(say("tune.sheet"), "html"), link(say("tune.sheet.pdf"), "pdf"));
}

/** What moves while a step goes on. */
function tick() {
  if (!tuning) return;
  const gauge = body.querySelector(".gauge b");
  if (gauge && nowPa !== null) {
    gauge.textContent = pressure(nowPa);
    gauge.parentElement.dataset.tone = nowPa > SOFT_PA ? "near" : "good";
  }
  if (!clock) return;
  const fill = body.querySelector(".meter i");
  if (tuning.phase === "record") {
    body.querySelector(".big").textContent = `${Math.ceil(clock.leftS)} s`;
    if (fill) fill.style.width = 100 * (1 - clock.leftS / clock.lengthS) + "%";
  }
  if (tuning.phase === "settle") settleTick(fill);
}

function settleTick(fill) {
  const beats = clock.beatingS > 0;
  const stands = clock.standsS > 0;
  fill.style.width = Math.min(100, 100 * clock.beatingS / clock.needsS) + "%";
  const says = body.querySelector(".settle-says");
  const key = status?.link !== "streaming" ? "link" : stands ? "stands" : !beats ? "waits" : clock.beatingS < clock.needsS ? "beats" : "drifts";
  const text = say("tune.settle." + key, { beating: Math.floor(clock.beatingS), needs: Math.round(clock.needsS) });
  if (says.textContent !== text) says.textContent = text;
  body.querySelector("[data-act=record-now]").disabled = !beats;
  body.querySelector("[data-act=wont-run]").hidden = !(clock.standsS >= WONT_RUN_AFTER_S);
}

import { by } from "./dom.js";
import { applyTheme, prefs } from "./prefs.js";
import { label, languageName, nextLanguage, say } from "./words.js";
import * as desk from "./desk.js";
import * as figures from "./figures.js";
import * as hand from "./hand.js";
import * as overlay from "./overlay.js";
import * as trace from "./trace.js";
import { showVerdict } from "./verdict.js";

const SPEAK_EVERY_MS = 3000;
const LOST_AFTER_MS = 4000;
const live = { about: null, status: null, figures: null, tuning: null, isConnected: true, heardAt: performance.now() };

function showAbout() {
  const { about } = live;
  if (!about) return;
  by("site").textContent = about.site;
  by("source").textContent = say("source." + about.source, { name: about.sourceName });
  document.title = say("page.title", { site: about.site });
  hand.showHand(about);
}

/** How old the newest beat behind the figures is, in seconds, where they are no longer of now; null while they are. */
function staleFor() {
  const { status, isConnected } = live;
  if (!status) return null;
  const unheardS = (performance.now() - live.heardAt) / 1000;
  if (!isConnected) return unheardS + (status.ageS ?? 0) + (isStill(status) ? status.silentS ?? 0 : 0);
  if (isStill(status)) return (status.silentS ?? 0) + (status.ageS ?? 0);
  return GONE.includes(status.link) ? unheardS + (status.ageS ?? 0) : null;
}

const GONE = ["silent", "lost", "refused", "wrong", "asking"];
const isStill = status => ["stopped-open", "stopped-shut", "no-signal"].includes(status.state);

let wasStale = false;
function showFigures() {
  const ageS = staleFor();
  wasStale = ageS !== null;
  figures.showTiles(live.figures, wasStale);
  figures.showAge(live.figures, ageS);
  figures.showToDo(live.figures);
  figures.showPipe(live.figures, wasStale);
  figures.showStanding(live.figures, live.about);
  figures.showFinding(live.figures, live.about, live.status, wasStale);
}

// The age counts on; the rest is drawn anew only where the figures have become stale, or fresh again.
function showStale() {
  const ageS = staleFor();
  if ((ageS !== null) !== wasStale) showFigures();
  else figures.showAge(live.figures, ageS);
}

function showStatus() {
  showVerdict(live);
  showStale();
  figures.showHealth(live.status);
  desk.showDesk(live.status, live.about);
  if (isTuningOpen) trials?.showClock(live.status, trace.highestPa(3));
}

// Tuning is fetched when it is first wanted: who only looks doesn't wait for it.
let trials = null;
let isTuningOpen = false;
let wasSessionOpen = false;

async function showTuning() {
  by("tune").hidden = !live.tuning;
  by("tune").textContent = say("tune.button");
  // A session that goes on shows itself; who hides it on this device has it hidden until the next one.
  const hasSession = Boolean(live.tuning) && live.tuning.phase !== "closed";
  if (hasSession && !wasSessionOpen) isTuningOpen = true;
  wasSessionOpen = hasSession;
  const isShown = isTuningOpen && Boolean(live.tuning);
  by("tune").setAttribute("aria-expanded", String(isShown));
  if (isShown) trials ??= await import("./tuning.js");
  by("tuning").hidden = !isShown;
  if (isShown) {
    trials.showTuning(live.tuning);
    trials.showClock(live.status, trace.highestPa(3));
  }
}

// What a change would do comes with the page's rest, once the first picture is drawn.
let changes = null;
async function showChanges() {
  if (changes) return;
  changes = await import("./what-if.js");
  await changes.look();
}

async function toggleTuning(open) {
  isTuningOpen = open;
  await showTuning();
  if (open) by("tuning").scrollIntoView({ block: "start", behavior: "instant" });
  (open ? by("tuning").querySelector("input, button:not(#tuning-hide)") : by("tune"))?.focus({ preventScroll: true });
}

function showPrefs() {
  const other = (name, a, b) => prefs[name] === a ? b : a;
  const units = by("units");
  units.textContent = say("prefs.units." + prefs.units);
  units.setAttribute("aria-label", say("prefs.units.label", {
    shown: units.textContent, now: say("prefs.units.name." + prefs.units), next: say("prefs.units.name." + other("units", "metric", "us")),
  }));
  const theme = by("theme");
  theme.textContent = say("prefs.theme." + prefs.theme);
  theme.setAttribute("aria-label", say("prefs.theme.label", {
    now: say("prefs.theme." + prefs.theme), next: say("prefs.theme." + other("theme", "light", "dark")),
  }));
  const language = by("language");
  language.textContent = prefs.language.toUpperCase();
  language.setAttribute("aria-label", say("prefs.language.label", { next: languageName(nextLanguage()) }));
}

function showWords() {
  label();
  applyTheme();
  showPrefs();
  showAbout();
  showFigures();
  showStatus();
}

function showAll() {
  showWords();
  overlay.restyle();
  trace.restyle();
  trace.speak();
  overlay.speak();
  trials?.restyle();
  changes?.restyle();
  showTuning();
}

function pulse() {
  const disc = by("pulse");
  disc.classList.remove("hit");
  requestAnimationFrame(() => disc.classList.add("hit"));
}

// What a keeper looks at first is drawn first; the beats laid over each other come with the next frame.
let isFirst = true;
function afterFirst(work) {
  if (!isFirst) work();
  else requestAnimationFrame(() => setTimeout(work, 0));
  isFirst = false;
}

const heard = {
  picture(message) {
    live.about = message.about;
    live.figures = message.figures ?? null;
    live.status = message.status;
    live.tuning = message.tuning ?? null;
    prefs.units ??= message.about.units === "us" ? "us" : "metric";
    showWords();
    trace.describe(message.about);
    trace.takeMarks(message.marks, true);
    trace.take(message.trace, true);
    afterFirst(() => {
      overlay.describe(message.about, message.band ?? null);
      overlay.takeBeats(message.beats, true);
      trace.speak();
      overlay.speak();
      showTuning();
      showChanges();
    });
  },
  trace(message) { trace.take(message, false); },
  beat(message) {
    overlay.takeBeats([message], false);
    pulse();
  },
  mark(message) { trace.takeMarks([message], false); },
  band(message) { overlay.takeBand(message); },
  about(message) {
    live.about = message;
    showAbout();
    showFigures();
  },
  figures(message) {
    live.figures = message;
    showFigures();
    showVerdict(live);
  },
  status(message) {
    live.status = message;
    showStatus();
  },
  tuning(message) {
    live.tuning = message;
    showTuning();
  },
};

function listen() {
  const events = new EventSource("/live");
  for (const [name, take] of Object.entries(heard)) {
    events.addEventListener(name, event => {
      live.heardAt = performance.now();
      if (!live.isConnected) {
        live.isConnected = true;
        showVerdict(live);
        showStale();
      }
      take(JSON.parse(event.data));
      if (name === "picture") trace.stats.resyncs++;
    });
  }
  // The browser tries again by itself while it may; a connection that it gave up is made anew here.
  events.addEventListener("error", () => {
    if (events.readyState === EventSource.CLOSED) {
      events.close();
      setTimeout(listen, 1000);
    }
  });
}

label();
by("units").addEventListener("click", () => { prefs.set("units", prefs.units === "us" ? "metric" : "us"); showAll(); });
by("theme").addEventListener("click", () => { prefs.set("theme", prefs.theme === "dark" ? "light" : "dark"); showAll(); });
by("language").addEventListener("click", () => {
  prefs.set("language", nextLanguage());
  showAll();
});
by("tune").addEventListener("click", () => toggleTuning(!isTuningOpen));
by("tuning-hide").addEventListener("click", () => toggleTuning(false));
desk.begin();
hand.begin();
// The page brings its first picture along; the stream's own follows and goes on from there.
const first = by("first")?.textContent;
if (first) heard.picture(JSON.parse(first));
else showVerdict(live);
listen();

setInterval(() => {
  if (performance.now() - live.heardAt > LOST_AFTER_MS && live.isConnected) {
    live.isConnected = false;
    showVerdict(live);
  }
  showStale();
}, 500);
setInterval(() => {
  trace.speak();
  overlay.speak();
  changes?.showAge();
}, SPEAK_EVERY_MS);

let last = performance.now();
requestAnimationFrame(function step(now) {
  trace.frame(now, Math.min(100, now - last));
  last = now;
  requestAnimationFrame(step);
});

window.clackbeat = { stats: trace.stats, hasGap: trace.hasGap, tuning: () => live.tuning, whatIf: () => changes?.state() };

import { by, make } from "./dom.js";
import { asked } from "./prefs.js";
import { say } from "./words.js";

const MARKS = ["weight", "stroke", "spring", "cleaned", "supply"];
const SAID_MS = 5000;
let desk = null;
let timer = 0;

export function showDesk(status, about) {
  desk = status?.desk ?? null;
  const record = by("record");
  record.hidden = by("mark").hidden = !desk;
  const running = desk?.current;
  record.classList.toggle("on", Boolean(running));
  record.disabled = !running && !desk?.canRecord;
  record.textContent = running ? `${say("desk.end")} ${clock(running.lengthS)}` : say("desk.record");
  by("mark").textContent = say("desk.mark");
  by("report").textContent = say("desk.report");
  by("report").setAttribute("href", asked("/report"));
  list(about);
}

function list(about) {
  const rows = desk ? [...desk.done].reverse().map(row) : [];
  if (desk?.current) rows.unshift(make("li", "", make("b", "", desk.current.name), make("span", "small", say("desk.running"))));
  if (rows.length === 0) rows.push(make("li", "small", say(about?.source === "replay" ? "desk.replay" : "desk.none")));
  const place = by("recordings");
  const fresh = make("ul", "", ...rows);
  if (place.innerHTML !== fresh.innerHTML) place.replaceChildren(...fresh.children);
}

function row(recording) {
  const parts = [clock(recording.lengthS)];
  if (recording.marks > 0) parts.push(say("desk.marks", { count: recording.marks }));
  if (recording.fault) parts.push(say("desk.disk", { why: recording.fault }));
  const report = make("a", "", say("desk.open"), make("span", "only-read", " " + recording.name));
  report.href = asked("/report/" + recording.id);
  report.target = "_blank";
  report.rel = "noopener";
  const file = make("a", "", say("desk.save"), make("span", "only-read", " " + recording.name));
  file.href = "/recording/" + recording.id;
  return make("li", "", make("b", "", recording.name), make("span", "small", parts.join(" · ")), report, file);
}

const clock = s => `${Math.floor(s / 60)}:${String(Math.floor(s % 60)).padStart(2, "0")}`;

export async function post(address, body) {
  const answer = await fetch(asked(address), {
    method: "POST",
    headers: { "content-type": "application/json" },
    body: JSON.stringify(body ?? {}),
  });
  if (!answer.ok) throw new Error(await answer.text() || String(answer.status));
  return answer.json();
}

export function tell(words) {
  by("said").textContent = words;
  clearTimeout(timer);
  timer = setTimeout(() => { by("said").textContent = ""; }, SAID_MS);
}

async function guarded(act) {
  try {
    await act();
  } catch (failure) {
    tell(say("desk.failed", { why: failure.message }));
  }
}

export function begin() {
  by("record").addEventListener("click", () => guarded(async () => {
    if (desk?.current) {
      const ended = await post("/recording/end");
      if (ended) tell(say("desk.ended", { name: ended.name }));
    } else {
      await post("/recording/begin");
      tell(say("desk.began"));
    }
  }));
  by("mark").addEventListener("click", () => {
    by("mark-choices").replaceChildren(...MARKS.map(id => {
      const choice = make("button", "", say("mark." + id));
      choice.type = "button";
      choice.addEventListener("click", () => mark(say("mark." + id)));
      return choice;
    }));
    by("mark-own").value = "";
    by("mark-dialog").showModal();
  });
  by("mark-cancel").addEventListener("click", () => by("mark-dialog").close());
  by("mark-form").addEventListener("submit", event => {
    event.preventDefault();
    const words = by("mark-own").value.trim();
    if (words) mark(words);
    else by("mark-own").focus();
  });
}

function mark(words) {
  by("mark-dialog").close();
  guarded(async () => {
    const answer = await post("/recording/mark", { words });
    tell(say(answer.isKept ? "mark.kept" : "mark.shown", { words }));
  });
}

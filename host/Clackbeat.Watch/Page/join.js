import { prefs } from "./prefs.js";
import { label, languageName, nextLanguage, say } from "./words.js";

const form = document.getElementById("join");
const code = document.getElementById("code");
const said = document.getElementById("said");
const language = document.getElementById("language");

function show() {
  label();
  const next = nextLanguage();
  language.textContent = languageName(next);
  language.lang = next;
}

language.addEventListener("click", () => {
  prefs.set("language", nextLanguage());
  show();
});

async function open() {
  said.textContent = "";
  try {
    const answer = await fetch("/session", {
      method: "POST",
      headers: { "content-type": "application/json" },
      body: JSON.stringify({ code: code.value }),
    });
    if (answer.ok) location.replace("/");
    else said.textContent = say(answer.status === 429 ? "join.many" : "join.wrong");
  } catch {
    said.textContent = say("join.cut");
  }
}

form.addEventListener("submit", event => {
  event.preventDefault();
  open();
});

show();
code.focus();

// The square in the terminal brings the code behind the address, where no server and no log sees it.
if (location.hash.length > 1) {
  code.value = location.hash.slice(1);
  history.replaceState(null, "", "/");
  open();
}

import { prefs } from "./prefs.js";

// All words of the page stand in words.json, one entry a phrase and in it every language.
// The live page brings them along, the page for the code asks for them.
const along = document.getElementById("words");
const book = along ? JSON.parse(along.textContent) : await (await fetch("/page/words.json")).json();
if (!(prefs.language in book.languages)) prefs.language = "en";

export const languages = Object.keys(book.languages);
export const signs = book.signs;
export const languageName = code => book.languages[code];

/** Is there such a phrase? */
export const has = key => key in book.words;

/** A phrase in the language that was chosen, its {places} filled. */
export function say(key, places = {}) {
  return fill(book.words[key]?.[prefs.language] ?? key, places);
}

function fill(text, places) {
  return text.replace(/\{(\w+)\}/g, (_, name) => places[name] ?? "");
}

/** A number's text with the decimal mark of the language. */
export function number(text) {
  const plain = String(text).replace("-", "\u2212");
  return prefs.language === "es" ? plain.replace(".", ",") : plain;
}

/** Fills what stands in the page itself. */
export function label() {
  document.documentElement.lang = prefs.language;
  for (const place of document.querySelectorAll("[data-w]")) place.textContent = say(place.dataset.w);
  for (const place of document.querySelectorAll("[data-wl]")) place.setAttribute("aria-label", say(place.dataset.wl));
}

import { prefs } from "./prefs.js";

// All words of the page come out of the program's catalogue as words.json, one entry a phrase and in it every language.
// The live page brings them along, the page for the code asks for them.
const along = document.getElementById("words");
const book = along ? JSON.parse(along.textContent) : await (await fetch("/page/words.json")).json();
if (!(prefs.language in book.languages)) prefs.language = "en";

export const languages = Object.keys(book.languages);
export const features = book.features;
/** The language after the one that was chosen, the first after the last. */
export const nextLanguage = () => languages[(languages.indexOf(prefs.language) + 1) % languages.length];
export const languageName = code => book.languages[code].name;

/** Is there such a phrase? */
export const has = key => key in book.words;

/** A phrase in the language that was chosen, its {places} filled. */
export function say(key, places = {}) {
  return fill(book.words[key]?.[prefs.language] ?? key, places);
}

/** How old something is, in words; whole seconds, minutes or hours. */
export const age = s => s < 100 ? say("age.seconds", { n: Math.floor(s) })
  : s < 6000 ? say("age.minutes", { n: Math.floor(s / 60) }) : say("age.hours", { n: Math.floor(s / 3600) });

// {name} stands for a value, {name?one:beat|other:beats} for words by the number's plural category.
function fill(text, places) {
  return text.replace(/\{(\w+)(?:\?([^}]*))?\}/g, (_, name, forms) => forms ? form(forms, places[name]) : places[name] ?? "");
}

function form(forms, count) {
  const all = Object.fromEntries(forms.split("|").map(f => f.split(":", 2)));
  return all[new Intl.PluralRules(prefs.language).select(count)] ?? all.other;
}

/** A number's text with the decimal mark of the language. */
export function number(text) {
  return String(text).replace("-", "\u2212").replace(".", book.languages[prefs.language].decimal);
}

/** How much a ratio has changed: in per cent, or so many times as much where per cent would be a number nobody reads. */
export const timesAsMuch = ratio => Math.abs(ratio - 1) > book.mostPerCent
  ? fill(book.times[prefs.language], { ratio: number(Number(ratio.toFixed(1)).toString()) }) : undefined;

/** A day as the report writes it. */
export function day(date) {
  const month = book.dates.months[date.getMonth()][prefs.language];
  return fill(book.dates.day[prefs.language], { day: date.getDate(), month, year: date.getFullYear() });
}

/** Fills what stands in the page itself. */
export function label() {
  document.documentElement.lang = prefs.language;
  for (const place of document.querySelectorAll("[data-w]")) place.textContent = say(place.dataset.w);
  for (const place of document.querySelectorAll("[data-wl]")) place.setAttribute("aria-label", say(place.dataset.wl));
}

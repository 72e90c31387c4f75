// What somebody chose on this device; where nothing can be kept, it holds until the page is closed.
const kept = new Map();

function load(name) {
  try { return localStorage.getItem("clackbeat." + name) ?? undefined; } catch { return kept.get(name); }
}

function save(name, value) {
  kept.set(name, value);
  try { localStorage.setItem("clackbeat." + name, value); } catch { /* Private windows keep nothing. */ }
}

const listeners = [];
export const prefs = {
  language: load("language") ?? new Intl.Locale(navigator.language || "en").language,
  theme: load("theme") ?? (matchMedia("(prefers-color-scheme: dark)").matches ? "dark" : "light"),
  units: load("units"),
  set(name, value) {
    prefs[name] = value;
    save(name, value);
    listeners.forEach(l => l(name));
  },
  onChange(listener) { listeners.push(listener); },
};

/** An address of the program, with the language and the units that its answer is to have. */
export const asked = address => `${address}?${new URLSearchParams({ language: prefs.language, units: prefs.units ?? "metric" })}`;

export function applyTheme() {
  document.documentElement.dataset.theme = prefs.theme;
}
applyTheme();

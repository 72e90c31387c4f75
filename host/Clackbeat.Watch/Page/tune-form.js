import { make } from "./dom.js";
import { capital, knobName, setting, unitName } from "./tune-words.js";
import { prefs } from "./prefs.js";
import { number, say } from "./words.js";

// One of each in m or kg; turns and washers belong to no system.
const UNITS = {
  stroke: { mm: 0.001, in: 0.0254, turns: null },
  weight: { g: 0.001, oz: 0.028349523125, kg: 1, lb: 0.45359237, washers: null },
  spring: { turns: null, mm: 0.001, in: 0.0254 },
};
const USUAL = {
  metric: { stroke: ["mm", "4", "12", "8"], weight: ["g", "200", "900", "400"], spring: ["turns", "0", "6", "2"] },
  us: { stroke: ["in", "0.15", "0.5", "0.3"], weight: ["oz", "8", "32", "16"], spring: ["turns", "0", "6", "2"] },
};
const AIMS = ["most-delivered", "least-wasted", "gentlest-peak"];

/** The form with which a session begins, and the sessions to go on with. */
export function sessionForm(tuning, ask, trouble) {
  const hints = new Map(tuning.hints.map(h => [h.name, h]));
  const knobs = tuning.isVirtual ? [...hints.keys()] : Object.keys(UNITS);
  const fields = {};
  const form = make("form", "tune-form", make("p", "", say("tune.lead")));
  const units = make("select");
  const choice = radios("knob", say("tune.form.knob"), knobs.map(k => [k, capital(knobName(k))]), fill);
  const aim = radios("aim", say("tune.form.aim"), AIMS.map(a => [a, capital(say("tune.aim." + a))]), () => { enough.hidden = aim.value() !== "gentlest-peak"; });

  function field(name, words, control, note) {
    control.id = "tune-" + name;
    control.name = name;
    const wrong = make("span", "wrong");
    wrong.id = control.id + "-wrong";
    wrong.setAttribute("role", "alert");
    fields[name] = { control, wrong };
    const label = make("label", "", make("span", "", words), control);
    label.htmlFor = control.id;
    return make("div", "field", label, note ? make("span", "small", note) : null, wrong);
  }

  function box(name, words, note) {
    const control = make("input");
    control.inputMode = "decimal";
    control.autocomplete = "off";
    return field(name, words, control, note);
  }

  const flow = prefs.units === "us" ? "gpm" : "L/min";
  const enough = box("enough", say("tune.form.enough", { unit: flow }), say("tune.form.enough.more"));
  enough.hidden = true;
  form.append(
    choice.element,
    ...tuning.isVirtual ? [make("p", "small", say("tune.form.virtual"))] : [],
    make("div", "fields",
      field("unit", say("tune.form.unit"), units), box("low", say("tune.form.low")), box("high", say("tune.form.high")),
      box("step", say("tune.form.step"), say("tune.form.step.more")), box("now", say("tune.form.now"))),
    aim.element, enough);
  const begin = make("button", "main", say("tune.form.begin"));
  begin.type = "submit";
  form.append(make("div", "acts", begin), make("p", "small", say("tune.form.time")));
  form.noValidate = true;

  // A virtual ram says how it stands; at a real one the numbers are examples to be written over.
  function fill() {
    const name = choice.value();
    const [unit, ...usual] = USUAL[prefs.units === "us" ? "us" : "metric"][name];
    const list = Object.entries(UNITS[name]).filter(([, one]) => one !== null || !tuning.isVirtual).map(([u]) => u);
    units.replaceChildren(...list.map(u => {
      const option = make("option", "", unitName(u));
      option.value = u;
      option.selected = u === unit;
      return option;
    }));
    numbers(name, usual);
  }

  function numbers(name, usual) {
    const hint = hints.get(name);
    const one = UNITS[name][units.value];
    const shown = si => number(Number((si / one).toPrecision(3)).toString());
    const values = hint && one ? [hint.lowest, hint.highest, hint.now].map(shown) : null;
    ["low", "high", "now"].forEach((key, i) => {
      fields[key].control.value = values ? values[i] : "";
      fields[key].control.placeholder = values ? "" : usual ? say("tune.form.such", { value: number(usual[i]) }) : "";
    });
    fields.step.control.value = "";
  }
  units.addEventListener("change", () => numbers(choice.value(), null));
  fill();

  form.addEventListener("submit", async event => {
    event.preventDefault();
    for (const { control, wrong } of Object.values(fields)) {
      control.removeAttribute("aria-invalid");
      control.removeAttribute("aria-describedby");
      wrong.textContent = "";
    }
    const typed = Object.fromEntries(Object.entries(fields).map(([name, { control }]) => [name, control.value]));
    const problem = await ask("/tuning/begin", { ...typed, knob: choice.value(), aim: aim.value(), units: prefs.units });
    const at = fields[problem.field];
    if (!at) return;
    at.wrong.textContent = trouble(problem);
    at.control.setAttribute("aria-invalid", "true");
    at.control.setAttribute("aria-describedby", at.wrong.id);
    at.control.focus();
  });
  return make("div", "", ...kept(tuning, ask), form);
}

function radios(name, title, choices, changed) {
  const element = make("fieldset", "choose", make("legend", "", title), ...choices.map(([value, words], i) => {
    const input = make("input");
    Object.assign(input, { type: "radio", name, value, id: `tune-${name}-${value}`, checked: i === 0 });
    input.addEventListener("change", () => changed());
    const label = make("label", "", input, make("span", "", words));
    label.htmlFor = input.id;
    return label;
  }));
  return { element, value: () => element.querySelector("input:checked").value };
}

function kept(tuning, ask) {
  if (tuning.kept.length === 0) return [];
  return [make("h3", "", say("tune.kept")), make("ul", "kept", ...tuning.kept.map(k => {
    const open = make("button", "", say("tune.kept.one", {
      knob: capital(knobName(k.knob.name)), low: setting(k.knob, k.knob.low), high: setting(k.knob, k.knob.high), count: k.trials,
    }), make("span", "small", k.name));
    open.type = "button";
    open.addEventListener("click", () => ask("/tuning/open", { file: k.name }));
    return make("li", "", open);
  })), make("h3", "", say("tune.new"))];
}

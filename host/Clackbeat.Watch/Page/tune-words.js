import { prefs } from "./prefs.js";
import { number, say, has } from "./words.js";

export const capital = text => text.charAt(0).toUpperCase() + text.slice(1);

/** What is turned, in the language that was chosen where it is one of the usual things. */
export const knobName = name => has("tune.knob." + name) ? say("tune.knob." + name) : name;

export const unitName = unit => has("tune.unit." + unit) ? say("tune.unit." + unit) : unit;

/** A setting with its unit. */
export const setting = (knob, value) => `${number(Number(value.toFixed(4)).toString())}\u00a0${unitName(knob.unit)}`;

/** A figure with its \u00b1 in the units that were chosen. */
export function reading(figure) {
  const { value, margin, unit, atMost } = prefs.units === "us" ? figure.us : figure.metric;
  return `${atMost ? say("tile.at-most") + "\u00a0" : ""}${number(value)}${margin ? ` \u00b1\u00a0${number(margin)}` : ""}${unit ? `\u00a0${unit}` : ""}`;
}

/** A share in hundredths, without its sign. */
export const percent = value => number(Math.abs(value).toFixed(Math.abs(value) < 9.95 ? 1 : 0));

const SVG = "http://www.w3.org/2000/svg";

export const by = id => document.getElementById(id);

/** An element with a class and what is in it. */
export function make(tag, className, ...inside) {
  const element = document.createElement(tag);
  if (className) element.className = className;
  element.append(...inside.filter(i => i !== null && i !== undefined));
  return element;
}

/** Words in which an option of the program stays in one piece. */
export const withCode = words => words.split(/(\(?--[a-z]+\)?)/).map(part => part.includes("--") ? make("code", "", part) : part);

/** The sign of a tone: its shape says as much as its colour. */
export function sign(tone) {
  const svg = document.createElementNS(SVG, "svg");
  svg.setAttribute("class", "sign");
  svg.setAttribute("aria-hidden", "true");
  const use = document.createElementNS(SVG, "use");
  use.setAttribute("href", "#sign-" + tone);
  svg.append(use);
  return svg;
}

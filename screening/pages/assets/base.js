"use strict";
const d = JSON.parse(document.getElementById("data").textContent);
const words = d.words, total = d.id.length;
const by = id => document.getElementById(id);

// make builds an element; texts are set as text, never as markup.
function make(tag, set, ...inside) {
  const e = document.createElement(tag);
  for (const [key, value] of Object.entries(set || {})) {
    if (key === "text") e.textContent = value;
    else if (value !== null && value !== undefined) e.setAttribute(key, value);
  }
  e.append(...inside);
  return e;
}

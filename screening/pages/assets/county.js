(() => {
const size = 50, most = 8; // rows shown at once; authorities with a column
const sureText = {a: "firm", b: "close call", c: "needs information", "-": "no result"}, sureClass = {a: "firm", b: "close", c: "needs", "-": "none"};
const at = (letters, i) => letters.charCodeAt(i) - 97; // -52, "-", is none
const none = -52;
const value = (v, i) => v.each ? v.each[i] : v.all[v.at[i]];
const note = i => words[d.note[i] || 0], error = i => words[d.error[i] || 0];
for (let i = 2; i < d.place.length; i++) d.place[i] += d.place[i - 2];
const members = {}; // rows by group
for (const [i, g] of Object.entries(d.group)) (members[g] = members[g] || []).push(+i);
const others = i => (members[d.group[i]] || []).filter(k => k !== i).map(k => d.id[k]);
const few = list => list.length > 6 ? list.slice(0, 6).join(", ") + " and " + (list.length - 6) + " more" : list.join(", ");

const why = text => text ? [make("span", {class: "why", text})] : [];

// State stands in the address, so that a view can be sent as a link. An address that only
// leads to a place of the page leaves it as it is.
const keys = ["q", "o", "c", "w", "sort", "page"];
let state = {};
function read() {
  const hash = location.hash.slice(1);
  if (hash && !hash.includes("=")) return;
  const from = new URLSearchParams(hash);
  for (const k of keys) state[k] = from.get(k) || "";
}
function go(change) {
  const next = Object.assign({}, state, "page" in change ? {} : {page: ""}, change);
  const to = new URLSearchParams();
  for (const k of keys) if (next[k]) to.set(k, next[k]);
  location.hash = to.toString() || "all=";
}

const outcome = i => words[d.joint[i]] || sureText["-"];
const place = (i, k) => (d.place[2 * i + k] / 1e5).toFixed(5);
function pathOf(a, i) {
  const n = at(a.path, i);
  return n === none ? (d.sure[i] === "-" ? "" : "not known") : a.paths[n];
}
const couldBe = (a, i) => at(a.could, i) === none ? "" : a.paths[at(a.could, i)];

let texts;
function matches(i, parts) {
  if (parts.length) {
    texts = texts || d.id.map((id, k) => [id, words[d.water[k]], outcome(k), ...d.values.map(v => value(v, k))].join(" ").toLowerCase());
    if (!parts.every(w => texts[i].includes(w))) return false;
  }
  if (state.o && d.class[i] !== state.o) return false;
  if (state.c && d.sure[i] !== state.c) return false;
  return !state.w || words[d.water[i]] === state.w;
}
const natural = new Intl.Collator("en", {numeric: true});
// ranks are the places of texts in their natural order: sorting by them is fast.
function ranks(list) {
  const order = [...new Set(list)].sort(natural.compare), rank = new Map(order.map((t, n) => [t, n]));
  return list.map(t => rank.get(t));
}
const ranked = {};
const sorts = {
  id: () => ranked.id = ranked.id || ranks(d.id),
  water: () => ranked.water = ranked.water || ranks(words),
};
function sorted(list, sort) {
  const back = sort.startsWith("-"), key = back ? sort.slice(1) : sort;
  const a = d.by.find(x => x.name === key);
  let value = null;
  if (key === "id") { const r = sorts.id(); value = i => r[i]; }
  else if (key === "water") { const r = sorts.water(); value = i => r[d.water[i]]; }
  else if (key === "shore") value = i => d.feet[i];
  else if (key === "joint") value = i => d.class.charCodeAt(i) * 4 + (d.sure.charCodeAt(i) & 3);
  else if (key === "long") value = i => d.long[i];
  else if (a) value = i => at(a.path, i) === none ? a.paths.length : at(a.path, i);
  if (value) list.sort((x, y) => value(x) - value(y) || x - y);
  return back ? list.reverse() : list;
}

function sure(letter) { return make("span", {class: "sure"}, make("span", {class: "mark " + sureClass[letter], "aria-hidden": "true"}), sureText[letter]); }

function row(i) {
  const tr = make("tr", {});
  const first = make("td", {class: "id"}, make("b", {text: d.id[i]}), ...why(i in d.group && "the same front: " + few(others(i))));
  for (const v of d.values) first.append(...why(value(v, i)));
  first.append(...why(note(i)));
  tr.append(first, make("td", {text: words[d.water[i]]}), make("td", {class: "number", text: d.feet[i]}));
  if (d.sure[i] === "-") {
    tr.append(make("td", {class: "cell", colspan: 2 + shown.length + 1}, sure("-"), ...why(error(i))));
    return tr;
  }
  const blocked = words[d.blocker[i]] && words[d.blocker[i]] + (d.share[i] ? " " + d.share[i] + " %" : "");
  tr.append(make("td", {class: "cell"}, make("span", {class: "path", text: outcome(i)}), sure(d.sure[i]), ...why(blocked), ...why(error(i))),
    make("td", {class: "number", text: d.long[i] || ""}));
  for (const a of shown) {
    const could = couldBe(a, i);
    tr.append(make("td", {class: "cell"}, make("span", {class: "path", text: pathOf(a, i)}), sure(a.sure[i]),
      ...why(could && "could be " + could), ...why(words[a.blocker[i]])));
  }
  tr.append(make("td", {class: "why", text: words[d.riparian[i]]}));
  return tr;
}
const shown = d.by.slice(0, most);

function heads() {
  const one = (key, text, number) => {
    const now = state.sort === key ? "ascending" : state.sort === "-" + key ? "descending" : null;
    const b = make("button", {type: "button", text: text + (now ? (now === "ascending" ? " \u2191" : " \u2193") : "")});
    b.addEventListener("click", () => go({sort: state.sort === key ? "-" + key : key}));
    return make("th", {scope: "col", "aria-sort": now || "none", class: number ? "number" : null}, b);
  };
  return make("tr", {}, one("id", "Parcel"), one("water", "Water"), one("shore", "Shore, ft", true), one("joint", "Together"), one("long", "Longest, ft", true),
    ...shown.map(a => one(a.name, a.name)), make("th", {scope: "col", text: "Side lines"}));
}

let found = [];
function render() {
  read();
  if (by("q").value.trim() !== state.q.trim()) by("q").value = state.q;
  for (const k of ["o", "c", "w"]) by(k).value = state[k];
  const parts = state.q.toLowerCase().split(/\s+/).filter(w => w);
  found = [];
  for (let i = 0; i < total; i++) if (matches(i, parts)) found.push(i);
  found = sorted(found, state.sort);
  const pages = Math.max(1, Math.ceil(found.length / size)), page = Math.min(pages, Math.max(1, +state.page || 1));
  const table = by("rows"), focused = table.tHead.contains(document.activeElement) ? [...table.tHead.querySelectorAll("button")].indexOf(document.activeElement) : -1;
  table.tHead.replaceChildren(heads());
  if (focused >= 0) table.tHead.querySelectorAll("button")[focused].focus();
  table.tBodies[0].replaceChildren(...found.slice((page - 1) * size, page * size).map(row));
  const thing = n => n.toLocaleString("en") + (n === 1 ? " parcel" : " parcels");
  by("status").textContent = found.length === total ? thing(total) : found.length.toLocaleString("en") + " of " + thing(total);
  by("at").textContent = "page " + page + " of " + pages;
  by("pager").hidden = pages < 2;
  by("back").disabled = page < 2; by("on").disabled = page >= pages;
  by("back").onclick = () => go({page: page - 1}); by("on").onclick = () => go({page: page + 1});
  by("save").disabled = by("mail").disabled = !found.length;
}

// harmless keeps a spreadsheet from running a text as a formula, as the tables beside this
// page do: hidden characters have been written out already.
const number = /^[+-]?([0-9]+\.?[0-9]*|\.[0-9]+)([eE][+-]?[0-9]+)?$/;
const formula = "=+-@\uff1d\uff0b\uff0d\uff20\ufe62\ufe63\ufe66\ufe6b";
function harmless(text) {
  return text.split(";").map((part, n) => {
    const rest = n ? part.trimStart() : part, bare = rest.replace(/^['\s]+/, "");
    if (!bare || !formula.includes(bare[0]) || number.test(rest.trim())) return part;
    return part.slice(0, part.length - rest.length) + "'" + rest;
  }).join(";");
}
// table is a CSV of rows of cells (RFC 4180).
function table(rows) {
  const cell = v => { const s = typeof v === "number" ? String(v) : harmless(v); return /[",\r\n]/.test(s) ? '"' + s.replaceAll('"', '""') + '"' : s; };
  return rows.map(r => r.map(cell).join(",") + "\r\n").join("");
}
// sentence is an outcome as it can be written to an owner.
function sentence(i) {
  const sureness = {a: "This is firm.", b: "It is a close call: the lines may lie a little otherwise.", c: "It needs information to be sure."}[d.sure[i]];
  switch (d.class[i]) {
  case "a": return "By the maps, one structure up to " + d.long[i] + " ft long could meet the easiest path of every authority before this parcel. " + sureness;
  case "e": return "By the maps it is not known whether one structure could meet the easiest path of every authority before this parcel" + (words[d.blocker[i]] ? " (" + words[d.blocker[i]] + ")" : "") + ".";
  case "f": return "By the maps nothing can be said of this parcel.";
  }
  const none = "By the maps no one structure could meet the easiest path of every authority before this parcel" + (words[d.blocker[i]] ? " (in the way: " + words[d.blocker[i]] + ")" : "");
  if (!d.long[i]) return none + ". " + sureness;
  const best = d.class[i] === "d" ? " would take a more demanding path with every authority. " : " could meet the easiest path of " + outcome(i) + ". ";
  return none + "; one up to " + d.long[i] + " ft long" + best + sureness;
}
function mailing(list) {
  return table([["parcel_id", ...d.carried, "outcome"], ...list.map(i => [d.id[i], ...d.values.map(v => value(v, i)), sentence(i)])]);
}
function download(list) {
  const head = ["parcel_id", ...d.carried, "shared_with", "lon", "lat", "water", "shore_ft", "joint", "joint_certainty", "joint_longest_ft", "joint_blocked_by", "joint_blocked_pct",
    ...d.by.flatMap(a => ["title", "certainty", "could_be", "longest_ft", "blocked_by"].map(c => a.name + "_" + c)), "riparian", "note", "error"];
  const sureOf = letter => letter === "-" ? "" : sureText[letter];
  return table([head, ...list.map(i => [d.id[i], ...d.values.map(v => value(v, i)), others(i).join("; "), +place(i, 0), +place(i, 1), words[d.water[i]], d.feet[i],
    words[d.joint[i]], sureOf(d.sure[i]), d.long[i] || "", words[d.blocker[i]], d.share[i] || "",
    ...d.by.flatMap(a => [pathOf(a, i), sureOf(a.sure[i]), couldBe(a, i), a.long[i] || "", words[a.blocker[i]]]), words[d.riparian[i]], note(i), error(i)])]);
}
function offer(name, text) {
  const link = make("a", {download: name, href: URL.createObjectURL(new Blob([text], {type: "text/csv"}))});
  link.click();
  setTimeout(() => URL.revokeObjectURL(link.href), 60000);
}

by("filters").hidden = false; by("rows").hidden = false;
for (const link of document.querySelectorAll(".filter")) {
  link.hidden = false;
  link.addEventListener("click", () => by("list").scrollIntoView());
}
d.classes.forEach((text, n) => { const value = String.fromCharCode(97 + n); if (d.class.includes(value)) by("o").append(make("option", {value, text})); });
by("filters").addEventListener("submit", e => e.preventDefault());
by("q").addEventListener("input", () => go({q: by("q").value}));
for (const k of ["o", "c", "w"]) by(k).addEventListener("change", () => go({[k]: by(k).value}));
by("clear").addEventListener("click", () => { location.hash = "all="; });
by("save").addEventListener("click", () => offer("parcels_chosen.csv", download(found)));
by("mail").addEventListener("click", () => offer("mailing_list.csv", mailing(found)));
window.addEventListener("hashchange", render);
for (const k of keys) state[k] = "";
render();
document.documentElement.dataset.ready = total;
})();

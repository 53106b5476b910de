(() => {
const size = 50, asked = 3; // rows shown at once; words of a request
const sureText = ["firm", "close call", "needs information", "no result"], sureClass = ["firm", "close", "needs", "none"];

// worst certainty of a row over the authorities shown; 3 without a result.
function worst(i, only) {
  let w = 0;
  for (const a of d.authorities) {
    if (only && a.name !== only) continue;
    w = Math.max(w, a.path[i] < 0 ? 3 : a.sure[i]);
  }
  return w;
}

// State stands in the address, so that a view can be sent as a link.
const keys = ["q", "a", "p", "c", "r", "n", "s", "page", "open"];
function read() {
  const at = new URLSearchParams(location.hash.slice(1)), state = {};
  for (const k of keys) state[k] = at.get(k) || "";
  return state;
}
function go(change) {
  const state = Object.assign(read(), "page" in change || "open" in change ? {} : {page: ""}, change);
  const at = new URLSearchParams();
  for (const k of keys) if (state[k]) at.set(k, state[k]);
  location.hash = at.toString();
}

let texts;
function matches(i, state) {
  if (state.q) {
    texts = texts || d.id.map((id, k) => [id, words[d.kind[k]], words[d.parcels[k]], words[d.file[k]]].join(" ").toLowerCase());
    if (!state.q.toLowerCase().split(/\s+/).every(w => texts[i].includes(w))) return false;
  }
  if (state.a && state.p !== "" && !d.authorities.some(a => a.name === state.a && a.path[i] === +state.p)) return false;
  if (state.c !== "" && worst(i, state.a) !== +state.c) return false;
  return (!state.r || d.requests[i].length > 0) && (!state.n || d.changes[i].length > 0);
}
const natural = new Intl.Collator("en", {numeric: true});
function sorted(list, s) {
  const back = s.startsWith("-"), key = back ? s.slice(1) : s;
  const a = d.authorities.find(x => x.name === key);
  let value = null;
  if (key === "ask") value = i => d.requests[i].length;
  else if (key === "sure") value = i => worst(i);
  else if (a) value = i => a.path[i] < 0 ? a.paths.length : a.path[i];
  if (value) list.sort((x, y) => value(x) - value(y) || x - y);
  else if (key === "id") list.sort((x, y) => natural.compare(d.id[x], d.id[y]) || x - y);
  return back ? list.reverse() : list;
}

// phrase is a rule as it came out, in one line.
function phrase(rule, at) {
  const [r, value, off, result, reason] = at, limit = words[rule[2]];
  if (!words[value]) return words[reason] || words[result];
  return words[value] + (limit ? ", " + limit : "") + (words[off] ? ", may be off " + words[off] : "") + "; " + words[rule[3]];
}
function rulesOf(a, i) {
  const made = [];
  for (let k = 0; k < a.rules[i].length; k += 6) made.push(a.rules[i].slice(k, k + 6));
  return made;
}
function mark(sure) { return make("span", {class: "mark " + sureClass[sure], "aria-hidden": "true"}); }

function cell(a, i) {
  if (a.path[i] < 0) return make("td", {class: "cell"});
  const td = make("td", {class: "cell rank" + a.ranks[a.path[i]]});
  td.append(make("span", {class: "path", text: a.paths[a.path[i]][1]}),
    make("span", {class: "sure"}, mark(a.sure[i]), sureText[a.sure[i]]));
  const first = rulesOf(a, i)[0];
  if (first) {
    const rule = d.rules[first[0]];
    const says = words[first[1]] ? words[rule[1]] + ": " : "";
    td.append(make("span", {class: "why", text: (rule[5] ? "" : "not " + words[rule[0]] + ": ") + says + phrase(rule, first)}));
  }
  return td;
}

function row(i, state) {
  const open = state.open === d.id[i];
  const button = make("button", {type: "button", "aria-expanded": open, text: d.id[i]});
  button.addEventListener("click", () => go({open: open ? "" : d.id[i]}));
  const first = make("td", {class: "id"}, button, make("span", {class: "why", text: words[d.kind[i]]}), make("span", {class: "why", text: words[d.parcels[i]]}));
  if (d.changes[i].length) first.append(make("span", {class: "sure", text: "changed"}));
  const tr = make("tr", {}, first);
  const shown = d.authorities.filter(a => !state.a || a.name === state.a);
  if (words[d.aside[i]] || words[d.error[i]]) {
    tr.append(make("td", {colspan: shown.length, class: "cell"}, make("span", {class: "sure"}, mark(3), words[d.aside[i]] ? "not decided by itself" : "no result"),
      make("span", {class: "why", text: words[d.aside[i]] || words[d.error[i]]})));
  } else for (const a of shown) tr.append(cell(a, i));
  tr.append(make("td", {class: "number", text: d.requests[i].length / asked || ""}));
  return open ? [tr, detail(i, shown.length + 2)] : [tr];
}

function list(title, items) {
  return items.length ? [make("h3", {text: title}), make("ul", {}, ...items.map(text => make("li", {text})))] : [];
}
function detail(i, columns) {
  const left = make("div"), right = make("div");
  if (d.requests[i].length) {
    const asks = [];
    for (let k = 0; k < d.requests[i].length; k += asked) asks.push(d.requests[i].slice(k, k + asked).map(n => words[n]));
    const copy = make("button", {type: "button", class: "copy", text: "Copy"});
    copy.addEventListener("click", () => {
      const text = "About proposal " + d.id[i] + ", please:\n" + asks.map((q, n) => (n + 1) + ". " + q[0]).join("\n") + "\n";
      navigator.clipboard.writeText(text).then(() => { copy.textContent = "Copied"; }, () => { copy.textContent = "Select the text instead"; });
    });
    left.append(make("h3", {text: "To ask "}, copy), make("ol", {}, ...asks.map(q => make("li", {text: q[0]}, make("span", {class: "why", text: "then " + q[2]})))));
  }
  left.append(...list("Changed since the earlier run", d.changes[i].map(n => words[n])));
  left.append(...list("To be seen", d.notices[i].map(n => words[n])), ...list("Measured to", d.data[i].map(n => words[n])));
  if (d.sheets[i]) left.append(make("p", {}, make("a", {href: d.sheets[i], text: "Sheets to print"})));
  left.append(make("p", {class: "ids", text: "from " + words[d.file[i]] + (d.place[i] ? ", at " + d.place[i] : "")}));
  for (const a of d.authorities) {
    if (a.path[i] < 0) continue;
    right.append(make("h3", {text: a.name + ": " + a.paths[a.path[i]][1]}));
    right.append(make("p", {class: "ids", text: sureText[a.sure[i]] + "; rests on " + words[a.rests[i]] + (words[a.could[i]] ? "; could be " + words[a.could[i]] : "")}));
    const table = make("table", {class: "rules"}), body = make("tbody");
    table.append(make("thead", {}, make("tr", {}, ...["Rule", "Value", "Limit", "May be off", "Result", "Evidence"].map(text => make("th", {scope: "col", text})))), body);
    for (const at of rulesOf(a, i)) {
      const rule = d.rules[at[0]], says = make("td", {class: "says", text: (rule[5] ? "" : words[rule[0]] + ": ") + words[rule[1]]});
      if (words[at[4]]) says.append(make("span", {class: "why", text: words[at[4]]}));
      if (words[at[5]]) says.append(make("span", {class: "change", text: "Would need: " + words[at[5]]}));
      body.append(make("tr", {class: words[at[3]] === "meets" ? null : "fails"}, says, ...[words[at[1]], words[rule[2]], words[at[2]], words[at[3]], words[rule[3]] + (words[rule[4]] ? ", " + words[rule[4]] : "")].map(text => make("td", {text}))));
    }
    if (body.childElementCount) right.append(table);
    right.append(...list("By another interpretation", a.open[i].map(n => words[n])));
    if (a.also[i].length) right.append(make("details", {}, make("summary", {text: "Not checked here: " + a.also[i].length + " conditions of this path"}), make("ul", {}, ...a.also[i].map(n => make("li", {text: words[n]})))));
  }
  return make("tr", {class: "detail"}, make("td", {colspan: columns}, make("div", {class: "cols"}, left, right)));
}

function heads(state) {
  const one = (key, text, number) => {
    const now = state.s === key ? "ascending" : state.s === "-" + key ? "descending" : null;
    const b = make("button", {type: "button", text: text + (now ? (now === "ascending" ? " \u2191" : " \u2193") : "")});
    b.addEventListener("click", () => go({s: state.s === key ? "-" + key : key}));
    return make("th", {scope: "col", "aria-sort": now || "none", class: number ? "number" : null}, b);
  };
  return make("tr", {}, one("id", "Proposal"), ...d.authorities.filter(a => !state.a || a.name === state.a).map(a => one(a.name, a.name)), one("ask", "To ask", true));
}

let scrolled = "";
function render() {
  const state = read();
  by("q").value === state.q || (by("q").value = state.q);
  by("a").value = state.a; by("c").value = state.c; by("r").checked = !!state.r; by("n").checked = !!state.n;
  const a = d.authorities.find(x => x.name === state.a);
  by("p").replaceChildren(make("option", {value: "", text: a ? "any" : "choose an authority"}), ...(a ? a.paths.map((p, n) => make("option", {value: n, text: p[1]})) : []));
  by("p").value = a ? state.p : ""; by("p").disabled = !a;
  let found = [];
  for (let i = 0; i < total; i++) if (matches(i, state)) found.push(i);
  found = sorted(found, state.s);
  const pages = Math.max(1, Math.ceil(found.length / size));
  let page = Math.min(pages, Math.max(1, +state.page || 1));
  const wanted = found.findIndex(i => d.id[i] === state.open);
  if (wanted >= 0 && !state.page) page = Math.floor(wanted / size) + 1;
  const shown = found.slice((page - 1) * size, page * size);
  const table = by("rows");
  table.tHead.replaceChildren(heads(state));
  table.tBodies[0].replaceChildren(...shown.flatMap(i => row(i, state)));
  by("status").textContent = found.length === total ? total + " proposals" : found.length + " of " + total + " proposals";
  by("at").textContent = "page " + page + " of " + pages;
  by("pager").hidden = pages < 2;
  by("back").disabled = page < 2; by("on").disabled = page >= pages;
  by("back").onclick = () => go({page: page - 1, open: ""}); by("on").onclick = () => go({page: page + 1, open: ""});
  if (state.open && state.open !== scrolled) {
    const b = table.querySelector("button[aria-expanded=true]");
    if (b) { b.focus({preventScroll: true}); b.closest("tr").scrollIntoView({block: "nearest"}); }
  }
  scrolled = state.open;
}

by("filters").hidden = false; by("rows").hidden = false;
by("filters").addEventListener("submit", e => e.preventDefault());
by("q").addEventListener("input", () => go({q: by("q").value, open: ""}));
by("a").addEventListener("change", () => go({a: by("a").value, p: ""}));
for (const k of ["p", "c"]) by(k).addEventListener("change", () => go({[k]: by(k).value}));
for (const k of ["r", "n"]) by(k).addEventListener("change", () => go({[k]: by(k).checked ? "1" : ""}));
by("clear").addEventListener("click", () => { location.hash = ""; });
window.addEventListener("hashchange", render);
render();
document.documentElement.dataset.ready = total;
})();

"use strict";
// Everything that came from outside goes in as text, never as markup.
const quietLimit = 6000;
const order = ["broken", "undecided", "held", "not-exercised"];
let lastSeen = 0;

function element(name, text, kind) {
  const made = document.createElement(name);
  made.textContent = String(text);
  if (kind) made.className = kind;
  return made;
}

// A cell is a text, a number, or { short } for one that shall not be broken into lines.
function cell(content) {
  if (typeof content === "number") return element("td", content, "number short");
  return content.short === undefined ? element("td", content) : element("td", content.short, "short");
}

function fill(id, rows, nothing) {
  const body = document.getElementById(id);
  const made = rows.map(({ cells, kind }) => {
    const row = element("tr", "", kind);
    row.append(...cells.map(cell));
    return row;
  });
  if (!made.length) {
    const row = element("tr", "", "nothing");
    const whole = element("td", nothing);
    whole.colSpan = 9;
    row.append(whole);
    made.push(row);
  }
  body.replaceChildren(...made);
}

function say(text, lost) {
  const state = document.getElementById("state");
  if (state.textContent !== text) state.textContent = text;
  state.className = lost ? "lost" : "";
}

// To the millisecond; the report and the recording have all of it.
function clock(time) {
  return { short: time.replace("T", " ").replace(/(\.\d{3})\d*/, "$1").replace("Z", "") };
}

function show(picture) {
  if (!picture.rules) return;
  document.getElementById("ride").textContent = picture.ride || "Pawl";
  say(picture.connected ? "connected to the broker" : "connection to the broker lost; values are unknown", !picture.connected);
  document.getElementById("detail").textContent = picture.messages + " messages, judged up to " + clock(picture.time).short + " UTC";
  document.getElementById("counts").replaceChildren(...order.map(verdict => {
    const count = picture.rules.filter(r => r.verdict === verdict).length;
    const item = element("li", "", count ? verdict : "");
    item.append(element("b", count), verdict.replace("-", " "));
    return item;
  }));
  const rules = picture.rules.slice().sort((a, b) => order.indexOf(a.verdict) - order.indexOf(b.verdict));
  fill("rules", rules.map(r => ({ cells: [r.id, r.title, { short: r.verdict.replace("-", " ") }, r.met, r.missed], kind: r.verdict })), "none");
  fill("zones", picture.zones.map(z => ({ cells: [z.name, { short: z.trains }, z.findings], kind: z.findings > 0 ? "broken" : "" })), "none");
  fill("findings", picture.findings.map(f => ({ cells: [clock(f.time), f.subject, { short: f.what.replaceAll("-", " ") }, f.values],
    kind: f.breaks ? "broken" : "undecided" })), "none so far");
  fill("evidence", picture.evidence.map(e => ({ cells: [e.count, e.what, e.signals, e.treatment, e.first] })), "none so far");
}

const source = new EventSource("events");
source.onmessage = event => { lastSeen = Date.now(); show(JSON.parse(event.data)); };
source.onerror = () => say("the watching program does not answer; trying again", true);
setInterval(() => {
  if (lastSeen && Date.now() - lastSeen > quietLimit) say("the watching program is silent; what stands here is old", true);
}, 1000);

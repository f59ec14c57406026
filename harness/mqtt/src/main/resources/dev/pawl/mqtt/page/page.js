"use strict";
// Everything that came from outside goes in as text, never as markup.
const quietLimit = 6000;
const freshMilliseconds = 1500;
const order = ["broken", "undecided", "not-exercised", "held"];
const drawn = {};
let lastSeen = 0;

function element(name, content, kind) {
  const made = document.createElement(name);
  if (kind) made.className = kind;
  made.append(...(Array.isArray(content) ? content : [content]).map(part => part instanceof Node ? part : String(part)));
  return made;
}

// A name may be broken after its parts; what is copied or read out stays the name.
function named(name, kind) {
  return element("span", name.split(/(?<=_)/).flatMap((part, i) => i ? [document.createElement("wbr"), part] : [part]), kind);
}

function mark(verdict) {
  if (!verdict) return element("span", "wrong count", "verdict undecided");
  return document.getElementById("mark-" + verdict).content.cloneNode(true);
}

// Only what has changed is drawn anew, so that nothing is read out twice and nobody loses their place.
function draw(id, data, build) {
  const key = JSON.stringify(data);
  if (drawn[id] === key) return;
  drawn[id] = key;
  document.getElementById(id).replaceChildren(...build(data));
}

function rows(id, data, cells, nothing) {
  draw(id, data, () => {
    if (data.length) return data.map(each => element("tr", cells(each)));
    const whole = element("td", nothing);
    whole.colSpan = 9;
    return [element("tr", whole, "nothing")];
  });
}

function say(text, lost) {
  const state = document.getElementById("state");
  if (state.textContent !== text) state.textContent = text;
  state.className = lost ? "lost" : "";
}

// To the millisecond; the report and the recording have all of it.
function clock(time) {
  return time.replace("T", " ").replace(/(\.\d{3})\d*/, "$1").replace("Z", "");
}

function hour(time) {
  return clock(time).slice(11);
}

function trains(zone) {
  if (zone.least !== zone.most) return zone.least + "–" + zone.most;
  return String(zone.least);
}

function stands(zone) {
  if (zone.least !== zone.most) return "not proven";
  return zone.least === 0 ? "empty" : zone.least === 1 ? "train" : "trains";
}

function flag(each, now) {
  const fresh = each.since && Date.parse(now) - Date.parse(each.since) < freshMilliseconds;
  const kind = each.value === "on" ? "on" : each.value === "unknown" ? "unknown" : "off";
  return element("li", [named(each.name, "id"), element("b", each.value)], "flag " + kind + (fresh ? " fresh" : ""));
}

function place(zone) {
  const kind = (zone.least > 0 ? "occupied" : zone.most > 0 ? "unproven" : "empty") + (zone.least === zone.most ? "" : " range");
  const parts = [named(zone.name, "name"), element("b", trains(zone), "figure"), element("span", stands(zone), "stands")];
  if (zone.findings > 0) parts.push(element("span", "count found wrong" + (zone.findings > 1 ? " " + zone.findings + "\u00a0times" : ""), "wrong"));
  return element("li", parts, "zone " + kind);
}

function track(picture) {
  // The flags' freshness belongs to what is drawn, the time does not.
  const items = picture.track.flatMap(zone => [...zone.entry.map(each => flag(each, picture.time)), place(zone),
    ...zone.exit.map(each => flag(each, picture.time))]);
  draw("track", items.map(item => item.outerHTML), () => items.length ? items : [element("li", "The rules declare no zone.", "nothing")]);
}

function finding(entry) {
  if (!entry) return [element("p", "None so far.", "nothing")];
  return [element("p", [mark(entry.verdict), element("span", entry.subject, "id"), entry.title ? " " + entry.title : ""], "headline"),
    element("p", hour(entry.time) + " UTC: " + entry.what + (entry.values ? " (" + entry.values + ")" : ""))];
}

function exercise(each) {
  const ways = each.ways.map(way => element("li", [element("span", way.times ? "done: " : "not yet: ", "hidden"), way.words
    + (way.times > 1 ? " (" + way.times + " times)" : "")], way.times ? "way ticked" : "way"));
  return element("li", [element("p", [element("span", each.id, "id"), " " + each.title]), element("ul", ways),
    ...(each.remark ? [element("p", each.remark, "remark")] : [])]);
}

function board(all) {
  const open = all.filter(each => !each.tried);
  const tried = all.filter(each => each.tried);
  draw("progress", [tried.length, all.length], () => [element("b", tried.length, "figure"), " of " + all.length + " rules tried"
    + (open.length ? "; what would try the others:" : "")]);
  draw("board", open, () => open.map(exercise));
  document.getElementById("done").hidden = tried.length === 0;
  draw("tried", tried, () => tried.map(exercise));
}

function unknown(signals, picture) {
  draw("unknown", signals, () => signals.length === 0 ? [element("li", "None.", "nothing")] : signals.map(each =>
    element("li", [named(each.signal, "id"), each.since ? " since " + hour(each.since) : " has no value yet",
      each.rules.length ? element("span", each.rules.length === 1 ? " (" + each.rules[0] + ")" : " (" + each.rules.length + " rules)", "remark")
        : element("span", " (no rule)", "remark")])));
}

function show(picture) {
  if (!picture.rules) return;
  document.getElementById("ride").textContent = picture.ride || "Pawl";
  const quiet = picture.quietSeconds >= 10 ? "; nothing has come for " + (picture.quietSeconds < 60
    ? Math.floor(picture.quietSeconds / 10) * 10 + " s" : Math.floor(picture.quietSeconds / 60) + " min") : "";
  say(picture.connected ? "connected to the broker" + quiet : "connection to the broker lost; values are unknown",
    !picture.connected || quiet !== "");
  draw("missing", picture.missing, () => picture.missing.map(sentence => element("li", sentence)));
  draw("detail", [picture.messages, hour(picture.time).slice(0, 8)], () => [picture.messages + " messages, judged up to "
    + clock(picture.time).slice(0, 19) + " UTC"]);
  track(picture);
  draw("last", picture.findings.find(entry => entry.verdict !== "undecided") || picture.findings[0] || null, finding);
  draw("counts", order.map(verdict => picture.rules.filter(rule => rule.verdict === verdict).length), counts =>
    counts.map((count, i) => element("li", [element("b", count, "figure"), mark(order[i])], count ? "" : "none")));
  board(picture.exercises);
  unknown(picture.unknown, picture);
  rows("findings", picture.findings, f => [element("td", clock(f.time), "short"), element("td", [mark(f.verdict), " ",
    element("span", f.subject, "id"), f.title ? " " + f.title : ""]), element("td", f.what), element("td", f.values)], "none so far");
  rows("evidence", picture.evidence, e => [element("td", e.count, "number"), element("td", e.what), element("td", e.signals),
    element("td", e.treatment), element("td", e.first)], "none so far");
  const sorted = picture.rules.slice().sort((a, b) => order.indexOf(a.verdict) - order.indexOf(b.verdict));
  rows("rules", sorted, r => [element("td", mark(r.verdict), "short"), element("td", [element("span", r.id, "id"), " " + r.title]),
    element("td", r.met, "number"), element("td", r.missed, "number")], "none");
}

const source = new EventSource("events");
source.onmessage = event => { lastSeen = Date.now(); show(JSON.parse(event.data)); };
source.onerror = () => say("the watching program does not answer; trying again", true);
setInterval(() => {
  if (lastSeen && Date.now() - lastSeen > quietLimit) say("the watching program is silent; what stands here is old", true);
}, 1000);

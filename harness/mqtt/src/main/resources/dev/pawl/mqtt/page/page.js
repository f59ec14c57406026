"use strict";
// Everything that came from outside goes in as text, never as markup.
const quietLimit = 6000;
let lastSeen = 0;

function fill(id, rows) {
  const body = document.getElementById(id);
  body.replaceChildren(...rows.map(({ cells, broken }) => {
    const row = document.createElement("tr");
    if (broken) row.className = "broken";
    for (const cell of cells) {
      const data = document.createElement("td");
      data.textContent = String(cell);
      if (typeof cell === "number") data.className = "number";
      row.append(data);
    }
    return row;
  }));
}

function say(text, lost) {
  const state = document.getElementById("state");
  state.textContent = text;
  state.className = lost ? "lost" : "";
}

function show(picture) {
  if (!picture.rules) return;
  document.getElementById("ride").textContent = picture.ride || "Pawl";
  say((picture.connected ? "connected to the broker" : "connection to the broker lost; values are unknown") + ", "
    + picture.messages + " messages, judged up to " + picture.time, !picture.connected);
  fill("rules", picture.rules.map(r => ({ cells: [r.id, r.title, r.verdict, r.met, r.missed], broken: r.missed > 0 })));
  fill("zones", picture.zones.map(z => ({ cells: [z.name, z.trains, z.findings], broken: z.findings > 0 })));
  fill("findings", picture.findings.map(f => ({ cells: [f.time, f.subject, f.what, f.values], broken: f.breaks })));
  fill("evidence", picture.evidence.map(e => ({ cells: [e.count, e.what, e.treatment, e.first] })));
}

const source = new EventSource("events");
source.onmessage = event => { lastSeen = Date.now(); show(JSON.parse(event.data)); };
source.onerror = () => say("the watching program does not answer; trying again", true);
setInterval(() => {
  if (lastSeen && Date.now() - lastSeen > quietLimit) say("the watching program is silent; what stands here is old", true);
}, 1000);

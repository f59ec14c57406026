"use strict";
// Adds a filter above each table of rules, and to each picture ways to keep it and to open it as a timeline. The page
// is complete without all that.
(function () {
  var words = {"broken": "broken", "undecided": "undecided", "not-exercised": "not exercised", "held": "held"};
  document.querySelectorAll("table[data-filter]").forEach(function (table) {
    var rows = Array.prototype.slice.call(table.tBodies[0].rows);
    var bar = document.createElement("form");
    bar.className = "filter";
    bar.addEventListener("submit", function (event) { event.preventDefault(); });
    var boxes = Object.keys(words).filter(function (verdict) {
      return rows.some(function (row) { return row.dataset.verdict === verdict; });
    }).map(function (verdict) {
      var label = document.createElement("label");
      var box = document.createElement("input");
      box.type = "checkbox";
      box.checked = true;
      box.value = verdict;
      label.append(box, words[verdict]);
      bar.append(label);
      return box;
    });
    var search = document.createElement("input");
    search.type = "search";
    search.placeholder = "rule, title or requirement";
    search.setAttribute("aria-label", "Show only rules that contain");
    bar.append(search);
    function apply() {
      var wanted = search.value.toLowerCase();
      rows.forEach(function (row) {
        var chosen = boxes.some(function (box) { return box.checked && box.value === row.dataset.verdict; });
        row.hidden = !chosen || row.cells[1].textContent.toLowerCase().indexOf(wanted) < 0;
      });
    }
    bar.addEventListener("input", apply);
    table.closest(".wide").before(bar);
  });

  function button(words, act) {
    var made = document.createElement("button");
    made.type = "button";
    made.textContent = words;
    made.addEventListener("click", act);
    return made;
  }

  function keep(figure) {
    var picture = figure.querySelector("svg").cloneNode(true);
    picture.setAttribute("xmlns", "http://www.w3.org/2000/svg");
    var style = document.createElementNS("http://www.w3.org/2000/svg", "style");
    style.textContent = document.querySelector("style").textContent;
    picture.prepend(style);
    var link = document.createElement("a");
    link.href = URL.createObjectURL(new Blob([new XMLSerializer().serializeToString(picture)], {type: "image/svg+xml"}));
    link.download = "finding.svg";
    link.click();
    setTimeout(function () { URL.revokeObjectURL(link.href); }, 1000);
  }

  document.querySelectorAll("figure[data-timeline]").forEach(function (figure) {
    var tools = document.createElement("div");
    tools.className = "tools";
    tools.append(button("Save this picture", function () { keep(figure); }));
    if (window.pawlTimeline) {
      var open = button("Zoomable timeline", function () { window.pawlTimeline(figure, open); });
      open.setAttribute("aria-expanded", "false");
      tools.append(open);
    }
    figure.append(tools);
  });

  window.addEventListener("beforeprint", function () {
    document.querySelectorAll("details").forEach(function (details) { details.open = true; });
  });
})();

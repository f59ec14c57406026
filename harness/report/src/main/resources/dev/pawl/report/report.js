"use strict";
// Adds a filter above each table of rules. The page is complete without it.
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
    search.placeholder = "rule or title";
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
  window.addEventListener("beforeprint", function () {
    document.querySelectorAll("details").forEach(function (details) { details.open = true; });
  });
})();

"use strict";
// Opens a picture as a timeline that can be zoomed and moved, wider than the picture. Each signal has a lane of its own.
window.pawlTimeline = function (figure, opener) {
  var there = figure.querySelector(".zoom");
  if (there) {
    there.remove();
    opener.setAttribute("aria-expanded", "false");
    return;
  }
  opener.setAttribute("aria-expanded", "true");
  var told = JSON.parse(figure.dataset.timeline);
  var look = getComputedStyle(document.documentElement);
  function colour(name) { return look.getPropertyValue("--" + name).trim(); }
  var times = [told.from, told.to];
  told.tracks.forEach(function (track) {
    for (var i = 0; i < track.points.length; i += 2) { times.push(Math.max(told.from, track.points[i])); }
  });
  times = Array.from(new Set(times)).sort(function (one, other) { return one - other; });
  var lanes = told.tracks.length;
  var values = told.tracks.map(function (track) {
    var next = 0, now = null;
    return times.map(function (time) {
      while (next < track.points.length && track.points[next] <= time) { now = track.points[next + 1]; next += 2; }
      return now;
    });
  });
  function laneOf(lane) { return lanes - 1 - lane; }
  var drawn = values.map(function (all, lane) {
    var known = all.filter(function (value) { return value !== null; });
    var least = Math.min.apply(null, known.concat(0)), most = Math.max.apply(null, known.concat(least + 1));
    return all.map(function (value) {
      return value === null ? null : laneOf(lane) + 0.15 + 0.6 * (value - least) / (most - least);
    });
  });
  function said(track, value) {
    if (value === null || value === undefined) { return "unknown"; }
    if (track.names.length) { return track.names[value] || String(value); }
    return track.unit ? value + " " + track.unit : track.range === "switch" || value === 0 || value === 1
        ? (value === 0 ? "false" : value === 1 ? "true" : String(value)) : String(value);
  }
  var box = document.createElement("div");
  box.className = "zoom";
  figure.append(box);
  var width = Math.max(280, Math.min(figure.clientWidth, 1000));
  var names = window.innerWidth < 640 ? 110 : 190;
  var chart = new uPlot({
    width: width,
    height: 90 + 34 * lanes,
    legend: {live: true},
    scales: {x: {time: false}, y: {range: [0, lanes]}},
    axes: [
      {stroke: colour("ink"), grid: {stroke: colour("line")}, values: function (self, ticks) {
        return ticks.map(function (tick) { return (tick > 0 ? "+" : "") + Number(tick.toPrecision(8)) + " s"; });
      }},
      {stroke: colour("ink"), size: names, grid: {show: false}, ticks: {show: false},
        splits: function () { return told.tracks.map(function (track, lane) { return laneOf(lane) + 0.45; }); },
        values: function () { return told.tracks.map(function (track) {
          return track.name.length > names / 8 ? track.name.slice(0, names / 8 - 1) + "\u2026" : track.name;
        }); }}
    ],
    series: [{label: "from the marked instant", value: function (self, time) {
      return time === null || time === undefined ? "" : time + " s";
    }}].concat(told.tracks.map(function (track, lane) {
      return {
        label: track.name, stroke: colour("course"), width: 2, points: {show: false}, spanGaps: false,
        paths: uPlot.paths.stepped({align: 1}),
        value: function (self, value, series, index) {
          return index === null || index === undefined ? "" : said(track, values[lane][index]);
        }
      };
    })),
    hooks: {draw: [function (self) {
      var context = self.ctx, ratio = devicePixelRatio || 1;
      context.save();
      context.strokeStyle = context.fillStyle = colour("broken");
      context.lineWidth = 2 * ratio;
      context.font = 11 * ratio + "px monospace";
      told.marks.forEach(function (mark, row) {
        var x = self.valToPos(mark[0], "x", true);
        if (x >= self.bbox.left && x <= self.bbox.left + self.bbox.width) {
          context.beginPath();
          context.moveTo(x, self.bbox.top);
          context.lineTo(x, self.bbox.top + self.bbox.height);
          context.stroke();
          context.fillText(mark[1], x + 4 * ratio, self.bbox.top + (12 + 12 * row) * ratio);
        }
      });
      context.restore();
    }]}
  }, [times].concat(drawn), box);
  function move(by, scale) {
    var least = chart.scales.x.min, most = chart.scales.x.max, half = (most - least) / 2 * scale;
    var middle = Math.min(told.to - half, Math.max(told.from + half, (least + most) / 2 + by * (most - least)));
    chart.setScale("x", {min: Math.max(told.from, middle - half), max: Math.min(told.to, middle + half)});
  }
  var tools = document.createElement("div");
  tools.className = "tools";
  [["Zoom in", 0, 0.5], ["Zoom out", 0, 2], ["Earlier", -0.4, 1], ["Later", 0.4, 1], ["Whole", 0, 1e9]]
      .forEach(function (way) {
        var made = document.createElement("button");
        made.type = "button";
        made.textContent = way[0];
        made.addEventListener("click", function () { move(way[1], way[2]); });
        tools.append(made);
      });
  var hint = document.createElement("span");
  hint.textContent = "or drag across what is to fill the width; a double click shows the whole";
  tools.append(hint);
  box.prepend(tools);
  box.dataset.from = told.from;
  box.dataset.to = told.to;
  box.pawlChart = chart;
};

"use strict";
// The comparison's charts to look into: they stand in place of the drawings that the page brings
// for readers without scripts, and show the same figures.
(() => {
  const holder = document.getElementById("chart-data");
  if (!holder || !window.uPlot) {
    return;
  }
  const data = JSON.parse(holder.textContent);
  const locale = window.selvage.locale;
  const figures = new Intl.NumberFormat(locale, { minimumFractionDigits: 2, maximumFractionDigits: 2 });
  const number = { format: (value) => figures.format(value).replace("-", "\u2212") };
  const day = new Intl.DateTimeFormat(locale, { dateStyle: "medium" });
  const short = new Intl.DateTimeFormat(locale, { day: "numeric", month: "short" });
  const axes = ["L*", "a*", "b*"];
  const shown = (u, value) => (value == null ? "–" : number.format(value));

  const shades = () => {
    const style = getComputedStyle(document.documentElement);
    const of = (name) => style.getPropertyValue("--" + name).trim();
    return { ink: of("ink"), soft: of("soft"), rule: of("rule"), bar: of("bar"), surround: of("surround"), fail: of("fail") };
  };

  const axis = (shade, more) => Object.assign({
    stroke: shade.soft, grid: { stroke: shade.rule, width: 1 }, ticks: { stroke: shade.rule, width: 1 },
    font: "12px \"Liberation Sans\", Arial, sans-serif",
  }, more);

  const squares = (u, index, color) => {
    const values = u.data[index];
    u.ctx.save();
    u.ctx.fillStyle = color;
    const size = 8 * devicePixelRatio;
    values.forEach((value, i) => {
      if (value != null) {
        const x = u.valToPos(u.data[0][i], "x", true);
        const y = u.valToPos(value, "y", true);
        if (x >= u.bbox.left && x <= u.bbox.left + u.bbox.width) {
          u.ctx.fillRect(x - size / 2, y - size / 2, size, size);
        }
      }
    });
    u.ctx.restore();
  };

  const dashes = (u, times, color) => {
    u.ctx.save();
    u.ctx.strokeStyle = color;
    u.ctx.lineWidth = devicePixelRatio;
    u.ctx.setLineDash([5 * devicePixelRatio, 4 * devicePixelRatio]);
    for (const time of times) {
      const x = u.valToPos(time, "x", true);
      if (x >= u.bbox.left && x <= u.bbox.left + u.bbox.width) {
        u.ctx.beginPath();
        u.ctx.moveTo(x, u.bbox.top);
        u.ctx.lineTo(x, u.bbox.top + u.bbox.height);
        u.ctx.stroke();
      }
    }
    u.ctx.restore();
  };

  const trendChart = (box, trend, which) => {
    const chart = trend.axes[which];
    const shade = shades();
    const options = {
      width: box.clientWidth, height: 220, pxAlign: 1,
      title: "mean Δ" + axes[which] + " of the standard strip",
      cursor: { sync: { key: trend.name }, points: { size: 7 } },
      scales: { x: { time: true } },
      axes: [
        axis(shade, { values: (u, ticks) => ticks.map((t) => short.format(new Date(t * 1000))) }),
        axis(shade, { values: (u, ticks) => ticks.map((t) => number.format(t)), size: 56 }),
      ],
      series: [
        { label: "Measured", value: (u, t) => (t == null ? "–" : day.format(new Date(t * 1000))) },
        { label: "proof", stroke: shade.bar, width: 0, paths: () => null, points: { show: true, size: 5, fill: shade.bar, stroke: shade.bar }, value: shown },
        { label: "average", stroke: shade.ink, width: 2, points: { show: false }, value: shown },
        { label: "lower limit", stroke: shade.soft, width: 1.5, dash: [2, 3], points: { show: false }, value: shown },
        { label: "upper limit", stroke: shade.soft, width: 1.5, dash: [2, 3], points: { show: false }, value: shown },
        { label: "alarm", stroke: shade.fail, width: 0, paths: () => null, points: { show: false }, value: shown },
      ],
      hooks: { draw: [(u) => dashes(u, trend.calibrations, shade.ink), (u) => squares(u, 5, shade.fail)] },
    };
    return new window.uPlot(options, [trend.time, chart.mean, chart.average, chart.low, chart.high, chart.alarm], box);
  };

  const step = 0.25;
  const bins = (values, count) => {
    const heights = new Array(count + 1).fill(0);
    for (const value of values) {
      heights[Math.min(count - 1, Math.floor(value / step))] += 1;
    }
    return heights;
  };

  const histogram = (box, source) => {
    const shade = shades();
    const most = Math.max(1, ...source.job, ...source.standard);
    const count = Math.ceil((most + step) / step);
    const edges = Array.from({ length: count + 1 }, (unused, i) => i * step);
    const stepped = window.uPlot.paths.stepped({ align: 1 });
    return new window.uPlot({
      width: box.clientWidth, height: 200, pxAlign: 1,
      scales: { x: { time: false }, y: { range: (u, low, high) => [0, Math.max(1, high * 1.1)] } },
      axes: [axis(shade, { label: "mean ΔE00", labelSize: 20 }), axis(shade, { label: "proofs", labelSize: 20, size: 40, incrs: [1, 2, 5, 10, 20, 50, 100, 200, 500, 1000] })],
      series: [
        { label: "mean ΔE00 from", value: shown },
        { label: "job strip", stroke: shade.ink, fill: shade.surround + "80", width: 2, paths: stepped, points: { show: false } },
        { label: "standard strip (dashes)", stroke: shade.ink, dash: [6, 4], width: 2, paths: stepped, points: { show: false } },
      ],
    }, [edges, bins(source.job, count), bins(source.standard, count)], box);
  };

  const made = [];
  const build = () => {
    for (const one of made.splice(0)) {
      one.chart.destroy();
    }
    for (const box of document.querySelectorAll(".chart[data-trend]")) {
      for (const drawing of box.querySelectorAll(":scope > svg")) {
        drawing.classList.add("unseen");
      }
      made.push({ box, chart: trendChart(box, data.trends[Number(box.dataset.trend)], Number(box.dataset.axis)) });
    }
    const place = document.getElementById("histograms");
    place.hidden = false;
    place.replaceChildren();
    for (const source of data.distribution) {
      const box = document.createElement("div");
      box.className = "chart";
      const title = document.createElement("h3");
      title.textContent = source.name;
      box.append(title);
      place.append(box);
      made.push({ box, chart: histogram(box, source) });
    }
    for (const one of made) {
      one.chart.root.setAttribute("aria-hidden", "true");
    }
  };
  build();

  let waiting = 0;
  new ResizeObserver(() => {
    window.clearTimeout(waiting);
    waiting = window.setTimeout(() => {
      for (const one of made) {
        if (one.box.clientWidth > 0 && one.box.clientWidth !== one.chart.width) {
          one.chart.setSize({ width: one.box.clientWidth, height: one.chart.height });
        }
      }
    }, 80);
  }).observe(document.getElementById("comparison"));
  window.matchMedia("(prefers-color-scheme: dark)").addEventListener("change", build);
})();

// Two plots on one frequency axis: the pair, and under it the difference.

const LOW_HZ = 80;
const HIGH_HZ = 14000;
const TICKS = [[100, "100"], [200, "200"], [500, "500"], [1000, "1k"], [2000, "2k"], [5000, "5k"], [10000, "10k Hz"]];

class Plot {
  /**
   * @param figure element that holds the drawing
   * @param title in a few words
   * @param legend [name, side] each
   */
  constructor(figure, title, legend) {
    Object.assign(this, { figure, title, legend });
    this.axis = { low: -6, high: 6, step: 3 };
  }

  /** Draws lines and bands: {side, values, low, high}; values begin at the grid's first point. */
  draw(series, reading) {
    const width = Math.max(280, Math.round(this.figure.clientWidth));
    const height = Math.max(120, Math.round(this.figure.clientHeight));
    const narrow = width < 560;
    const room = { left: narrow ? 46 : 56, right: 8, top: 38, bottom: 24 };
    const { low, high } = this.axis;
    const step = (height - 62) * this.axis.step / (high - low) < 14 ? 2 * this.axis.step : this.axis.step;
    const x = (hz) => room.left + Math.log(hz / LOW_HZ) / Math.log(HIGH_HZ / LOW_HZ) * (width - room.left - room.right);
    const y = (v) => height - room.bottom - (Math.max(low, Math.min(high, v)) - low) / (high - low) * (height - room.top - room.bottom);
    const svg = shape("svg", {
      class: "plot", viewBox: "0 0 " + width + " " + height, role: "img", "aria-label": this.title + ". " + reading,
    });
    svg.append(words("heading", narrow ? 0 : room.left, 13, this.title));
    for (let v = step * Math.ceil(low / step); v <= high + 1e-9; v += step) {
      svg.append(shape("line", { class: v === 0 ? "grid zero" : "grid", x1: room.left, x2: width - room.right, y1: y(v), y2: y(v) }));
      const top = v + step > high + 1e-9;
      if (y(v) > room.top - 4) svg.append(words("tick end", room.left - 6, y(v) + 4, signed(v, 0) + (top ? " dB" : "")));
    }
    for (const [hz, label] of TICKS) {
      svg.append(shape("line", { class: "grid", x1: x(hz), x2: x(hz), y1: room.top, y2: height - room.bottom }));
      if (!narrow || hz !== 200 && hz !== 2000) svg.append(words("tick middle", x(hz), height - 8, label));
    }
    svg.append(shape("rect", {
      class: "frame", x: room.left, y: room.top, width: width - room.left - room.right, height: height - room.top - room.bottom,
    }));
    const place = (i, v) => x(GRID[i]).toFixed(1) + " " + y(v).toFixed(1);
    for (const s of series.filter((one) => one.low)) {
      const up = [], down = [];
      for (let i = BAND_FROM; i < BAND_TO; i++) {
        if (GRID[i] < LOW_HZ || GRID[i] > HIGH_HZ) continue;
        up.push(place(i, s.high[i - BAND_FROM]));
        down.unshift(place(i, s.low[i - BAND_FROM]));
      }
      svg.append(shape("path", { class: "band " + s.side, d: "M" + up.concat(down).join("L") + "Z" }));
    }
    for (const s of series) {
      let path = "", pen = false;
      for (let i = 0; i < GRID.length; i++) {
        const seen = GRID[i] >= LOW_HZ && GRID[i] <= HIGH_HZ && s.values[i] > low && s.values[i] < high;
        if (seen) path += (pen ? "L" : "M") + place(i, s.values[i]);
        pen = seen;
      }
      svg.append(shape("path", { class: "line " + s.side, d: path }));
    }
    let at = room.left;
    for (const [name, side] of this.legend) {
      svg.append(shape("line", { class: "line " + side, x1: at, x2: at + 26, y1: 25, y2: 25 }));
      svg.append(words("legend", at + 32, 29, name));
      at += 52 + 7 * name.length;
    }
    this.figure.replaceChildren(svg);
  }
}

function shape(tag, attributes) {
  const element = document.createElementNS("http://www.w3.org/2000/svg", tag);
  Object.entries(attributes).forEach(([name, value]) => element.setAttribute(name, value));
  return element;
}

function words(style, x, y, text) {
  const element = shape("text", { class: style, x, y });
  element.textContent = text;
  return element;
}

/** A number with its sign, minus as a minus. */
function signed(value, digits) {
  const text = Math.abs(value).toFixed(digits);
  return (Number(text) === 0 ? "" : value < 0 ? "\u2212" : "+") + text;
}

/** A frequency to three digits: 82.4 Hz, 1.24 kHz. */
function frequency(hz) {
  const kilo = hz >= 999.5, shown = kilo ? hz / 1000 : hz;
  return shown.toFixed(shown < 9.995 ? 2 : shown < 99.95 ? 1 : 0) + (kilo ? "\u00a0kHz" : "\u00a0Hz");
}

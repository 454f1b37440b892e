// The page: what is turned, drawn, played and said.

/** More changes than this would make a sentence that nobody reads, and push the curves about. */
const MOST_SAID = 3;

const byId = (id) => document.getElementById(id);

class Page {
  constructor(data) {
    this.data = data;
    this.guitar = new Guitar(data);
    this.sound = new Sound(this.guitar);
    this.before = { ...data.before };
    this.after = { ...data.after };
    this.sound.settings = { before: this.before, after: this.after };
    this.test = null;
    this.lines = [];
    this.bandDue = null;
    this.levels = new Plot(byId("levels"), "Level at the jack over the coil's own voltage", [["before", "before"], ["after", "after"]]);
    this.difference = new Plot(byId("difference"), "Difference: after over before", [["after over before", "after"]]);
    this.controls = data.controls.map((control) => new Control(control, this)).filter((c) => c.choices > 1);
    byId("controls").append(...this.controls.map((c) => c.box));
    this.sayings();
    this.listen();
    this.levels.axis = this.axis();
    this.show();
  }

  /** A vertical axis that stays where it is while knobs turn. */
  axis() {
    const highest = [this.before, this.after].map((s) => Math.max(...this.guitar.levels(s)));
    const top = 3 * Math.ceil((Math.max(...highest) + 2.5) / 3);
    return { low: top - 27.9, high: top + 0.9, step: 3 };
  }

  listen() {
    const on = (id, what, action) => byId(id).addEventListener(what, action);
    on("play", "click", () => this.play());
    on("before", "click", () => this.hear("before"));
    on("after", "click", () => this.hear("after"));
    on("level", "input", (event) => {
      this.sound.setLevel(Number(event.target.value));
      byId("level-text").textContent = signed(Number(event.target.value), 0) + " dB";
    });
    on("equal", "change", (event) => {
      this.sound.setEqual(event.target.checked);
      this.show();
    });
    on("keep", "click", () => this.set({ ...this.after }, this.after));
    on("back", "click", () => this.set({ ...this.data.before }, { ...this.data.after }));
    on("begin", "click", () => this.begin());
    on("hear-before", "click", () => this.hear("before"));
    on("hear-after", "click", () => this.hear("after"));
    on("hear-x", "click", () => this.hear("x"));
    on("say-before", "click", () => this.answer("before"));
    on("say-after", "click", () => this.answer("after"));
    on("leave", "click", () => this.end("Broken off: no result."));
    on("copy", "click", () => this.copy());
    document.addEventListener("keydown", (event) => this.key(event));
    new ResizeObserver(() => this.draw()).observe(byId("levels"));
  }

  key(event) {
    if (!byId("keys").checked || event.ctrlKey || event.altKey || event.metaKey) return;
    if (event.target.matches("textarea, select, input[type=text]")) return;
    const key = event.key.toLowerCase();
    if (key === "p") this.play();
    if (key === "b") this.hear("before");
    if (key === "a") this.hear("after");
    if (key === "x" && this.test) this.hear("x");
  }

  async play() {
    if (this.sound.playing) {
      this.sound.stop();
    } else {
      try {
        await this.sound.play();
      } catch (problem) {
        this.sound.stop();
        byId("verdict").textContent = "No sound came out of this browser (" + problem.message + "): try another one.";
      }
    }
    this.marks();
  }

  async hear(side) {
    if (!this.sound.playing) await this.play();
    this.listening = side;
    this.sound.hear(side === "x" ? this.test.side : side);
    this.marks();
  }

  marks() {
    const { playing } = this.sound;
    const heard = this.listening || "before";
    byId("play").textContent = playing ? "Stop" : "Play";
    const pressed = (id, side) => byId(id).setAttribute("aria-pressed", String(heard === side));
    pressed("before", "before");
    pressed("after", "after");
    if (this.test) {
      pressed("hear-before", "before");
      pressed("hear-after", "after");
      pressed("hear-x", "x");
    }
  }

  set(before, after) {
    if (this.test) return;
    this.before = before;
    this.after = after;
    this.sound.become("before", before);
    this.sound.become("after", after);
    this.show();
  }

  turn(key, value) {
    this.after = { ...this.after, [key]: value };
    this.sound.become("after", this.after);
    this.show();
  }

  /** Draws at once; the band, which takes longer, follows when the hand rests. */
  show() {
    const turnable = this.guitar.turnable(this.after);
    this.controls.forEach((c) => c.show(turnable));
    this.state = compared(this.guitar, this.before, this.after, null, null);
    this.draw();
    byId("stands").textContent = "Before: " + this.words(this.before) + ". After: " + this.words(this.after) + ".";
    clearTimeout(this.bandDue);
    this.bandDue = setTimeout(() => this.band([], []), 60);
  }

  /** A few random guitars at a time, so that the hand is never held up. */
  band(before, after) {
    const until = performance.now() + 20;
    while (before.length < this.guitar.draws.length && performance.now() < until) {
      const draw = before.length;
      before.push(this.guitar.drawn(this.before, draw));
      after.push(this.guitar.drawn(this.after, draw));
    }
    if (before.length < this.guitar.draws.length) {
      this.bandDue = setTimeout(() => this.band(before, after), 0);
      return;
    }
    this.state = compared(this.guitar, this.before, this.after, before, after);
    this.draw();
    this.say();
  }

  draw() {
    const s = this.state;
    const series = (side, values, band) => ({ side, values, ...band });
    this.levels.draw(
      [series("before", s.before, s.bandBefore), series("after", s.after, s.bandAfter)], this.sentence());
    const most = Math.max(...s.difference.subarray(BAND_FROM, BAND_TO).map(Math.abs));
    const half = [6, 12, 24].find((v) => most < v) || 48;
    this.difference.axis = { low: -half * 1.05, high: half * 1.05, step: half / 2 };
    this.difference.draw([series("after", s.difference, s.bandDifference)], this.sentence());
  }

  /** The sentence, its number set off. */
  say() {
    const sentence = this.sentence();
    const number = /[+\u2212]?[\d.]+ dB( \([^)]*\))?/.exec(sentence.replace(/\(\d+ m[^)]*\)/g, (m) => m.replace(/./g, " ")));
    const at = number ? number.index : 0, length = number ? number[0].length : 0;
    byId("verdict").replaceChildren(
      sentence.substring(0, at), element("b", "", sentence.substring(at, at + length)), sentence.substring(at + length));
  }

  /** What differs, in the trade's words. */
  changes() {
    return this.data.controls
      .filter((c) => this.before[c.key] !== this.after[c.key])
      .filter((c) => c.kind !== "turn" || [this.before, this.after].some((s) => this.guitar.turnable(s).has(c.key)))
      .map((c) => c.label + (c.kind === "turn" ? " from " : " ") + this.fromTo(c))
      .concat(this.before.factors || this.after.factors ? [this.after.note || "coil with other ohms"] : []);
  }

  fromTo(control) {
    const short = [this.before, this.after].map((s) => valueText(control, s));
    const [from, to] = short[0] === short[1] ? [this.before, this.after].map((s) => namedText(control, s)) : short;
    return from + " to " + to;
  }

  words(settings) {
    const turnable = this.guitar.turnable(settings);
    return this.data.controls.filter((c) => turnable.has(c.key) || c.key === "wiring" && c.stops.length > 1)
      .map((c) => c.label + " " + namedText(c, settings)).join(", ");
  }

  sentence() {
    const changes = this.changes(), s = this.state;
    if (changes.length === 0) return "Before and after are the same: turn something, or take a saying from below.";
    const more = changes.length > MOST_SAID ? "; and " + (changes.length - MOST_SAID) + " more" : "";
    const what = capitalised(changes.slice(0, MOST_SAID).join("; ")) + more;
    if (this.guitar.silent(this.after)) return what + ": the hot lead touches ground, which is silence.";
    let at = 0;
    GRID.forEach((hz, i) => {
      if (Math.abs(Math.log(hz / s.loudestHz)) < Math.abs(Math.log(GRID[at] / s.loudestHz))) at = i;
    });
    let text = what + ": ";
    const band = s.bandDifference;
    if (band && at >= BAND_FROM && at < BAND_TO) {
      const low = band.low[at - BAND_FROM], high = band.high[at - BAND_FROM];
      const digits = high - low < 0.15 ? 2 : 1;
      text += signed(s.difference[at], digits) + " dB (" + signed(low, digits) + " to " + signed(high, digits) + ")";
    } else {
      text += signed(s.difference[at], 1) + " dB";
    }
    text += " around " + frequency(GRID[at]);
    if (s.grade !== undefined) text += ", " + GRADES[s.grade];
    const [from, to] = [s.resonanceBefore, s.resonanceAfter];
    if (from && to && Math.abs(to.hz / from.hz - 1) > 0.003) {
      text += "; the resonance moves from " + frequency(from.hz) + " to " + frequency(to.hz);
    } else if (!from && to) {
      text += "; a resonance appears at " + frequency(to.hz);
    } else if (from && !to) {
      text += "; the resonance is gone";
    }
    return text + ".";
  }

  sayings() {
    for (const saying of this.data.sayings) {
      const set = () => this.set({ ...this.data.before, ...saying.before }, { ...this.data.before, ...saying.after });
      const hear = button("Set and hear it", async () => {
        set();
        await this.hear(this.listening === "after" ? "before" : "after");
        byId("levels").scrollIntoView({ block: "nearest" });
      });
      const test = button("Blind test", () => {
        set();
        this.begin();
        byId("blind").scrollIntoView({ block: "start" });
      });
      const row = element("div", "row");
      row.append(hear, test);
      const box = element("article", "saying");
      box.append(element("h3", "", "\u201c" + saying.saying + "\u201d"), element("p", "", saying.answer.replace(/(^|[\s(])-(?=\d)/g, "$1\u2212")), row);
      byId("sayings-list").append(box);
    }
  }

  begin() {
    if (this.test || this.changes().length === 0) {
      byId("result").textContent = this.test ? "" : "Before and after are the same: turn something first.";
      return;
    }
    this.test = new BlindTest(Number(byId("trials").value));
    byId("result").textContent = "";
    this.during(true);
    this.progress();
    byId("hear-x").focus();
  }

  during(on) {
    byId("trial").hidden = !on;
    byId("blind-start").hidden = on;
    byId("controls").disabled = on;
    ["keep", "back", "equal", "begin"].forEach((id) => {
      byId(id).disabled = on;
    });
    document.querySelectorAll(".saying button").forEach((b) => {
      b.disabled = on;
    });
    this.marks();
  }

  progress() {
    byId("progress").textContent = "Trial " + (this.test.answers.length + 1) + " of " + this.test.trials + ": which of the two is X?";
  }

  answer(side) {
    const { test } = this;
    test.answer(side);
    if (!test.done) {
      this.progress();
      if (this.listening === "x") this.hear("before");
      return;
    }
    const line = [
      this.data.title, capitalised(this.changes().join("; ")),
      this.sound.equal ? "at equal loudness" : "with the difference in loudness",
      this.sound.recording ? "recorded strikes" : "computed strikes",
      test.verdict, new Date().toISOString().substring(0, 10)].join(" | ");
    this.lines.push(line.replace(/\s+/g, " "));
    byId("lines").value = this.lines.join("\n");
    byId("lines-box").hidden = false;
    this.end(test.verdict);
  }

  end(words) {
    if (this.listening === "x") this.hear("before");
    this.test = null;
    this.during(false);
    byId("result").textContent = words;
  }

  async copy() {
    byId("lines").select();
    try {
      await navigator.clipboard.writeText(byId("lines").value);
      byId("copied").textContent = "Copied.";
    } catch (problem) {
      byId("copied").textContent = "Marked: copy it with your keys.";
    }
  }
}

function element(tag, style, text) {
  const made = document.createElement(tag);
  if (style) made.className = style;
  if (text !== undefined) made.textContent = text;
  return made;
}

function button(text, action) {
  const made = element("button", "", text);
  made.type = "button";
  made.addEventListener("click", action);
  return made;
}

const capitalised = (text) => text.charAt(0).toUpperCase() + text.substring(1);

/** What a control stands at, as short as it is clear: a knob counts to 10. */
function valueText(control, settings) {
  const value = settings[control.key];
  return control.kind === "turn" ? String(Math.round(100 * value) / 10) : control.stops[value].label;
}

/** The same with the name of the part where it has one. */
function namedText(control, settings) {
  const stop = control.stops[settings[control.key]];
  return valueText(control, settings) + (control.kind !== "turn" && stop.named ? ", " + stop.named : "");
}

/** One thing that can be turned or chosen. */
class Control {
  constructor(control, page) {
    this.control = control;
    this.page = page;
    this.choices = control.kind === "turn" ? 2 : control.stops.length;
    const id = "turn-" + control.key;
    this.box = element("div", "control");
    const label = element("label", "", capitalised(control.label));
    label.htmlFor = id;
    this.input = control.kind === "choice" ? this.choice() : this.slider();
    this.input.id = id;
    this.now = element("output", "now");
    this.now.htmlFor = id;
    this.was = element("p", "was");
    const head = element("div", "head");
    head.append(label, this.now);
    this.box.append(head, this.input, this.was);
  }

  choice() {
    const select = element("select");
    this.control.stops.forEach((stop, i) => {
      const option = element("option", "", stop.label);
      option.value = String(i);
      select.append(option);
    });
    select.addEventListener("change", () => this.page.turn(this.control.key, Number(select.value)));
    return select;
  }

  slider() {
    const range = element("input");
    const turns = this.control.kind === "turn";
    range.type = "range";
    range.min = "0";
    range.max = String(turns ? 10 : this.control.stops.length - 1);
    range.step = turns ? "0.1" : "1";
    range.addEventListener("input", () => this.page.turn(this.control.key, Number(range.value) / (turns ? 10 : 1)));
    return range;
  }

  show(turnable) {
    const { control, page, input } = this;
    const value = page.after[control.key];
    const used = control.key === "wiring" || turnable.has(control.key);
    input.value = String(control.kind === "turn" ? 10 * value : value);
    input.disabled = !used;
    this.now.textContent = control.kind === "choice" ? "" : namedText(control, page.after);
    input.setAttribute("aria-valuetext", namedText(control, page.after) + (control.kind === "turn" ? " of 10" : ""));
    this.was.textContent = used ? "before: " + namedText(control, page.before) : "not in this wiring";
  }
}

const page = new Page(JSON.parse(byId("guitar").textContent));

/** What other programs may ask of the page: its levels, and its sounds without an ear. */
window.demonstration = {
  levels: (side, hz) => Array.from(page.guitar.powers(page[side], Float64Array.from(hz), "asked " + hz), decibel),
  band: (side) => page.state[{ before: "bandBefore", after: "bandAfter", difference: "bandDifference" }[side]],
  rendered: async (side, samples, rate) => Array.from(await page.sound.rendered(side, Float32Array.from(samples), rate)),
  crossfaded: async (samples, rate, when) => Array.from(await page.sound.crossfaded(Float32Array.from(samples), rate, when)),
  playing: () => page.sound.playing,
  loudnessChange: (rate) => page.sound.loudnessChange(rate),
  strikes: (rate) => {
    page.sound.prepare(rate);
    return Array.from(page.sound.strikes);
  },
};

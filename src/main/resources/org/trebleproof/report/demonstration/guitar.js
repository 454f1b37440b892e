// The guitar as it stands: its levels, their band, and whether a change is heard.

/** The frequencies of every prediction: twenty an octave from 20 Hz. */
const GRID = Float64Array.from({ length: 200 }, (_, i) => 20 * Math.pow(2, i / 20));

/** Where the band is worked out: what is drawn and what is held against hearing. */
const BAND_FROM = 40;
const BAND_TO = 190;
const THIRDS = Float64Array.from({ length: 21 }, (_, i) => 1000 * Math.pow(10, (i - 10) / 10));
const EDGE = Math.pow(10, 0.05);
const TAIL = 0.025;

/** How a pot's resistance grows with rotation: through (0, 0), (0.5, ratio) and (1, 1). */
function taper(centre, rotation) {
  const b = Math.pow(1 / centre - 1, 2);
  return Math.abs(b - 1) < 1e-9 ? rotation : (Math.pow(b, rotation) - 1) / (b - 1);
}

class Guitar {
  constructor(data) {
    this.data = data;
    this.stops = new Map(data.controls.map((c) => [c.key, c.stops]));
    this.columns = data.models.map((m) => new Map(m.names.map((name, i) => [name, i])));
    this.draws = data.models.flatMap((m, model) => m.draws.map((values) => ({ model, values })));
    this.prepared = new Map();
    this.normals = new Map();
  }

  /** What a turned part or pot comes to, in the middle (draw null) or in one random guitar. */
  turned(settings, model, draw) {
    return (key) => {
      if (key.endsWith("Rotation")) {
        const pot = key.substring(0, key.length - 8);
        return taper(settings[pot + "Centre"], settings[key]);
      }
      const stop = this.stops.get(key)[settings[key]];
      if (key === "bleed") return stop.farad === undefined ? null : this.spread(stop, key, settings, draw);
      if (stop.part !== undefined) {
        const values = draw === null ? this.data.models[model].centre : this.draws[draw].values;
        return values[this.columns[model].get(stop.part)];
      }
      return stop.value === undefined ? null : stop.value * this.factor(stop, key, settings, draw);
    };
  }

  spread(stop, key, settings, draw) {
    const factor = this.factor(stop, key, settings, draw);
    return { ...stop, farad: stop.farad * factor };
  }

  factor(stop, key, settings, draw) {
    if (draw === null) return 1;
    const name = key + settings[key];
    if (!this.normals.has(name)) this.normals.set(name, normalNumbers(name, this.draws.length));
    return Math.exp(stop.sd * this.normals.get(name)[draw]);
  }

  /** The circuit that the settings ask for, ready at these frequencies. */
  circuit(settings, model, draw, hz, hzName) {
    const wiring = this.stops.get("wiring")[settings.wiring].circuit;
    const factors = settings.factors || {};
    const name = [wiring, model, draw, hzName, JSON.stringify(factors)].join(" ");
    if (!this.prepared.has(name)) {
      const values = draw === null ? this.data.models[model].centre : this.draws[draw].values;
      const value = (parameter) => values[this.columns[model].get(parameter)] * (factors[parameter] || 1);
      if (this.prepared.size > 6 * (this.draws.length + 4)) this.prepared.clear();
      this.prepared.set(name, new PreparedCircuit(this.data.circuits[wiring][model], hz, value));
    }
    return this.prepared.get(name);
  }

  /** Squared magnitudes at chosen frequencies, in the middle. */
  powers(settings, hz, hzName) {
    return this.circuit(settings, 0, null, hz, hzName).powers(this.turned(settings, 0, null));
  }

  /** Levels at the grid [dB]. */
  levels(settings) {
    return this.powers(settings, GRID, "grid").map(decibel);
  }

  /** Levels of one random guitar where the band is drawn [dB]. */
  drawn(settings, draw) {
    const { model } = this.draws[draw];
    const hz = GRID.subarray(BAND_FROM, BAND_TO);
    return this.circuit(settings, model, draw, hz, "band").powers(this.turned(settings, model, draw)).map(decibel);
  }

  /** The names of what a circuit lets be turned. */
  turnable(settings) {
    const wiring = this.stops.get("wiring")[settings.wiring].circuit;
    const names = new Set();
    for (const e of this.data.circuits[wiring][0].elements) {
      namesOf(e).filter((n) => n.startsWith("#turned ")).forEach((n) => names.add(n.substring(8)));
    }
    return names;
  }

  /** Whether a pot at zero connects the hot lead to ground. */
  silent(settings) {
    const names = this.turnable(settings);
    return ["volumeRotation", "secondVolumeRotation"].some((n) => names.has(n) && settings[n] === 0);
  }
}

const decibel = (power) => 10 * Math.log10(power);

/** Lower and upper bound that hold 95 % of the values, and the middle. */
function bounds(values, middle) {
  const sorted = Float64Array.from(values).sort();
  const last = sorted.length - 1;
  return [
    Math.min(middle, sorted[Math.floor(TAIL * last)]),
    Math.max(middle, sorted[Math.ceil((1 - TAIL) * last)])];
}

/** Mean power in each third octave from 100 Hz to 10 kHz [dB]; from is the first level's place. */
function thirdOctaves(levels, from) {
  let at = from;
  return THIRDS.map((centre) => {
    while (GRID[at] < centre / EDGE) at++;
    let sum = 0, count = 0;
    for (let i = at; GRID[i] < centre * EDGE; i++) {
      sum += Math.pow(10, levels[i - from] / 10);
      count++;
    }
    at += count;
    return decibel(sum / count);
  });
}

/** The highest peak above 50 Hz over the level at the first place; null where there is none. */
function resonance(levels, from) {
  let best = 0;
  for (let i = 1; i < levels.length - 1; i++) {
    const top = levels[i] >= levels[i - 1] && levels[i] > levels[i + 1];
    if (top && GRID[from + i] > 50 && (best === 0 || levels[i] > levels[best])) best = i;
  }
  if (best === 0) return null;
  const x = [-1, 0, 1].map((d) => Math.pow(GRID[from + best + d], 2));
  const y = [-1, 0, 1].map((d) => Math.pow(10, -levels[best + d] / 10));
  const slope01 = (y[1] - y[0]) / (x[1] - x[0]), slope12 = (y[2] - y[1]) / (x[2] - x[1]);
  const curvature = (slope12 - slope01) / (x[2] - x[0]);
  const slope1 = slope01 + curvature * (x[1] - x[0]);
  const shift = -slope1 / (2 * curvature);
  const level = -decibel(y[1] + shift * (slope1 + curvature * shift));
  const peak = level - levels[0];
  const p = Math.pow(10, peak / 20);
  return peak > 0.05 ? { hz: Math.sqrt(x[1] + shift), quality: Math.sqrt((p * p + p * Math.sqrt(p * p - 1)) / 2) } : null;
}

const GRADES = ["not to be heard", "on the edge of hearing", "plainly audible"];

/** How clearly a change is heard: no more firmly than the interval allows. */
function grade(low, high, threshold) {
  const least = low <= 0 && high >= 0 ? 0 : Math.min(Math.abs(low), Math.abs(high));
  const most = Math.max(Math.abs(low), Math.abs(high));
  return least >= 2 * threshold ? 2 : most < 0.8 * threshold ? 0 : 1;
}

/**
 * Two states held against each other: levels, bands, the change in third octaves, whether it is
 * heard. Without draws there are no bands and nothing is said of hearing.
 */
function compared(guitar, before, after, drawsBefore, drawsAfter) {
  const a = guitar.levels(before), b = guitar.levels(after);
  const result = {
    before: a,
    after: b,
    difference: b.map((v, i) => v - a[i]),
    resonanceBefore: resonance(a, 0),
    resonanceAfter: resonance(b, 0),
  };
  const thirds = thirdOctaves(b, 0).map((v, i) => v - thirdOctavesOf(a)[i]);
  const most = thirds.reduce((best, v, i) => Math.abs(v) > Math.abs(thirds[best]) ? i : best, 0);
  result.loudestHz = THIRDS[most];
  result.loudest = thirds[most];
  if (!drawsBefore) return result;
  const across = (of) => Float64Array.from(drawsBefore, (_, d) => of(d));
  const band = (middle, of) => {
    const low = new Float64Array(BAND_TO - BAND_FROM), high = new Float64Array(BAND_TO - BAND_FROM);
    for (let i = 0; i < low.length; i++) {
      [low[i], high[i]] = bounds(across((d) => of(d, i)), middle[BAND_FROM + i]);
    }
    return { low, high };
  };
  result.bandBefore = band(a, (d, i) => drawsBefore[d][i]);
  result.bandAfter = band(b, (d, i) => drawsAfter[d][i]);
  result.bandDifference = band(result.difference, (d, i) => drawsAfter[d][i] - drawsBefore[d][i]);
  const changes = drawsBefore.map((levels, d) => {
    const old = thirdOctaves(levels, BAND_FROM), fresh = thirdOctaves(drawsAfter[d], BAND_FROM);
    return fresh.map((v, i) => v - old[i]);
  });
  const ends = Array.from(thirds, (v, i) => bounds(changes.map((c) => c[i]), v));
  let heard = Math.max(...ends.map(([low, high]) => grade(low, high, 1)));
  const [first, second] = [result.resonanceBefore, result.resonanceAfter];
  if (first && second) {
    const shifts = drawsBefore.map((levels, d) => {
      const from = resonance(levels, BAND_FROM), to = resonance(drawsAfter[d], BAND_FROM);
      return from && to ? to.hz - from.hz : NaN;
    }).filter(Number.isFinite);
    const [low, high] = shifts.length ? bounds(shifts, second.hz - first.hz) : [0, 0];
    const least = 0.079 * first.hz / Math.sqrt(Math.max(first.quality, second.quality));
    heard = Math.max(heard, grade(low, high, least));
  }
  result.grade = heard;
  return result;
}

const thirdOctavesOf = (() => {
  let known = null, thirds = null;
  return (levels) => {
    if (known !== levels) {
      known = levels;
      thirds = thirdOctaves(levels, 0);
    }
    return thirds;
  };
})();

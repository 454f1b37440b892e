// Transforms, filters and chance.

const TURNS = new Map();

/** Cosines and sines of the first half of a turn in so many steps. */
function turns(length) {
  if (!TURNS.has(length)) {
    const angle = (k) => 2 * Math.PI * k / length;
    TURNS.set(length, {
      cos: Float64Array.from({ length: length / 2 }, (_, k) => Math.cos(angle(k))),
      sin: Float64Array.from({ length: length / 2 }, (_, k) => Math.sin(angle(k))),
    });
  }
  return TURNS.get(length);
}

/** Complex transform in place; the length is a power of two. The inverse is not scaled. */
function fft(re, im, inverse) {
  const n = re.length;
  for (let i = 1, j = 0; i < n; i++) {
    let bit = n >> 1;
    for (; j & bit; bit >>= 1) j ^= bit;
    j ^= bit;
    if (i < j) {
      [re[i], re[j]] = [re[j], re[i]];
      [im[i], im[j]] = [im[j], im[i]];
    }
  }
  const sign = inverse ? 1 : -1;
  for (let length = 2; length <= n; length <<= 1) {
    const half = length >> 1;
    const { cos, sin } = turns(length);
    for (let at = 0; at < n; at += length) {
      for (let k = 0; k < half; k++) {
        const a = at + k, b = a + half;
        const s = sign * sin[k];
        const tRe = re[b] * cos[k] - im[b] * s, tIm = re[b] * s + im[b] * cos[k];
        re[b] = re[a] - tRe;
        im[b] = im[a] - tIm;
        re[a] += tRe;
        im[a] += tIm;
      }
    }
  }
}

/**
 * The impulse response with these magnitudes (at equal steps from 0 to half the sample rate, both
 * included, a power of two and one of them) and the least delay: its phase is the Hilbert transform
 * of the logarithm of the magnitude, found by folding the cepstrum (Oppenheim and Schafer,
 * Discrete-Time Signal Processing, from memory).
 */
function minimumPhase(magnitudes) {
  const bins = magnitudes.length, n = 2 * (bins - 1);
  const re = new Float64Array(n), im = new Float64Array(n);
  for (let k = 0; k < bins; k++) {
    re[k] = Math.log(magnitudes[k]);
    if (k > 0 && k < bins - 1) re[n - k] = re[k];
  }
  fft(re, im, true);
  for (let i = 0; i < n; i++) {
    re[i] *= (i === 0 || i === n / 2 ? 1 : i < n / 2 ? 2 : 0) / n;
    im[i] = 0;
  }
  fft(re, im, false);
  for (let k = 0; k < n; k++) {
    const size = Math.exp(re[k]);
    re[k] = size * Math.cos(im[k]);
    im[k] = size * Math.sin(im[k]);
  }
  fft(re, im, true);
  return Float32Array.from(re, (v) => v / n);
}

/** Filters samples by an impulse response; the result has their length. */
function convolve(samples, impulse) {
  let n = 1;
  while (n < samples.length + impulse.length) n <<= 1;
  const aRe = new Float64Array(n), aIm = new Float64Array(n);
  aRe.set(samples);
  aIm.set(impulse); // both real: one transform for the two
  fft(aRe, aIm, false);
  const re = new Float64Array(n), im = new Float64Array(n);
  for (let k = 0; k < n; k++) {
    const m = (n - k) & (n - 1);
    const xRe = (aRe[k] + aRe[m]) / 2, xIm = (aIm[k] - aIm[m]) / 2;
    const yRe = (aIm[k] + aIm[m]) / 2, yIm = (aRe[m] - aRe[k]) / 2;
    re[k] = xRe * yRe - xIm * yIm;
    im[k] = xRe * yIm + xIm * yRe;
  }
  fft(re, im, true);
  return Float32Array.from(re.subarray(0, samples.length), (v) => v / n);
}

/** The two stages of the K weighting of ITU-R BS.1770-4: {b0, b1, b2, a1, a2} each. */
function loudnessStages(rate) {
  let k = Math.tan(Math.PI * 1681.974450955533 / rate);
  const q = 0.7071752369554196, high = Math.pow(10, 3.999843853973347 / 20);
  const bend = Math.pow(high, 0.4996667741545416);
  let norm = 1 + k / q + k * k;
  const shelf = [
    (high + bend * k / q + k * k) / norm, 2 * (k * k - high) / norm,
    (high - bend * k / q + k * k) / norm, 2 * (k * k - 1) / norm, (1 - k / q + k * k) / norm];
  k = Math.tan(Math.PI * 38.13547087602444 / rate);
  const low = 0.5003270373238773;
  norm = 1 + k / low + k * k;
  return [shelf, [1, -2, 1, 2 * (k * k - 1) / norm, (1 - k / low + k * k) / norm]];
}

/**
 * The loudness of a phrase (ITU-R BS.1770-4) behind any filter, without filtering it: the power of
 * each block of 400 ms, K-weighted, in cells of frequency, to be weighted by the filter's power.
 */
class PhraseLoudness {
  /** @param cells number of cells from 0 to half of cellRate, both included */
  constructor(samples, rate, cells, cellRate) {
    const y = Float64Array.from(samples);
    for (const [b0, b1, b2, a1, a2] of loudnessStages(rate)) {
      let s1 = 0, s2 = 0;
      for (let i = 0; i < y.length; i++) {
        const x = y[i], out = b0 * x + s1;
        s1 = b1 * x - a1 * out + s2;
        s2 = b2 * x - a2 * out;
        y[i] = out;
      }
    }
    const block = Math.min(y.length, Math.round(0.4 * rate)), step = Math.round(0.1 * rate);
    let n = 1;
    while (n < block) n <<= 1;
    this.blocks = [];
    for (let at = 0; at + block <= y.length; at += step) {
      const re = new Float64Array(n), im = new Float64Array(n);
      re.set(y.subarray(at, at + block));
      fft(re, im, false);
      const power = new Float64Array(cells);
      for (let k = 0; k <= n / 2; k++) {
        const cell = Math.min(cells - 1, Math.round(k * rate / n / (cellRate / 2) * (cells - 1)));
        const sides = k === 0 || k === n / 2 ? 1 : 2;
        power[cell] += sides * (re[k] * re[k] + im[k] * im[k]) / n / block;
      }
      this.blocks.push(power);
    }
  }

  /** Loudness behind a filter with these magnitudes [LKFS]. */
  behind(magnitudes) {
    const powers = this.blocks.map((b) => b.reduce((sum, p, k) => sum + p * magnitudes[k] * magnitudes[k], 0));
    const level = (p) => -0.691 + 10 * Math.log10(p);
    const mean = (all) => all.reduce((sum, p) => sum + p, 0) / Math.max(1, all.length);
    const loud = powers.filter((p) => level(p) > -70);
    const gate = level(mean(loud)) - 10;
    return level(mean(loud.filter((p) => level(p) > gate)));
  }
}

/** Chance of at least so many right of so many trials by guessing (binomial, one half). */
function chanceOfGuessing(right, trials) {
  let ways = 1, sum = 0;
  for (let k = 0; k <= trials; k++) {
    if (k > 0) ways = ways * (trials - k + 1) / k;
    if (k >= right) sum += ways;
  }
  return sum / Math.pow(2, trials);
}

/** Normal numbers that depend on a text and a place alone, so that every reader sees the same band. */
function normalNumbers(text, count) {
  let state = 2166136261;
  for (let i = 0; i < text.length; i++) state = Math.imul(state ^ text.charCodeAt(i), 16777619);
  const uniform = () => { // mulberry32
    state = (state + 0x6d2b79f5) | 0;
    let t = Math.imul(state ^ (state >>> 15), 1 | state);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
  return Float64Array.from({ length: count }, () =>
    Math.sqrt(-2 * Math.log(1 - uniform())) * Math.cos(2 * Math.PI * uniform()));
}

/** Whether a number of the computer's own chance is odd: unknown to the page's reader. */
function coin() {
  const bits = new Uint8Array(1);
  crypto.getRandomValues(bits);
  return (bits[0] & 1) === 1;
}

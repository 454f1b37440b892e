// The circuit: nodal analysis of the netlist that the page carries. The elements and their formulas
// are those of the program's own analysis; what may be turned is looked up at each turn, the rest is
// added up once for every frequency.

const SMALLEST_OHM = 0.01; // a wiper at its end, against kilohms

/** The share of the static flux that eddy currents leave in a solid cylinder; x = w tau. */
const solidCylinder = (() => {
  const c = [1];
  for (let n = 1; n < 20; n++) {
    let sum = (n - 2) * c[n - 1];
    for (let i = 1; i < n; i++) sum -= c[i] * c[n - i];
    c[n] = sum / 2;
  }
  return (x) => {
    if (x > 484) { // I1/I0 in powers of 1/y
      const u = 1 / Math.sqrt(2 * x);
      let re = c[c.length - 1];
      let im = 0;
      for (let n = c.length - 2; n >= 0; n--) {
        const next = u * (re + im) + c[n];
        im = u * (im - re);
        re = next;
      }
      return [2 * u * (re + im), 2 * u * (im - re)];
    }
    const q = x / 4;
    let size = 1, i0Re = 1, i0Im = 0, gapRe = 0, gapIm = 0;
    for (let k = 1; k < 64; k++) {
      size *= q / (k * k);
      const signed = (k & 2) === 0 ? size : -size;
      const gap = signed * k / (k + 1);
      if ((k & 1) === 0) {
        i0Re += signed;
        gapRe += gap;
      } else {
        i0Im += signed;
        gapIm += gap;
      }
      if (size < 1e-19) break;
    }
    const norm = 1 / (i0Re * i0Re + i0Im * i0Im);
    return [1 - (gapRe * i0Re + gapIm * i0Im) * norm, -(gapIm * i0Re - gapRe * i0Im) * norm];
  };
})();

/** Impedance of a winding without its own capacitance. */
function windingImpedance(winding, value, w) {
  let re = winding.resistance === undefined ? 0 : value(winding.resistance);
  let im = 0;
  for (const part of winding.inductances) {
    const l = value(part.parameters[0]);
    if (part.kind === "departure") {
      part.times.forEach((time, n) => {
        const x = w * time;
        const unit = w * l / (1 + x * x) * (value(part.parameters[n + 1]) - 1);
        re += unit * x;
        im += unit;
      });
      continue;
    }
    let fRe = 1, fIm = 0;
    if (part.kind === "solidCore") {
      [fRe, fIm] = solidCylinder(w * value(part.parameters[1]));
    } else if (part.kind !== "plain") {
      const second = value(part.parameters[1]);
      const x = w * (part.kind === "lossResistor" ? l / second : second);
      fRe = 1 / (1 + x * x);
      fIm = -x * fRe;
    }
    re -= w * l * fIm;
    im += w * l * fRe;
  }
  return [re, im];
}

/** Nodal equations of one frequency: a dense complex matrix and its right-hand side. */
class Nodes {
  constructor(n) {
    this.n = n;
    this.size = 2 * n * n + 2 * n;
    this.a = new Float64Array(this.size);
  }

  add(row, column, re, im) {
    if (row > 0 && column > 0) {
      const at = 2 * ((row - 1) * this.n + column - 1);
      this.a[at] += re;
      this.a[at + 1] += im;
    }
  }

  current(node, re, im) {
    if (node > 0) {
      const at = 2 * this.n * this.n + 2 * (node - 1);
      this.a[at] += re;
      this.a[at + 1] += im;
    }
  }

  /** What a voltage across branch l drives through branch k; emf lies in branch l. */
  transfer(k, l, re, im, emf) {
    this.add(k.from, l.from, re, im);
    this.add(k.from, l.to, -re, -im);
    this.add(k.to, l.from, -re, -im);
    this.add(k.to, l.to, re, im);
    this.current(k.to, re * emf, im * emf);
    this.current(k.from, -re * emf, -im * emf);
  }

  branch(e, re, im) {
    this.transfer(e, e, re, im, 0);
  }

  /** Squared magnitude of a node's voltage; the matrix is used up. */
  power(node) {
    const { n, a } = this;
    const b = 2 * n * n;
    for (let c = 0; c < n; c++) {
      let best = c, size = -1;
      for (let r = c; r < n; r++) {
        const at = 2 * (r * n + c);
        const s = Math.abs(a[at]) + Math.abs(a[at + 1]);
        if (s > size) {
          size = s;
          best = r;
        }
      }
      if (best !== c) {
        for (let k = 0; k < 2 * n; k++) {
          const t = a[2 * c * n + k];
          a[2 * c * n + k] = a[2 * best * n + k];
          a[2 * best * n + k] = t;
        }
        for (let k = 0; k < 2; k++) {
          const t = a[b + 2 * c + k];
          a[b + 2 * c + k] = a[b + 2 * best + k];
          a[b + 2 * best + k] = t;
        }
      }
      const p = 2 * (c * n + c);
      const norm = 1 / (a[p] * a[p] + a[p + 1] * a[p + 1]);
      const iRe = a[p] * norm, iIm = -a[p + 1] * norm;
      for (let r = c + 1; r < n; r++) {
        const at = 2 * (r * n + c);
        const fRe = a[at] * iRe - a[at + 1] * iIm, fIm = a[at] * iIm + a[at + 1] * iRe;
        if (fRe === 0 && fIm === 0) continue;
        for (let k = c + 1; k < n; k++) {
          const u = 2 * (c * n + k), v = 2 * (r * n + k);
          a[v] -= fRe * a[u] - fIm * a[u + 1];
          a[v + 1] -= fRe * a[u + 1] + fIm * a[u];
        }
        const u = b + 2 * c, v = b + 2 * r;
        a[v] -= fRe * a[u] - fIm * a[u + 1];
        a[v + 1] -= fRe * a[u + 1] + fIm * a[u];
      }
    }
    for (let r = n - 1; r >= 0; r--) {
      let re = a[b + 2 * r], im = a[b + 2 * r + 1];
      for (let c = r + 1; c < n; c++) {
        const u = 2 * (r * n + c), x = b + 2 * c;
        re -= a[u] * a[x] - a[u + 1] * a[x + 1];
        im -= a[u] * a[x + 1] + a[u + 1] * a[x];
      }
      const p = 2 * (r * n + r);
      const norm = 1 / (a[p] * a[p] + a[p + 1] * a[p + 1]);
      a[b + 2 * r] = (re * a[p] + im * a[p + 1]) * norm;
      a[b + 2 * r + 1] = (im * a[p] - re * a[p + 1]) * norm;
      if (r === node - 1) break;
    }
    const x = b + 2 * (node - 1);
    return a[x] * a[x] + a[x + 1] * a[x + 1];
  }
}

/** Writes one element into the equations; value null means that the part is not there. */
function stamp(e, value, w, nodes) {
  switch (e.kind) {
    case "resistor": {
      const r = value(e.resistance);
      if (r !== null) nodes.branch(e, 1 / (r * e.share), 0);
      break;
    }
    case "wiper": {
      const r = value(e.resistance), share = value(e.odds);
      nodes.branch(e, 1 / Math.max(SMALLEST_OHM, r * (e.above ? 1 - share : share)), 0);
      break;
    }
    case "capacitor": {
      const c = value(e.capacitance);
      if (c !== null) nodes.branch(e, 0, w * c);
      break;
    }
    case "lossyCapacitor": {
      const c = value(e.capacitance), tangent = value(e.lossTangent);
      if (e.constantPhase) {
        const exponent = 2 / Math.PI * Math.atan(tangent);
        const size = w * c * Math.pow(w / (2 * Math.PI * 1000), -exponent);
        nodes.branch(e, size * Math.sin(exponent * Math.PI / 2), size * Math.cos(exponent * Math.PI / 2));
      } else {
        nodes.branch(e, w * c * tangent, w * c);
      }
      break;
    }
    case "resistorCapacitor": {
      const c = value(e.capacitance);
      if (c === null) break;
      const x = w * value(e.resistance) * e.share * c;
      const norm = 1 / (1 + x * x);
      nodes.branch(e, w * c * x * norm, w * c * norm);
      break;
    }
    case "bleed": {
      const bleed = value(e.bleed);
      if (bleed === null) break;
      const y = w * bleed.farad;
      if (bleed.ohm === undefined) {
        nodes.branch(e, 0, y);
      } else if (bleed.series) {
        const x = y * bleed.ohm;
        nodes.branch(e, y * x / (1 + x * x), y / (1 + x * x));
      } else {
        nodes.branch(e, 1 / bleed.ohm, y);
      }
      break;
    }
    case "coil": {
      const [re, im] = windingImpedance(e.winding, value, w);
      const norm = 1 / (re * re + im * im);
      nodes.transfer(e, e, re * norm, -im * norm, e.emf);
      break;
    }
    case "coupledCoils":
      stampPair(e, value, w, nodes);
      break;
    default:
      throw new Error("no such element: " + e.kind);
  }
}

/** Two windings that share flux: the inverse of their impedance matrix. */
function stampPair(e, value, w, nodes) {
  const plain = (coil) => coil.winding.inductances
    .filter((p) => p.kind === "plain").reduce((sum, p) => sum + value(p.parameters[0]), 0);
  const [first, second] = [e.first, e.second];
  let [aRe, aIm] = windingImpedance(first.winding, value, w);
  let [bRe, bIm] = windingImpedance(second.winding, value, w);
  const q = value(e.couplingOdds), l1 = plain(first), l2 = plain(second);
  const between = Math.sqrt(l1 * l2);
  let mRe = 0, mIm = w * q / (1 + q) * between;
  if (e.common) {
    e.common.times.forEach((time, n) => {
      const x = w * time;
      const im = w / (1 + x * x) * (value(e.common.factors[n]) - 1), re = im * x;
      aRe += l1 * re;
      aIm += l1 * im;
      bRe += l2 * re;
      bIm += l2 * im;
      mRe += between * re;
      mIm += between * im;
    });
  }
  let emf = [first.emf, second.emf];
  if (e.inducedOdds !== undefined) {
    const odds = value(e.inducedOdds), whole = emf[0] + emf[1];
    emf = [whole * odds / (1 + odds), whole / (1 + odds)];
  }
  const detRe = aRe * bRe - aIm * bIm + mIm * mIm - mRe * mRe;
  const detIm = aRe * bIm + aIm * bRe - 2 * mRe * mIm;
  const norm = 1 / (detRe * detRe + detIm * detIm);
  const iRe = detRe * norm, iIm = -detIm * norm;
  nodes.transfer(first, first, bRe * iRe - bIm * iIm, bRe * iIm + bIm * iRe, emf[0]);
  nodes.transfer(second, second, aRe * iRe - aIm * iIm, aRe * iIm + aIm * iRe, emf[1]);
  const yRe = -(mRe * iRe - mIm * iIm), yIm = -(mRe * iIm + mIm * iRe);
  nodes.transfer(first, second, yRe, yIm, emf[1]);
  nodes.transfer(second, first, yRe, yIm, emf[0]);
}

function namesOf(part) {
  const names = [];
  const visit = (thing) => {
    if (typeof thing === "string") {
      names.push(thing);
    } else if (Array.isArray(thing)) {
      thing.forEach(visit);
    } else if (thing !== null && typeof thing === "object") {
      Object.entries(thing).forEach(([key, inner]) => key === "kind" || visit(inner));
    }
  };
  visit(part);
  return names;
}

/** A circuit at fixed frequencies and with one set of values for what cannot be turned. */
class PreparedCircuit {
  /**
   * @param circuit {elements, jack}
   * @param hz frequencies above 0
   * @param value of a parameter that is not turned
   */
  constructor(circuit, hz, value) {
    const turned = circuit.elements.map((e) => namesOf(e).some((name) => name.startsWith("#turned ")));
    this.turned = circuit.elements.filter((e, i) => turned[i]);
    const fixed = circuit.elements.filter((e, i) => !turned[i]);
    this.jack = circuit.jack;
    this.value = value;
    this.omega = Float64Array.from(hz, (f) => 2 * Math.PI * f);
    this.nodes = new Nodes(circuit.nodes);
    const { size } = this.nodes;
    this.base = new Float64Array(size * hz.length);
    this.omega.forEach((w, k) => {
      this.nodes.a.fill(0);
      fixed.forEach((e) => stamp(e, value, w, this.nodes));
      this.base.set(this.nodes.a, k * size);
    });
  }

  /** Squared magnitude of the jack's voltage over the induced one, at every frequency. */
  powers(turnedValue) {
    const { nodes, base, jack } = this;
    const value = (name) => name.startsWith("#turned ") ? turnedValue(name.substring(8)) : this.value(name);
    return Float64Array.from(this.omega, (w, k) => {
      nodes.a.set(base.subarray(k * nodes.size, (k + 1) * nodes.size));
      for (const e of this.turned) stamp(e, value, w, nodes);
      return nodes.power(jack);
    });
  }
}

// What is heard: a phrase that goes round and round, through the circuit before and after.

const CELLS = 2049;

/** Listening starts quiet: the peak of the sound before at the usual level [dB re full scale]. */
const USUAL_LEVEL = -20;

/** A new filter fills itself with sound before it is heard, then comes in with this time constant [s]. */
const FILLING = 0.05;
const CROSSFADE = 0.01;

/** How often a turning knob asks for another filter [ms]. */
const TURNING = 110;

/**
 * Six open strings struck one after the other, as the voltage they induce. Partial n of an ideal
 * string struck at a share p of its length moves as sin(n pi p) / n and is heard at a share q as
 * sin(n pi q); inharmonicity f_n = n f sqrt(1 + B n^2) (Fletcher 1964). Decay times are common
 * practice, no source.
 */
function computedStrikes(rate) {
  const samples = new Float64Array(5 * rate);
  [82.4069, 110, 146.8324, 195.9977, 246.9417, 329.6276].forEach((open, s) => {
    const start = Math.floor((0.1 + s * 0.5) * rate);
    for (let n = 1; n * open < Math.min(12000, 0.45 * rate); n++) {
      const hz = n * open * Math.sqrt(1 + 4e-5 * n * n);
      const size = Math.sin(n * Math.PI * 0.18) / n * Math.sin(n * Math.PI * 0.25);
      const shrink = Math.exp(-(0.9 + 0.0009 * hz) / rate);
      const cos = shrink * Math.cos(2 * Math.PI * hz / rate), sin = shrink * Math.sin(2 * Math.PI * hz / rate);
      let re = 0.1 * size, im = 0;
      for (let i = start; i < samples.length; i++) {
        samples[i] += im;
        const turned = re * cos - im * sin;
        im = re * sin + im * cos;
        re = turned;
      }
    }
  });
  return Float32Array.from(samples);
}

/** The recording that the page carries, 16 bits a sample. */
function recordedStrikes(recording) {
  const bytes = atob(recording.pcm);
  return Float32Array.from({ length: bytes.length / 2 }, (_, i) => {
    const word = bytes.charCodeAt(2 * i) | bytes.charCodeAt(2 * i + 1) << 8;
    return (word << 16 >> 16) / 32768;
  });
}

/** A loop comes in quickly, which leaves a strike its attack, and goes out slowly. */
function looped(samples, rate) {
  return samples.map((v, i) => {
    const near = Math.min(1, i / (0.002 * rate), (samples.length - 1 - i) / (0.02 * rate));
    return v * (0.5 - 0.5 * Math.cos(Math.PI * near));
  });
}

/** One filter between the strikes and the ear. */
class Voice {
  constructor(context, input, output, impulse) {
    this.context = context;
    this.input = input;
    this.convolver = context.createConvolver();
    this.convolver.normalize = false;
    const buffer = context.createBuffer(1, impulse.length, context.sampleRate);
    buffer.copyToChannel(impulse, 0);
    this.convolver.buffer = buffer;
    this.fade = context.createGain();
    this.fade.gain.value = 0;
    input.connect(this.convolver);
    this.convolver.connect(this.fade);
    this.fade.connect(output);
  }

  /**
   * Goes to a gain from a time on. What one filter loses another one gains, at every moment, since
   * both follow the same exponential: both hear the same strikes.
   */
  go(gain, when) {
    this.fade.gain.cancelScheduledValues(when);
    this.fade.gain.setTargetAtTime(gain, when, CROSSFADE);
  }

  /** Falls silent from a time on, and is gone a little later. */
  leave(when) {
    this.go(0, when);
    setTimeout(() => {
      this.input.disconnect(this.convolver);
      this.fade.disconnect();
    }, 1000 * (when - this.context.currentTime + 12 * CROSSFADE));
  }
}

class Sound {
  constructor(guitar) {
    this.guitar = guitar;
    this.recording = guitar.data.recording;
    this.level = USUAL_LEVEL;
    this.equal = true;
    this.heard = "before";
    this.settings = {};
    this.voices = {};
    this.context = null;
    this.due = {};
  }

  get playing() {
    return this.context !== null;
  }

  /** Magnitudes of the filter at equal steps up to half the sample rate. */
  magnitudes(settings, rate) {
    const hz = Float64Array.from({ length: CELLS }, (_, k) => Math.max(1, k * rate / 2 / (CELLS - 1)));
    const of = (s) => this.guitar.powers(s, hz, "rate " + rate).map(Math.sqrt);
    const magnitudes = of(settings);
    if (!this.recording) return magnitudes;
    const divisor = of(this.recording.settings); // what was recorded went through the guitar once already
    return magnitudes.map((m, k) => m / divisor[k]);
  }

  /** The strikes and what is known of their loudness, for a sample rate. */
  prepare(rate) {
    if (this.prepared === rate) return;
    this.strikes = this.recording ? recordedStrikes(this.recording) : computedStrikes(rate);
    this.strikesRate = this.recording ? this.recording.rate : rate;
    this.strikes = looped(this.strikes, this.strikesRate);
    this.phrase = new PhraseLoudness(this.strikes, this.strikesRate, CELLS, rate);
    this.prepared = rate;
    const first = this.recording
      ? this.strikes
      : convolve(this.strikes, minimumPhase(this.magnitudes(this.settings.before, rate)));
    this.peak = first.reduce((most, v) => Math.max(most, Math.abs(v)), 1e-9);
  }

  /** How much louder after is than before [dB]. */
  loudnessChange(rate) {
    this.prepare(rate);
    const of = (side) => this.phrase.behind(this.magnitudes(this.settings[side], rate));
    return of("after") - of("before");
  }

  /** The gain of a side beside the filter. */
  gain(side, rate) {
    const match = this.equal && side === "after" ? -this.loudnessChange(rate) : 0;
    return Math.pow(10, (Number.isFinite(match) ? match : 0) / 20) / this.peak;
  }

  impulse(side, rate) {
    const gain = this.gain(side, rate);
    return minimumPhase(this.magnitudes(this.settings[side], rate)).map((v) => v * gain);
  }

  async play() {
    const context = new AudioContext();
    this.context = context;
    await context.resume();
    this.prepare(context.sampleRate);
    this.master = context.createGain();
    this.master.gain.value = 0;
    this.master.connect(context.destination);
    this.source = context.createBufferSource();
    const buffer = context.createBuffer(1, this.strikes.length, this.strikesRate);
    buffer.copyToChannel(this.strikes, 0);
    this.source.buffer = buffer;
    this.source.loop = true;
    this.voices = {};
    for (const side of ["before", "after"]) this.replace(side);
    this.source.start();
    this.master.gain.linearRampToValueAtTime(Math.pow(10, this.level / 20), context.currentTime + 0.2);
  }

  stop() {
    const { context, master } = this;
    this.context = null;
    this.voices = {};
    this.last = null;
    if (!context) return;
    if (master) master.gain.setTargetAtTime(0, context.currentTime, 0.02);
    setTimeout(() => context.close(), 150);
  }

  setLevel(level) {
    this.level = level;
    if (this.master && this.context) {
      this.master.gain.cancelScheduledValues(this.context.currentTime);
      this.master.gain.setTargetAtTime(Math.pow(10, level / 20), this.context.currentTime, 0.03);
    }
  }

  /** Lets before or after be heard. */
  hear(side) {
    this.heard = side;
    if (!this.playing) return;
    if (this.last) this.last.go(0, this.context.currentTime);
    Object.entries(this.voices).forEach(([name, voice]) => voice.go(name === side ? 1 : 0, this.context.currentTime));
  }

  /** Goes over to other settings; while a knob turns, the latest wins. */
  become(side, settings) {
    this.settings[side] = settings;
    this.refresh(side === "before" ? ["before", "after"] : ["after"]);
  }

  setEqual(equal) {
    this.equal = equal;
    this.refresh(["after"]);
  }

  refresh(sides) {
    if (!this.playing || !this.source) return;
    for (const side of sides) {
      if (this.due[side]) continue;
      this.due[side] = setTimeout(() => {
        this.due[side] = null;
        if (this.playing) this.replace(side);
      }, TURNING);
    }
  }

  replace(side) {
    const { context } = this;
    const voice = new Voice(context, this.source, this.master, this.impulse(side, context.sampleRate));
    const when = context.currentTime + FILLING;
    if (this.heard === side) voice.go(1, when);
    const last = this.voices[side];
    if (last) last.leave(when);
    if (last && this.heard === side) this.last = last;
    this.voices[side] = voice;
  }

  /** The same way without an ear: what samples become on a side. */
  async rendered(side, samples, rate) {
    this.prepare(rate);
    const context = new OfflineAudioContext(1, samples.length, rate);
    const buffer = context.createBuffer(1, samples.length, rate);
    buffer.copyToChannel(samples, 0);
    const source = context.createBufferSource();
    source.buffer = buffer;
    const voice = new Voice(context, source, context.destination, this.impulse(side, rate));
    voice.fade.gain.value = 1;
    source.start();
    return (await context.startRendering()).getChannelData(0);
  }

  /** A change of filter as it sounds: over from one side to the other at a time [s]. */
  async crossfaded(samples, rate, when) {
    this.prepare(rate);
    const context = new OfflineAudioContext(1, samples.length, rate);
    const buffer = context.createBuffer(1, samples.length, rate);
    buffer.copyToChannel(samples, 0);
    const source = context.createBufferSource();
    source.buffer = buffer;
    const [from, to] = ["before", "after"].map(
      (side) => new Voice(context, source, context.destination, this.impulse(side, rate)));
    from.fade.gain.value = 1;
    from.go(0, when);
    to.go(1, when);
    source.start();
    return (await context.startRendering()).getChannelData(0);
  }
}

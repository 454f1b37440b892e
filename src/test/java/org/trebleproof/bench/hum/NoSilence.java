package org.trebleproof.bench.hum;

import java.util.Arrays;
import java.util.SplittableRandom;

/**
 * Recordings that are no silence: playing, sweeps, speech, test tones, noise, clicks, and what a
 * recorder writes when nothing arrives. Written apart from the analysis.
 */
final class NoSilence {

  /** What is on the recording. */
  enum Kind {
    PICKED_RIFF,
    STRUMMED_CHORDS,
    SPARSE_NOTES,
    SLOW_DECAY,
    BASS_LINE,
    ARPEGGIO,
    BOWED_CHORD,
    LOG_SWEEP,
    LINEAR_SWEEP,
    SWEEPS_IN_SILENCE,
    PINK,
    PINK_AND_NOTHING,
    HUM_OF_SECONDS_AND_NOTHING,
    CLICKS,
    METRONOME,
    SPEECH,
    SPEECH_AND_NOTHING,
    ODD_TONE,
    TONE_ON_THE_MAINS,
    TONES,
    CONSTANT,
    CONSTANT_AND_ROUNDING,
    GATED_PLAYING,
    DRUM_LOOP
  }

  final Kind kind;
  final double rate;
  final float[] samples;
  final String story;

  private final SplittableRandom random;
  private final double[] x;
  private final double loud;

  NoSilence(long seed, Kind kind) {
    random = new SplittableRandom(seed);
    this.kind = kind;
    rate = random.nextInt(3) == 0 ? 44100 : 48000;
    double seconds = random.nextBoolean() ? 10 : between(5, 14);
    x = new double[(int) (seconds * rate)];
    loud = Math.pow(10, between(-26, -3) / 20);
    double floor = between(-105, -70);
    boolean humming = random.nextInt(3) == 0 && kind != Kind.TONE_ON_THE_MAINS;
    boolean gate = make();
    double share = 0;
    if (!gate) {
      addHiss(Math.pow(10, floor / 20));
      if (humming) {
        addHum(Math.pow(10, between(-85, -60) / 20));
      }
    }
    if (kind == Kind.PINK_AND_NOTHING || kind == Kind.SPEECH_AND_NOTHING) {
      share = between(0.1, 0.95);
      silence(share);
    } else if (kind == Kind.HUM_OF_SECONDS_AND_NOTHING) {
      share = 1 - between(0.3, 2.5) * rate / x.length;
      silence(share);
    }
    samples = new float[x.length];
    boolean coarse = random.nextInt(4) == 0;
    double step = coarse && !gate ? 1 << 15 : 1 << 23;
    for (int i = 0; i < x.length; i++) {
      double dither = gate ? 0 : random.nextDouble() - random.nextDouble();
      double clipped = Math.max(-0.98, Math.min(0.98, x[i]));
      samples[i] = x[i] == 0 ? 0 : (float) (Math.rint(clipped * step + dither) / step);
    }
    story =
        String.format(
            "%s seed %d, %.1f s, peak %.1f dB, floor %.0f dB, humming %s, nothing %.0f %%",
            kind, seed, seconds, 20 * Math.log10(loud), floor, humming, 100 * share);
  }

  private double between(double low, double high) {
    return low + (high - low) * random.nextDouble();
  }

  /** Whether the recording is left as it is, without hiss and dither. */
  private boolean make() {
    double seconds = x.length / rate;
    switch (kind) {
      case PICKED_RIFF -> {
        double gap = between(0.12, 0.5);
        for (double t = between(0, 0.5); t < seconds; t += gap * between(0.8, 1.2)) {
          pluck(t, fretted(40, 76), between(0.2, 1), gap * between(0.8, 6));
        }
      }
      case STRUMMED_CHORDS -> {
        for (double t = between(0, 1); t < seconds; t += between(0.5, 2.5)) {
          int root = 40 + random.nextInt(12);
          for (int note : new int[] {0, 7, 12, 16, 19, 24}) {
            pluck(t + 0.01 * note / 7, midi(root + note), between(0.4, 0.8), between(0.8, 4));
          }
        }
      }
      case SPARSE_NOTES -> {
        for (double t = between(0, 1); t < seconds; t += between(1.2, 3)) {
          pluck(t, fretted(40, 76), between(0.4, 1), between(0.15, 1.2));
        }
      }
      case SLOW_DECAY -> pluck(between(0, 0.5), fretted(40, 64), 1, between(4, 12));
      case BASS_LINE -> {
        for (double t = between(0, 0.5); t < seconds; t += between(0.25, 0.8)) {
          pluck(t, fretted(28, 47), between(0.5, 1), between(0.3, 1.5));
        }
      }
      case ARPEGGIO -> {
        int root = 40 + random.nextInt(12);
        int[] notes = {0, 7, 12, 16, 19, 16, 12, 7};
        int at = 0;
        for (double t = between(0, 0.3); t < seconds; t += 0.3) {
          pluck(t, midi(root + notes[at++ % 8]), between(0.5, 0.9), between(0.6, 2.5));
        }
      }
      case BOWED_CHORD -> {
        double hz = fretted(40, 60);
        for (double ratio : new double[] {1, 1.5, 2.0, 2.52}) {
          for (int k = 1; k <= 12; k++) {
            tone(k * hz * ratio * (1 + 1e-4 * random.nextDouble()), loud / k / 3);
          }
        }
      }
      case LOG_SWEEP, LINEAR_SWEEP -> sweep(0, seconds, kind == Kind.LOG_SWEEP);
      case SWEEPS_IN_SILENCE -> {
        double length = between(1, 3);
        for (double t = between(0.5, 1); t + length < seconds; t += length + between(0.3, 1)) {
          sweep(t, length, random.nextBoolean());
        }
      }
      case PINK, PINK_AND_NOTHING -> pink(loud / 4);
      case HUM_OF_SECONDS_AND_NOTHING -> addHum(between(1e-4, 1e-2));
      case CLICKS -> {
        double perSecond = between(1, 12);
        for (double t = between(0, 1);
            t < seconds;
            t -= Math.log(random.nextDouble()) / perSecond) {
          burst(t, between(0.5, 1) * loud, between(0.0001, 0.003));
        }
      }
      case METRONOME -> {
        double hz = between(800, 2000);
        for (double t = between(0, 1); t < seconds; t += 0.5) {
          ping(t, hz, loud, between(0.01, 0.03));
        }
      }
      case SPEECH, SPEECH_AND_NOTHING -> speech();
      case ODD_TONE -> {
        double hz = Math.exp(between(Math.log(70), Math.log(12000)));
        double nearest = Math.abs(hz - 50 * Math.rint(hz / 50));
        tone(nearest < 3 ? hz + 7 : hz, loud);
      }
      case TONE_ON_THE_MAINS -> tone(random.nextBoolean() ? 50 : between(97, 103), loud);
      case TONES -> {
        for (int n = 2 + random.nextInt(6); n > 0; n--) {
          tone(Math.exp(between(Math.log(200), Math.log(9000))), loud / 4);
        }
      }
      case CONSTANT -> {
        Arrays.fill(x, between(-0.2, 0.2));
        return true;
      }
      case CONSTANT_AND_ROUNDING -> {
        double offset = Math.rint(between(-0.2, 0.2) * (1 << 23));
        for (int i = 0; i < x.length; i++) {
          x[i] = (offset + random.nextInt(2)) / (1 << 23);
        }
        return true;
      }
      case GATED_PLAYING -> {
        for (double t = between(0.2, 1); t < seconds; t += between(1, 2)) {
          pluck(t, fretted(40, 76), between(0.4, 1), between(0.3, 1));
        }
        double level = 0;
        for (int i = 0; i < x.length; i++) {
          level = Math.max(Math.abs(x[i]), level * (1 - 1 / (0.05 * rate)));
          x[i] = level < 0.05 * loud ? 0 : x[i];
        }
        return true;
      }
      case DRUM_LOOP -> {
        for (double t = 0.1; t < seconds; t += 0.25) {
          ping(t, between(55, 90), loud, 0.1);
          burst(t + 0.125, 0.4 * loud, between(0.02, 0.06));
        }
      }
      default -> throw new IllegalStateException(kind.name());
    }
    return false;
  }

  private static double midi(int note) {
    return 440 * Math.pow(2, (note - 69) / 12.0);
  }

  private double fretted(int low, int high) {
    return midi(low + random.nextInt(high - low)) * (1 + 0.002 * (random.nextDouble() - 0.5));
  }

  /** A string pulled aside at a point and let go; a pickup at another; partials die the faster. */
  private void pluck(double at, double hz, double strength, double decay) {
    int start = (int) (at * rate);
    double plucked = between(0.05, 0.3);
    double heard = between(0.05, 0.25);
    double stiff = between(1e-5, 1e-4);
    for (int k = 1; k <= 24 && k * hz < 0.4 * rate; k++) {
      double partial = k * hz * Math.sqrt(1 + stiff * k * k);
      double amplitude =
          loud * strength * Math.sin(Math.PI * k * plucked) * Math.sin(Math.PI * k * heard) / k;
      double turn = 2 * Math.PI * partial / rate;
      double loss = Math.exp(-Math.pow(k, 0.6) / (decay * rate));
      double re = 0;
      double im = amplitude;
      double c = Math.cos(turn) * loss;
      double s = Math.sin(turn) * loss;
      for (int i = start; i < x.length && Math.abs(re) + Math.abs(im) > 1e-7; i++) {
        x[i] += im;
        double next = c * re - s * im;
        im = s * re + c * im;
        re = next;
      }
    }
  }

  private void tone(double hz, double peak) {
    double phase = between(0, 2 * Math.PI);
    for (int i = 0; i < x.length; i++) {
      x[i] += peak * Math.sin(phase + 2 * Math.PI * hz * i / rate);
    }
  }

  private void sweep(double at, double length, boolean logarithmic) {
    double low = between(20, 60);
    double high = between(8000, 20000);
    int start = (int) (at * rate);
    int n = (int) (length * rate);
    double phase = 0;
    for (int i = 0; i < n && start + i < x.length; i++) {
      double share = (double) i / n;
      double hz = logarithmic ? low * Math.pow(high / low, share) : low + (high - low) * share;
      phase += 2 * Math.PI * hz / rate;
      x[start + i] += loud * Math.sin(phase);
    }
  }

  /** Octaves of white noise held for ever longer (Voss). */
  private void pink(double rms) {
    double[] held = new double[12];
    for (int i = 0; i < x.length; i++) {
      double sum = random.nextGaussian();
      for (int octave = 0; octave < held.length; octave++) {
        if (i % (1 << (octave + 1)) == 0) {
          held[octave] = random.nextGaussian();
        }
        sum += held[octave];
      }
      x[i] += rms * sum / Math.sqrt(held.length + 1);
    }
  }

  private void addHiss(double rms) {
    for (int i = 0; i < x.length; i++) {
      x[i] += rms * random.nextGaussian();
    }
  }

  private void addHum(double peak) {
    double hz = between(49.9, 50.1);
    for (int k = 1; k <= 15; k += 2) {
      tone(k * hz, peak / k);
    }
  }

  private void burst(double at, double peak, double decay) {
    int start = (int) (at * rate);
    for (int i = start; i < Math.min(x.length, start + (int) (8 * decay * rate) + 1); i++) {
      double t = (i - start) / rate;
      x[i] += peak * Math.exp(-t / decay) * (i == start ? 1 : between(-1, 1));
    }
  }

  private void ping(double at, double hz, double peak, double decay) {
    int start = (int) (at * rate);
    for (int i = start; i < Math.min(x.length, start + (int) (10 * decay * rate)); i++) {
      double t = (i - start) / rate;
      x[i] += peak * Math.exp(-t / decay) * Math.sin(2 * Math.PI * hz * t);
    }
  }

  /** Pulses of a voice through three resonances, in syllables with pauses; hissing between. */
  private void speech() {
    double pitch = between(90, 230);
    double[] y = new double[x.length];
    double phase = 0;
    double until = 0;
    double gain = 0;
    double target = 0;
    boolean voiced = true;
    double[] formant = new double[3];
    double[] s1 = new double[3];
    double[] s2 = new double[3];
    for (int i = 0; i < x.length; i++) {
      double t = i / rate;
      if (t >= until) {
        until = t + between(0.08, 0.35);
        target = random.nextInt(4) == 0 ? 0 : between(0.3, 1);
        voiced = random.nextInt(4) != 0;
        formant = new double[] {between(300, 800), between(900, 2200), between(2300, 3200)};
        pitch *= between(0.94, 1.06);
      }
      gain += (target - gain) / (0.015 * rate);
      phase += pitch / rate;
      double input = voiced ? 0 : 0.1 * between(-1, 1);
      if (phase >= 1) {
        phase -= 1;
        input += voiced ? 1 : 0;
      }
      double sum = 0;
      for (int f = 0; f < 3; f++) {
        double r = Math.exp(-Math.PI * 90 / rate);
        double out = input + 2 * r * Math.cos(2 * Math.PI * formant[f] / rate) * s1[f];
        out -= r * r * s2[f];
        s2[f] = s1[f];
        s1[f] = out;
        sum += out / (f + 1);
      }
      y[i] = gain * sum;
    }
    double peak = Arrays.stream(y).map(Math::abs).max().orElse(1);
    for (int i = 0; i < x.length; i++) {
      x[i] += loud * y[i] / peak;
    }
  }

  /** Leaves nothing at the beginning, at the end or inside, a share of the whole in all. */
  private void silence(double share) {
    int nothing = (int) (share * x.length);
    switch (random.nextInt(3)) {
      case 0 -> Arrays.fill(x, 0, nothing, 0);
      case 1 -> Arrays.fill(x, x.length - nothing, x.length, 0);
      default -> {
        int start = (int) (between(0, 1) * (x.length - nothing));
        Arrays.fill(x, start, start + nothing, 0);
      }
    }
  }
}

package org.trebleproof.bench.hum;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.EnumSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.SplittableRandom;
import org.trebleproof.audio.Recording;

/**
 * A synthetic visit: silence of a guitar with known faults, in some of the states. Written apart
 * from the analysis: sums of sinusoids with phases of their own, hiss, accidents.
 */
final class SilenceCase {

  /** Levels of the loudest source, hands off [dBFS rms]. */
  private static final double QUIETEST = -84;

  private static final double LOUDEST = -42;

  /** Half of what the guide asks for, which is harder, and twice as fast. */
  private static final double SECONDS = 5;

  /** Points of a table of one turn of the mains. */
  private static final int PERIOD = 1 << 15;

  final Set<HumCause.Code> truth;
  final Map<HumState, Recording> recordings = new EnumMap<>(HumState.class);
  final double mains;
  final String story;

  private final SplittableRandom random;
  private final double rate;
  private final int length;
  private final double[][] drifts = new double[HumState.values().length][];
  private final double burstPeak;

  /** Draws a case with these causes. */
  SilenceCase(long seed, Set<HumCause.Code> truth) {
    random = new SplittableRandom(seed);
    this.truth = truth;
    rate = random.nextInt(4) == 0 ? 44100 : 48000;
    length = (int) (SECONDS * rate);
    mains = random.nextBoolean() ? between(49.7, 50.3) : between(59.8, 60.2);
    double level = between(QUIETEST, LOUDEST);
    double hiss = between(-112, Math.min(-88, level - 4));
    burstPeak = Math.sqrt(2) * rms(Math.min(-40, level + between(-6, 18)));
    for (int i = 0; i < drifts.length; i++) {
      drifts[i] =
          new double[] {
            between(0, 1), between(-0.01, 0.01), between(0, 0.003), between(0, 2 * Math.PI)
          };
    }
    Set<HumState> states = EnumSet.allOf(HumState.class);
    if (random.nextInt(100) < 45) {
      List<HumState> droppable = new ArrayList<>(states);
      droppable.remove(HumState.HANDS_OFF);
      for (int n = 1 + random.nextInt(3); n > 0; n--) {
        states.remove(droppable.remove(random.nextInt(droppable.size())));
      }
    }
    List<Source> sources = new ArrayList<>();
    int index = 0;
    for (HumCause.Code code : truth) {
      if (code != HumCause.Code.QUIET) {
        sources.add(new Source(code, level + (index == 0 ? 0 : between(-9, 3))));
        index++;
      }
    }
    HumState brushed = random.nextInt(4) == 0 ? HumState.values()[random.nextInt(4)] : null;
    HumState turnedGain = random.nextInt(4) == 0 ? HumState.values()[random.nextInt(6)] : null;
    double gain = (random.nextBoolean() ? 1 : -1) * between(3, 12);
    double shortedHiss = between(-6, 0);
    for (HumState state : states) {
      double[] x = new double[length];
      sources.forEach(source -> source.addTo(x, state));
      double hissHere =
          hiss + (state == HumState.VOLUME_ZERO ? shortedHiss : 0) + between(-0.2, 0.2);
      addHiss(x, rms(hissHere));
      if (state == brushed) {
        addBrush(x, Math.max(level, hiss) + between(0, 25));
      }
      double factor = state == turnedGain ? Math.pow(10, gain / 20) : 1;
      recordings.put(state, recording(state, x, factor));
    }
    story =
        String.format(
            "seed %d %s level %.0f bursts %.0f hiss %.0f mains %.3f states %s brushed %s gain %s %.1f",
            seed,
            truth,
            level,
            20 * Math.log10(burstPeak),
            hiss,
            mains,
            states,
            brushed,
            turnedGain,
            gain);
  }

  private Recording recording(HumState state, double[] x, double factor) {
    float[] samples = new float[length];
    for (int i = 0; i < length; i++) {
      double dither = (random.nextDouble() - random.nextDouble()) / (1 << 23);
      samples[i] = (float) (Math.rint((x[i] * factor + dither) * (1 << 23)) / (1 << 23));
    }
    return new Recording(Path.of(state.key() + ".wav"), new float[][] {samples}, rate, 24, false);
  }

  /** Periods of the mains up to a sample: it wanders a little, and each state starts anywhere. */
  private double turns(HumState state, int i) {
    double[] drift = drifts[state.ordinal()];
    double t = i / rate;
    return drift[0] + (mains + drift[1]) * t + drift[2] * Math.sin(0.8 * t + drift[3]);
  }

  private double between(double low, double high) {
    return low + (high - low) * random.nextDouble();
  }

  /** Root mean square of a level by the full-scale-sine convention. */
  private static double rms(double level) {
    return Math.pow(10, level / 20) / Math.sqrt(2);
  }

  private void addHiss(double[] x, double rms) {
    for (int i = 0; i < x.length; i++) {
      x[i] += rms * random.nextGaussian();
    }
  }

  private void addBrush(double[] x, double level) {
    double[] strings = {82.41, 110.0, 146.83, 196.0, 246.94, 329.63};
    double pitch = strings[random.nextInt(strings.length)];
    double decay = between(0.3, 1.5);
    int start = (int) (between(0, SECONDS - 2) * rate);
    for (int k = 1; k <= 12; k++) {
      double phase = between(0, 2 * Math.PI);
      double amplitude = Math.sqrt(2) * rms(level) / k;
      for (int i = start; i < x.length; i++) {
        double t = (i - start) / rate;
        x[i] +=
            amplitude
                * Math.exp(-t * Math.sqrt(k) / decay)
                * Math.sin(phase + 2 * Math.PI * k * pitch * t);
      }
    }
  }

  /**
   * One turn of the mains and the first point of the next. Straight lines between the points add
   * harmonics of the same mains, 88 dB below the ninetieth.
   */
  private static double[] period(double[] cosine, double[] sine) {
    double[] sum = new double[PERIOD + 1];
    for (int i = 0; i < PERIOD; i++) {
      double re = Math.cos(2 * Math.PI * i / PERIOD);
      double im = Math.sin(2 * Math.PI * i / PERIOD);
      double a = re;
      double b = im;
      for (int k = 0; k < cosine.length; k++) {
        sum[i] += cosine[k] * a + sine[k] * b;
        double next = a * re - b * im;
        b = a * im + b * re;
        a = next;
      }
    }
    sum[PERIOD] = sum[0];
    return sum;
  }

  /** A source of noise with a spectrum of its own. */
  private final class Source {
    final HumCause.Code code;
    final double[] period;
    final double strings;
    final double sleeve;
    final double turned;

    Source(HumCause.Code code, double level) {
      this.code = code;
      double[] amplitude = new double[(int) (4500 / mains)];
      double slope =
          switch (code) {
            case MAGNETIC -> between(9, 15);
            case DOWNSTREAM -> between(4, 10);
            case INTERFACE -> between(2, 10);
            default -> between(1, 5);
          };
      double even = between(-18, 0);
      double sum = 0;
      for (int k = 1; k <= amplitude.length; k++) {
        double decibel =
            -slope * Math.log(k) / Math.log(2) + (k % 2 == 0 ? even : 0) + between(-3, 3);
        amplitude[k - 1] = Math.pow(10, decibel / 20);
        sum += amplitude[k - 1] * amplitude[k - 1];
      }
      // sources keep their phases to each other: all hang on the same mains
      double[] cosine = new double[amplitude.length];
      double[] sine = new double[amplitude.length];
      for (int k = 0; k < amplitude.length; k++) {
        double peak = amplitude[k] * Math.sqrt(2 / sum) * rms(level);
        double phase = between(0, 2 * Math.PI);
        cosine[k] = peak * Math.cos(phase);
        sine[k] = peak * Math.sin(phase);
      }
      period = period(cosine, sine);
      double fall = -between(7, 26);
      strings = code == HumCause.Code.UNSHIELDED ? fall : between(-0.5, 6);
      sleeve = fall + between(-1.5, 1.5);
      turned = (random.nextBoolean() ? 1 : -1) * between(3, 14);
    }

    private double change(HumState state) {
      boolean guitar = code.ordinal() <= HumCause.Code.MAGNETIC.ordinal();
      boolean electric = code.ordinal() <= HumCause.Code.STRING_GROUND_OPEN.ordinal();
      return switch (state) {
        case HANDS_OFF -> 0;
        case ON_STRINGS -> electric ? strings : 0;
        case ON_SLEEVE -> electric ? sleeve : 0;
        case TURNED -> code == HumCause.Code.MAGNETIC ? turned : 0;
        case VOLUME_ZERO -> guitar ? -60 : 0;
        case NO_LEAD -> code == HumCause.Code.INTERFACE ? 0 : -200;
      };
    }

    void addTo(double[] x, HumState state) {
      if (code == HumCause.Code.RADIO) {
        addBursts(x, burstPeak);
        return;
      }
      double gain = Math.pow(10, (change(state) + between(-0.5, 0.5)) / 20);
      if (gain < 1e-8) {
        return;
      }
      double turns = 0;
      double perSample = 0;
      for (int i = 0; i < x.length; i++) {
        // the mains does not turn faster or slower within a hundred samples
        if (i % 100 == 0) {
          turns = turns(state, i);
          perSample = (turns(state, i + 100) - turns) / 100;
        }
        double place = (turns - Math.floor(turns)) * PERIOD;
        int at = (int) place;
        x[i] += gain * (period[at] + (place - at) * (period[at + 1] - period[at]));
        turns += perSample;
      }
    }

    private void addBursts(double[] x, double amplitude) {
      double packet = between(0.2, 3);
      double pause = random.nextBoolean() ? 0 : between(0.2, 2);
      double frame = 0.12 / 26;
      double before = 0;
      for (int i = 0; i < x.length; i++) {
        double t = i / rate;
        boolean on = t % (packet + pause) < packet && t % frame < frame / 8;
        // an audio stage passes no direct current
        double input = on ? amplitude : 0;
        before += (input - before) * 2 * Math.PI * 60 / rate;
        x[i] += input - before;
      }
    }
  }
}

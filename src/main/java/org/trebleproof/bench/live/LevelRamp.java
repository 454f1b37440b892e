package org.trebleproof.bench.live;

import java.util.Arrays;
import java.util.Locale;
import org.trebleproof.audio.device.BlockListener;
import org.trebleproof.audio.device.LevelMeter;
import org.trebleproof.audio.device.PlayedSound;
import org.trebleproof.audio.device.Transport;
import org.trebleproof.audio.device.TransportRun;
import org.trebleproof.bench.Stimulus;
import org.trebleproof.quantity.Refusal;
import org.trebleproof.signal.sweep.ExponentialSweep;

/**
 * Finds the level to play at: short sweeps, quiet at first, then louder until the device channel
 * peaks between -12 and -6 dB re full scale. Never above the ceiling, never more than 12 dB at
 * once.
 */
final class LevelRamp {

  /** Where it starts [dB re full scale]. */
  static final double START = -50;

  /** Wanted peak of the device channel [dB re full scale]. */
  static final double LOWEST = -12;

  static final double HIGHEST = -6;

  private static final double TARGET = -9;
  private static final double LARGEST_STEP = 12;

  /** The reference channel must not come nearer to full scale [dB]. */
  private static final double REFERENCE_HIGHEST = -3;

  /** A peak this many times the silence's is the sweep's. */
  private static final double HEARD = 4;

  private static final int MOST_STEPS = 16;

  /** One burst; the pause after it outlasts every queue and latency [s]. */
  private static final double BURST = 0.6;

  private static final double PAUSE = 1.2;

  /** What kept the device channel from its wanted level. */
  enum Limit {
    NONE,
    CEILING,
    REFERENCE
  }

  /**
   * The level that was found.
   *
   * @param level to play at [dB re full scale]
   * @param devicePeak of the device channel there [dB re full scale]
   * @param referencePeak of the reference channel there [dB re full scale]
   * @param limit what kept it from more
   */
  record Found(double level, double devicePeak, double referencePeak, Limit limit) {}

  private final LiveBench bench;
  private final double ceiling;
  private final LiveListener listener;

  /**
   * @param ceiling never louder than this [dB re full scale]
   */
  LevelRamp(LiveBench bench, double ceiling, LiveListener listener) {
    this.bench = bench;
    this.ceiling = ceiling;
    this.listener = listener;
  }

  /**
   * Finds it.
   *
   * @throws Refusal if the device channel stays silent up to the ceiling, or clips however quiet
   * @throws StoppedException if stopped
   */
  Found find(Transport transport, Stimulus stimulus) {
    Search search = new Search(stimulus);
    TransportRun run =
        transport.run(bench.playback(), search, bench.recording(), 0.1, search::hear);
    if (run.stopped()) {
      throw new StoppedException("Stopped while the level was being set; nothing was recorded.");
    }
    return search.result();
  }

  private final class Search implements PlayedSound {
    private final float[] burst;
    private final int period;
    private final LevelMeter meter =
        new LevelMeter(bench.recording().format().channels(), bench.sampleRate());
    private final BlockListener shown =
        new MeterShow(meter, bench.sampleRate(), levels -> listener.levels(levels, Double.NaN));
    private double level = Math.min(START, ceiling);
    private double silence;
    private double device;
    private double reference;
    private long at;
    private int steps;
    private Found found;

    Search(Stimulus stimulus) {
      double rate = bench.sampleRate();
      double[] one =
          ExponentialSweep.plain(stimulus.startHz(), stimulus.endHz(), BURST, rate).samples();
      burst = new float[one.length];
      for (int i = 0; i < one.length; i++) {
        burst[i] = (float) one[i];
      }
      period = burst.length + (int) (PAUSE * rate);
      at = -(int) (PAUSE * rate);
    }

    @Override
    public int next(float[][] block, int frames) {
      if (found != null) {
        return 0;
      }
      for (float[] channel : block) {
        Arrays.fill(channel, 0f);
      }
      for (int i = 0; i < frames; i++, at++) {
        if (at == -period / 4) {
          device = 0; // what an earlier sound left in the queues has gone by
        } else if (at == 0) {
          silence = device;
          begin();
        } else if (at == period) {
          judge();
          at = 0;
          if (found != null) {
            return i;
          }
          begin();
        }
        if (at >= 0 && at < burst.length) {
          float v = (float) Math.pow(10, level / 20) * burst[(int) at];
          for (float[] channel : block) {
            channel[i] = v;
          }
        }
      }
      return frames;
    }

    private void begin() {
      device = 0;
      reference = 0;
      listener.step(String.format(Locale.ROOT, "Setting the level: trying %.0f dB.", level));
    }

    void hear(float[][] block, int frames) {
      shown.block(block, frames);
      device = Math.max(device, peak(block[bench.deviceChannel() - 1], frames));
      reference = Math.max(reference, peak(block[bench.referenceChannel() - 1], frames));
    }

    private static float peak(float[] channel, int frames) {
      float top = 0;
      for (int i = 0; i < frames; i++) {
        top = Math.max(top, Math.abs(channel[i]));
      }
      return top;
    }

    private void judge() {
      double d = LevelMeter.decibel(device);
      double r = LevelMeter.decibel(reference);
      boolean heard = device > HEARD * silence && device > 0;
      if (heard && d >= LOWEST && d <= HIGHEST && r <= HIGHEST / 2) {
        found = new Found(level, d, r, Limit.NONE);
        return;
      }
      double wanted =
          heard ? Math.max(-2 * LARGEST_STEP, Math.min(LARGEST_STEP, TARGET - d)) : LARGEST_STEP;
      double room = reference > HEARD * silence ? REFERENCE_HIGHEST - r : LARGEST_STEP;
      double next = Math.min(ceiling, level + Math.min(wanted, room));
      if (++steps >= MOST_STEPS || next <= level + 0.05 && next >= level - 0.05) {
        found = new Found(level, d, r, room < wanted ? Limit.REFERENCE : Limit.CEILING);
        if (!heard) {
          found = new Found(level, LevelMeter.FLOOR, r, found.limit());
        }
        return;
      }
      level = next;
    }

    Found result() {
      if (found == null) {
        throw new Refusal("The level could not be set: start again.");
      }
      if (found.devicePeak() <= LevelMeter.FLOOR) {
        throw new Refusal(
            String.format(
                Locale.ROOT,
                "The sweep does not arrive on recorded channel %d, though it was played up to %.0f"
                    + " dB re full scale: check the plugs, the volume control and the channel"
                    + " numbers, or raise the ceiling with care.",
                bench.deviceChannel(),
                found.level()));
      }
      if (found.devicePeak() > HIGHEST + 3) {
        throw new Refusal(
            String.format(
                Locale.ROOT,
                "The device channel peaks at %.1f dB re full scale however quiet the sweep: turn"
                    + " its input gain down.",
                found.devicePeak()));
      }
      return found;
    }
  }
}

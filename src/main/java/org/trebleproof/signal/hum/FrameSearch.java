package org.trebleproof.signal.hum;

import java.util.Arrays;
import java.util.Optional;
import org.trebleproof.signal.MeanPower;
import org.trebleproof.signal.OrderStatistics;

/**
 * Looks for the frames of a digital radio: sharp lines at the multiples of a {@link FrameClock}.
 *
 * <p>A mains of 50 Hz has harmonics close by (100 Hz, 200 Hz, 800 Hz). What tells them apart is
 * exactness: frames keep to a crystal, and the mains hardly ever stands at 50.000 Hz. Where it
 * does, lines on the mains' own harmonics say nothing, and the search says so.
 */
final class FrameSearch {

  /** Crystals of radio and recorder together (common practice, no source: 20 to 50 millionths). */
  private static final double CRYSTAL = 6e-5;

  /** Power over noise at which a bin stands out; noise gets there in one of 160000. */
  private static final double STANDS_OUT = 12;

  private static final double LOWEST = 90;

  /** The packets are short, so the comb is strong up to here [Hz]. */
  private static final double HIGHEST = 2200;

  private static final int LEAST_LINES = 6;

  /** Share of the lines that must stand out. */
  private static final double SHARE = 0.6;

  /** A crystal's lines stand no farther from their places than this, in bins. */
  private static final double SHARP = 0.6;

  /** Bins that two lines must be apart to be two. */
  private static final double RESOLVED = 2.5;

  /** Wander of the mains within a recording [Hz]; its harmonics wander in proportion. */
  private static final double WANDER = 0.002;

  /** How far the comb stands above the mains lines beside it to be more than them, as a power. */
  private static final double ABOVE = 10;

  private static final int FIRST_PAIR = 10;
  private static final int PAIRS = 15;

  private FrameSearch() {}

  /** What a search can say about a comb. */
  enum Verdict {
    NONE,
    UNCLEAR,
    HEARD
  }

  /** The comb that explains most lines, whoever makes it. */
  static Optional<Frames> candidate(LineSpectrum lines) {
    Frames best = null;
    for (FrameClock clock : FrameClock.values()) {
      Frames found = comb(lines, clock);
      boolean paired = clock != FrameClock.TWENTY_MILLISECONDS || oddLinesToo(lines, found);
      if (found != null && paired && (best == null || found.hits() > best.hits())) {
        best = found;
      }
    }
    return Optional.ofNullable(best);
  }

  /** Whether the odd lines are of the same kind as the even ones, not a hum of exactly 50 Hz. */
  private static boolean oddLinesToo(LineSpectrum lines, Frames frames) {
    if (frames == null) {
      return false;
    }
    double[] odd = new double[PAIRS];
    double[] even = new double[PAIRS];
    for (int pair = 0; pair < PAIRS; pair++) {
      odd[pair] = lines.amplitude((FIRST_PAIR + 2 * pair + 1) * frames.rate());
      even[pair] = lines.amplitude((FIRST_PAIR + 2 * pair) * frames.rate());
    }
    return OrderStatistics.median(odd) > 0.25 * OrderStatistics.median(even);
  }

  private static int highest(FrameClock clock) {
    return Math.max(LEAST_LINES, (int) (HIGHEST / clock.rate()));
  }

  private static Frames comb(LineSpectrum lines, FrameClock clock) {
    int most = highest(clock);
    double[] peaks = new double[most + 1];
    int count = 0;
    double[] offsets = new double[most];
    int found = 0;
    for (int n = 1; n <= most; n++) {
      double hz = n * clock.rate();
      if (hz >= LOWEST) {
        count++;
        double peak = lines.peak(hz, hz * CRYSTAL + lines.binWidth() / 2);
        double over = peak > 0 ? lines.at(peak) : 0;
        if (over > STANDS_OUT && lines.isPeak(peak)) {
          peaks[n] = peak;
          offsets[found++] = peak / hz - 1;
        }
      }
    }
    // the higher lines are the finer; the middle one, since a mains line may lie beside some
    double offset =
        found > 0 ? OrderStatistics.median(Arrays.copyOfRange(offsets, found / 2, found)) : 0;
    int hits = 0;
    for (int n = 1; n <= most; n++) {
      double apart = Math.abs(peaks[n] - n * clock.rate() * (1 + offset));
      hits += apart < SHARP * lines.binWidth() ? 1 : 0;
    }
    boolean comb = hits >= SHARE * count && hits >= 4 && Math.abs(offset) < CRYSTAL;
    return comb ? new Frames(clock, offset, hits) : null;
  }

  /**
   * Judges a comb beside the mains.
   *
   * @param mains frequency of the mains as found without the comb's lines [Hz]; empty if there is
   *     none
   * @param pulse the comb's waveform over one frame
   */
  static Verdict judge(
      LineSpectrum lines, Frames frames, Optional<Double> mains, FramePulse pulse) {
    if (mains.isEmpty()) {
      // of these clocks, rectified mains comes 100 times a second, and plain mains 50 times
      return switch (frames.clock()) {
        case TEN_MILLISECONDS -> pulse.ofPackets() ? Verdict.HEARD : Verdict.UNCLEAR;
        case TWENTY_MILLISECONDS -> pulse.ofPackets() ? Verdict.HEARD : Verdict.NONE;
        default -> Verdict.HEARD;
      };
    }
    double hz = mains.get();
    int apart = 0;
    int hits = 0;
    int together = 0;
    int above = 0;
    for (int n = 1; n <= highest(frames.clock()); n++) {
      double line = n * frames.rate();
      long k = Math.round(line / hz);
      double near = RESOLVED * lines.binWidth() + k * WANDER;
      if (Math.abs(line - k * hz) > near) {
        apart++;
        hits += lines.at(line) > STANDS_OUT ? 1 : 0;
      } else {
        together++;
        double beside = Math.max(lines.amplitude((k - 1) * hz), lines.amplitude((k + 1) * hz));
        above += Math.pow(lines.amplitude(line) / beside, 2) > ABOVE ? 1 : 0;
      }
    }
    if (apart >= 3) {
      return hits >= SHARE * apart && hits >= 3 ? Verdict.HEARD : Verdict.NONE;
    }
    return above >= SHARE * together ? Verdict.UNCLEAR : Verdict.NONE;
  }

  /**
   * Power of the comb's lines, up to 20 kHz. Where one lies on a mains line, the mean of its
   * neighbours stands for it.
   */
  static MeanPower power(LineSpectrum lines, Frames frames, Optional<Double> mains) {
    MeanPower sum = new MeanPower(0, 0);
    MeanPower last = null;
    int skipped = 0;
    double doubt = 0;
    for (int n = 1; n * frames.rate() < 20000; n++) {
      double line = n * frames.rate();
      boolean hidden = false;
      if (mains.isPresent()) {
        long k = Math.round(line / mains.get());
        double near = RESOLVED * lines.binWidth() + k * WANDER;
        hidden = Math.abs(line - k * mains.get()) < near && line < HumSpectrum.HIGHEST_HARMONIC;
      }
      if (hidden) {
        skipped++;
      } else {
        MeanPower here = lines.line(line);
        MeanPower between = last == null ? here : last.plus(here).times(0.5);
        // neighbours differ by the packets' own spectrum; below the first there is only one
        doubt += skipped * (last == null ? 0.4 : 0.25) * Math.max(0, between.value());
        sum = sum.plus(new MeanPower(skipped * between.value(), skipped * between.sd()));
        skipped = 0;
        sum = sum.plus(here);
        last = here;
      }
    }
    return new MeanPower(sum.value(), Math.hypot(doubt, Math.hypot(sum.sd(), 0.012 * sum.value())));
  }
}

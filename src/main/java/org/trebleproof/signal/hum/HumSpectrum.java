package org.trebleproof.signal.hum;

import java.util.Arrays;
import java.util.Optional;
import org.trebleproof.signal.AWeighting;
import org.trebleproof.signal.MeanPower;
import org.trebleproof.signal.OrderStatistics;

/**
 * What a steady recording of silence is made of: the harmonics of the mains, each block by block
 * and corrected for the noise under it, and the hiss between them.
 *
 * <p>All powers are mean squares of samples. Harmonics count from 1.
 */
public final class HumSpectrum {

  /** The series is followed up to here [Hz]. */
  public static final double HIGHEST_HARMONIC = 5000;

  private static final double HISS_FROM = 20;
  private static final double HISS_TO = 20000;

  /** Bins beside a line that are surely free of it: main lobe and a bin for a wandering mains. */
  private static final int CLEAR = BlockSpectra.LOBE + 1;

  /** Places beside a harmonic, in parts of the fundamental, where a radio shows by itself. */
  private static final double[] BESIDE = {-0.42, -0.29, 0.29, 0.42};

  /** Power of the fence's lines in one lobe over that of a line of the bursts. */
  private static final double FENCE = 0.004;

  private final BlockSpectra spectra;
  private final boolean[] keep;
  private final double fundamental;
  private final double[][] harmonic;
  private final double[][] weighted;
  private final double[] uncertain;

  /** What a reading gives beside each harmonic, where there is no line; none without radio. */
  private final double[][] beside;

  private final double[] density;
  private final double[] mean;
  private final MeanPower total;
  private final MeanPower weightedTotal;
  private final Optional<RadioSounds> radio;

  /**
   * Takes a recording apart.
   *
   * @param spectra its block spectra
   * @param keep which blocks count
   * @param fundamental frequency of the mains [Hz]
   * @param radio a phone's bursts in blocks that count
   * @param fine the recording's spectrum in one piece, where another radio lies over the lines
   * @param wander of the mains about the fundamental, either way, for that spectrum [Hz]
   * @param pausing whether that radio is heard only now and then
   * @param disturbed whether any radio is heard
   */
  HumSpectrum(
      BlockSpectra spectra,
      boolean[] keep,
      double fundamental,
      Optional<RadioSounds> radio,
      Optional<LineSpectrum> fine,
      double wander,
      boolean pausing,
      boolean disturbed) {
    this.spectra = spectra;
    this.keep = keep.clone();
    this.fundamental = fundamental;
    this.radio = radio;
    this.mean = spectra.mean(keep);
    double top = Math.min(HIGHEST_HARMONIC, 0.45 * spectra.rate());
    int harmonics = (int) (top / fundamental);
    int kept = 0;
    for (boolean k : keep) {
      kept += k ? 1 : 0;
    }
    harmonic = new double[harmonics][kept];
    weighted = new double[harmonics][kept];
    uncertain = new double[harmonics];
    beside = new double[disturbed ? BESIDE.length : 0][harmonics];
    for (int k = 1; k <= harmonics; k++) {
      if (fine.isPresent()) {
        fill(k, fine.get(), wander, pausing);
      } else {
        fill(k);
      }
    }
    density = hissDensity();
    double[] plainSeries = new double[kept];
    double[] weightedSeries = new double[kept];
    everything(plainSeries, weightedSeries);
    total = MeanPower.of(plainSeries);
    weightedTotal = MeanPower.of(weightedSeries);
  }

  private void fill(int k) {
    int centre = (int) Math.round(k * fundamental / spectra.binWidth());
    int reach = (int) (fundamental / spectra.binWidth() / 2);
    double below = meanBetween(centre - reach, centre - CLEAR);
    double above = meanBetween(centre + CLEAR, centre + reach);
    int width = 2 * BlockSpectra.LOBE + 1;
    double noise = width * noise(below, above);
    uncertain[k - 1] = radio.isPresent() ? Math.abs(above - below) * width / 2 + skirts(k) : 0;
    for (int b = 0; b < beside.length; b++) {
      int place = (int) Math.round((k + BESIDE[b]) * fundamental / spectra.binWidth());
      beside[b][k - 1] = -noise;
      for (int bin = place - BlockSpectra.LOBE; bin <= place + BlockSpectra.LOBE; bin++) {
        beside[b][k - 1] += bin < mean.length ? mean[bin] : 0;
      }
    }
    double weight = AWeighting.power(k * fundamental);
    int column = 0;
    for (int block = 0; block < spectra.blocks(); block++) {
      if (keep[block]) {
        double sum = -noise;
        for (int bin = centre - BlockSpectra.LOBE; bin <= centre + BlockSpectra.LOBE; bin++) {
          sum += spectra.power(block, bin);
        }
        harmonic[k - 1][column] = sum;
        weighted[k - 1][column] = weight * sum;
        column++;
      }
    }
  }

  /** Reads a harmonic as narrowly as the mains' wander allows. */
  private void fill(int k, LineSpectrum fine, double wander, boolean pausing) {
    int spread = (int) Math.ceil(k * wander / fine.binWidth());
    MeanPower line = fine.line(k * fundamental, LineSpectrum.LOBE + spread);
    // hum does not pause: what is heard only now and then is none. Beside the steady line of a
    // radio's frames it beats, which is no pause
    double value = pausing ? Math.min(line.value(), 1.2 * quietBlocks(k)) : line.value();
    Arrays.fill(harmonic[k - 1], value);
    Arrays.fill(weighted[k - 1], AWeighting.power(k * fundamental) * value);
    double doubt = value < line.value() ? Math.max(line.sd(), value) : line.sd();
    uncertain[k - 1] = radio.isPresent() ? Math.hypot(doubt, skirts(k)) : doubt;
    for (int b = 0; b < beside.length; b++) {
      beside[b][k - 1] =
          fine.line((k + BESIDE[b]) * fundamental, LineSpectrum.LOBE + spread).value();
    }
  }

  /** Power about a harmonic, noise and all, in the quieter blocks. */
  private double quietBlocks(int k) {
    int centre = (int) Math.round(k * fundamental / spectra.binWidth());
    double[] sums = new double[harmonic[0].length];
    int column = 0;
    for (int block = 0; block < spectra.blocks(); block++) {
      if (keep[block]) {
        for (int bin = centre - BlockSpectra.LOBE; bin <= centre + BlockSpectra.LOBE; bin++) {
          sums[column] += spectra.power(block, bin);
        }
        column++;
      }
    }
    Arrays.sort(sums);
    return sums[sums.length / 4];
  }

  /**
   * Mean noise of a bin beside a line, from both sides; where the sides differ, something else
   * stands on the louder one, and the quieter counts. The feet of bursts fall off steadily, so with
   * them it is the mean.
   */
  private double noise(double below, double above) {
    boolean alike = below < 2 * above && above < 2 * below;
    return alike || radio.isPresent() ? (below + above) / 2 : Math.min(below, above);
  }

  private double meanBetween(int from, int to) {
    double sum = 0;
    int count = 0;
    for (int bin = Math.max(1, from); bin <= Math.min(to, mean.length - 1); bin++) {
      if (clearOfRadio(bin)) {
        sum += mean[bin];
        count++;
      }
    }
    return count > 0 ? sum / count : mean[Math.max(1, Math.min(mean.length - 1, from))];
  }

  /** Noise between the lines, in power per bin, per third-octave band. */
  private double[] hissDensity() {
    double[] perBand = new double[ThirdOctaves.HIGHEST - ThirdOctaves.LOWEST + 1];
    double[] values = new double[mean.length];
    double last = 0;
    for (int n = ThirdOctaves.LOWEST; n <= ThirdOctaves.HIGHEST; n++) {
      int count = 0;
      int from = (int) Math.ceil(ThirdOctaves.lowerEdge(n) / spectra.binWidth());
      int to = (int) Math.floor(ThirdOctaves.upperEdge(n) / spectra.binWidth());
      for (int bin = from; bin <= Math.min(to, mean.length - 1); bin++) {
        if (clear(bin)) {
          values[count++] = mean[bin];
        }
      }
      if (count > 0) {
        last = bulk(values, count);
      }
      perBand[n - ThirdOctaves.LOWEST] = last;
    }
    return perBand;
  }

  /** Whether a bin lies clear of every harmonic of the mains. */
  private boolean clear(int bin) {
    double inBins = fundamental / spectra.binWidth();
    double distance = Math.abs(bin - inBins * Math.round(bin / inBins));
    return distance >= CLEAR;
  }

  /** Mean of the values below 2.5 times their median: other lines do not count. */
  private static double bulk(double[] values, int count) {
    double[] some = java.util.Arrays.copyOf(values, count);
    double limit = 2.5 * OrderStatistics.median(some);
    double sum = 0;
    int kept = 0;
    for (double value : some) {
      if (value <= limit) {
        sum += value;
        kept++;
      }
    }
    return sum / Math.max(1, kept);
  }

  /** Frequency of the fundamental [Hz]. */
  public double fundamental() {
    return fundamental;
  }

  /** Number of harmonics followed. */
  public int harmonics() {
    return harmonic.length;
  }

  /** Power of one harmonic. */
  public MeanPower harmonic(int k) {
    return widened(MeanPower.of(harmonic[k - 1]), uncertain[k - 1]);
  }

  private boolean clearOfRadio(int bin) {
    double hz = bin * spectra.binWidth();
    return radio.isEmpty() || radio.get().fromBursts(hz) > CLEAR * spectra.binWidth();
  }

  /**
   * What a phone's bursts may put on a harmonic: the foot of their nearest line, 24 dB down at 16
   * Hz, and the fence of weak lines 8.3 Hz apart that comes of their leaving out every 26th frame.
   */
  private double skirts(int k) {
    double hz = k * fundamental;
    double nearest = BurstSearch.RATE * Math.max(1, Math.round(hz / BurstSearch.RATE));
    int centre = (int) Math.round(nearest / spectra.binWidth());
    double line = 0;
    for (int bin = centre - 2; bin <= Math.min(centre + 2, mean.length - 1); bin++) {
      line += mean[bin];
    }
    double distance = Math.abs(nearest - hz);
    return line * Math.max(FENCE, Math.min(0.5, 1 / (distance * distance)));
  }

  private static MeanPower widened(MeanPower power, double sd) {
    return sd > 0 ? new MeanPower(power.value(), Math.hypot(power.sd(), sd)) : power;
  }

  /** Power of harmonics {@code from} to {@code to} together, some left out. */
  public MeanPower harmonics(int from, int to, boolean[] leftOut) {
    return sum(harmonic, from, to, leftOut, false);
  }

  /** The same with the A weighting. */
  public MeanPower weightedHarmonics(int from, int to, boolean[] leftOut) {
    return sum(weighted, from, to, leftOut, true);
  }

  private MeanPower sum(double[][] rows, int from, int to, boolean[] leftOut, boolean aWeighted) {
    double[] sum = new double[rows[0].length];
    double squares = 0;
    for (int k = from; k <= Math.min(to, rows.length); k++) {
      double weight = aWeighted ? AWeighting.power(k * fundamental) : 1;
      squares += leftOut[k - 1] ? 0 : Math.pow(weight * uncertain[k - 1], 2);
      for (int block = 0; !leftOut[k - 1] && block < sum.length; block++) {
        sum[block] += rows[k - 1][block];
      }
    }
    return widened(
        MeanPower.of(sum), Math.hypot(Math.sqrt(squares), stray(from, to, leftOut, aWeighted)));
  }

  /** What a radio may put on some harmonics together: as much as it puts beside them. */
  private double stray(int from, int to, boolean[] leftOut, boolean aWeighted) {
    double[] sums = new double[beside.length];
    for (int b = 0; b < sums.length; b++) {
      for (int k = from; k <= Math.min(to, uncertain.length); k++) {
        double weight = aWeighted ? AWeighting.power(k * fundamental) : 1;
        sums[b] += leftOut[k - 1] ? 0 : weight * beside[b][k - 1];
      }
      sums[b] = Math.abs(sums[b]);
    }
    return sums.length > 0 ? OrderStatistics.median(sums) : 0;
  }

  /** Power of the hiss from 20 Hz to 20 kHz. */
  public MeanPower hiss() {
    return hissBetween(HISS_FROM, HISS_TO, false);
  }

  /** The same with the A weighting. */
  public MeanPower weightedHiss() {
    return hissBetween(HISS_FROM, HISS_TO, true);
  }

  /**
   * Power of the hiss in the ear's band about a harmonic: it covers a line that is weaker. The band
   * is 100 Hz wide up to 500 Hz, a fifth of the frequency above (Zwicker and Fastl,
   * Psychoacoustics, chapter 6, from memory).
   */
  public double hissAbout(int k) {
    double hz = k * fundamental;
    double from = Math.max(HISS_FROM, hz - Math.max(50, hz / 10));
    double width = Math.max(100, hz / 5);
    return hissBetween(from, from + width, false).value();
  }

  /** Power of the hiss between two frequencies [Hz]. */
  public MeanPower hiss(double lowHz, double highHz) {
    return hissBetween(lowHz, highHz, false);
  }

  private MeanPower hissBetween(double lowHz, double highHz, boolean aWeighted) {
    double sum = 0;
    double variance = 0;
    double binWidth = spectra.binWidth();
    double top = Math.min(highHz, spectra.rate() / 2);
    int kept = harmonic[0].length;
    for (int n = ThirdOctaves.LOWEST; n <= ThirdOctaves.HIGHEST + 1; n++) {
      double from = n == ThirdOctaves.LOWEST ? 0 : ThirdOctaves.lowerEdge(n);
      double to = Math.min(top, ThirdOctaves.upperEdge(n));
      from = Math.max(lowHz, from);
      if (to > from) {
        int band = Math.min(n, ThirdOctaves.HIGHEST) - ThirdOctaves.LOWEST;
        double weight = aWeighted ? AWeighting.power(Math.sqrt(from * to)) : 1;
        double share = weight * density[band] * (to - from) / binWidth;
        sum += share;
        // relative variance of a band's mean is one over bandwidth times time; a share of the
        // bins is used, and blocks are half a second, a third of it new
        double time = Math.max(1, kept / 3.0) * BlockSpectra.BLOCK;
        variance += share * share / Math.max(1, 0.4 * (to - from) * time);
      }
    }
    return new MeanPower(sum, Math.sqrt(variance));
  }

  /** Power of everything from 20 Hz to 20 kHz. */
  public MeanPower total() {
    return total;
  }

  /** The same with the A weighting. */
  public MeanPower weightedTotal() {
    return weightedTotal;
  }

  /** Power of everything, block by block, plain and A-weighted. */
  private void everything(double[] plain, double[] aWeighted) {
    double binWidth = spectra.binWidth();
    int from = (int) Math.ceil(HISS_FROM / binWidth);
    int to = (int) Math.min(mean.length - 1.0, HISS_TO / binWidth);
    double[] weight = new double[to + 1];
    for (int bin = from; bin <= to; bin++) {
      weight[bin] = AWeighting.power(bin * binWidth);
    }
    int column = 0;
    for (int block = 0; block < spectra.blocks(); block++) {
      if (keep[block]) {
        double sum = 0;
        double weightedSum = 0;
        for (int bin = from; bin <= to; bin++) {
          double power = spectra.power(block, bin);
          sum += power;
          weightedSum += weight[bin] * power;
        }
        plain[column] = sum;
        aWeighted[column] = weightedSum;
        column++;
      }
    }
  }

  /** Mean power of every bin over the blocks that count; read-only. */
  public double[] mean() {
    return mean;
  }

  /** Spacing of the bins of {@link #mean} [Hz]. */
  public double binWidth() {
    return spectra.binWidth();
  }
}

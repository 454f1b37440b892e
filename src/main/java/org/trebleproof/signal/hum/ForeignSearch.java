package org.trebleproof.signal.hum;

import java.util.Arrays;
import java.util.HashSet;
import java.util.Optional;
import java.util.Set;
import org.trebleproof.signal.FullScale;
import org.trebleproof.signal.OrderStatistics;
import org.trebleproof.signal.hum.ForeignSound.Kind;

/**
 * Looks for sounds that silence does not hold: played strings, speech, sweeps, test tones, noise
 * from a speaker, clicks.
 *
 * <p>In silence there is hum, whose lines stand still on the mains' harmonics; hiss, which is
 * smooth and stands still; radio, which keeps to its clocks or is weak; and accidents, a string
 * brushed or a knock, after which silence returns. What fits none of these, and is louder than they
 * are, is foreign. The limits in dBFS are common practice, no source.
 */
final class ForeignSearch {

  /** What comes and goes without a radio's clock is foreign from here on. */
  private static final double LOUD = FullScale.meanSquare(-46);

  /** Accidents leave more of the time than this. */
  private static final double MOST_OF_THE_TIME = 0.65;

  /** So many loud beginnings are no accident. */
  private static final int LEAST_BEGINNINGS = 3;

  /** Where the blocks about a beginning hold less than this, it is none. */
  private static final double LEAST_BEGUN = FullScale.meanSquare(-54);

  /** A loud band comes at a time of its own: in so many half seconds of the recording. */
  private static final int LEAST_TIMES = 4;

  private static final int LEAST_LOUD_BANDS = 6;

  /** No input hisses louder, however high its gain. */
  private static final double LOUD_NOISE = FullScale.meanSquare(-32);

  /** An input's hiss does not fall with pitch; from here on noise that does is foreign. */
  private static final double FALLING_NOISE = FullScale.meanSquare(-52);

  /**
   * Density from 40 to 160 Hz over that from 640 to 2560 Hz, 8 dB as a power: pink noise has 12.
   */
  private static final double FALL = 6.3;

  private static final double[] LOW_END = {40, 160};
  private static final double[] MIDDLE = {640, 2560};

  /** Tones weaker than this trouble nobody. */
  private static final double FAINT = FullScale.meanSquare(-78);

  /** Tones from here on are foreign beside any hum: no supply whistles so loud into an input. */
  private static final double LOUD_TONE = FullScale.meanSquare(-55);

  /** What a radio's clock leaves beside its lines at most, as a share of their power. */
  private static final double BESIDE_RADIO = 0.3;

  /** Hum does not die away; a string's line falls in each third by more than this, as a power. */
  private static final double DYING = 1.6;

  /** A tone is foreign that stands above hum, hiss and radio by 10 dB, as a power. */
  private static final double ABOVE = 10;

  /** Silence fills so much of a recording at least, accidents or not. */
  private static final double QUIETEST = 0.4;

  /** Power over the median around at which a bin stands out; noise gets there in 2 of 100000. */
  private static final double STANDS_OUT = 16;

  /** Bins either side that count as around. */
  private static final int AROUND = 40;

  /**
   * Mains whose harmonics together are weaker than this share of its strongest line is none: that
   * is a distortion of 0.3 %, and a grid has several (EN 50160 allows 8; the rest common practice,
   * no source).
   */
  private static final double PURE = 1e-5;

  private static final double LOWEST_HZ = 22;
  private static final double HIGHEST_HZ = 16000;
  private static final int BANDS = 29;
  private static final int HARMONICS = 40;

  /** Rise over the blocks' quieter ones from which a band has changed, as a power. */
  private static final double CHANGED = 3;

  private final BlockSpectra spectra;
  private final Optional<Double> fundamental;
  private final RadioSounds radio;
  private final int[] edges = new int[BANDS + 1];
  private final boolean[] ofRadio;
  private final boolean[] ofMains;

  /** Power of each band and block, a radio's lines left out. */
  private final double[][] power;

  /** Power of each block that stands out of its surroundings and is neither mains nor radio. */
  private final double[] tonal;

  /** Power of each block over that of the band in its quieter blocks, all bands together. */
  private final double[] changing;

  /** Noise of each band, from the medians of its quieter blocks. */
  private final double[] noise = new double[BANDS];

  /**
   * Prepares the search.
   *
   * @param fundamental frequency of the mains, if there is one in the recording [Hz]
   * @param radio what is heard of radio
   */
  ForeignSearch(BlockSpectra spectra, Optional<Double> fundamental, RadioSounds radio) {
    this.spectra = spectra;
    this.fundamental = fundamental;
    this.radio = radio;
    int blocks = spectra.blocks();
    ofRadio = new boolean[spectra.bins()];
    ofMains = new boolean[spectra.bins()];
    power = new double[BANDS][blocks];
    tonal = new double[blocks];
    changing = new double[blocks];
    for (int band = 0; band <= BANDS; band++) {
      double hz = LOWEST_HZ * Math.pow(HIGHEST_HZ / LOWEST_HZ, (double) band / BANDS);
      edges[band] = Math.min(spectra.bins(), (int) Math.ceil(hz / spectra.binWidth()));
    }
    mask();
    for (int band = 0; band < BANDS; band++) {
      double[] medians = new double[blocks];
      for (int block = 0; block < blocks; block++) {
        medians[block] = read(band, block);
      }
      noise[band] = quantile(medians, 0.25) / Math.log(2) * (edges[band + 1] - edges[band]);
      double quiet = quantile(power[band], 0.2);
      for (int block = 0; block < blocks; block++) {
        changing[block] += Math.max(0, power[band][block] - CHANGED * quiet);
      }
    }
  }

  private void mask() {
    double reach = (BlockSpectra.LOBE + 1) * spectra.binWidth();
    Optional<Frames> frames = radio.frames().or(radio::unclear);
    for (int bin = 0; bin < ofRadio.length; bin++) {
      double hz = bin * spectra.binWidth();
      ofRadio[bin] =
          radio.fromBursts(hz) < reach || frames.isPresent() && frames.get().covers(hz, reach);
      if (fundamental.isPresent() && hz < HumSpectrum.HIGHEST_HARMONIC) {
        double f = fundamental.get();
        ofMains[bin] = Math.abs(hz - f * Math.max(1, Math.rint(hz / f))) < reach;
      }
    }
  }

  /** Adds up a band of a block; the median of its bins that are clear of mains and radio. */
  private double read(int band, int block) {
    int from = Math.max(1, Math.min(edges[band], (edges[band] + edges[band + 1]) / 2 - AROUND));
    int to = Math.max(edges[band + 1], (edges[band] + edges[band + 1]) / 2 + AROUND);
    double[] clear = new double[to - from];
    int count = 0;
    for (int bin = from; bin < Math.min(to, spectra.bins()); bin++) {
      if (!ofRadio[bin] && !ofMains[bin]) {
        clear[count++] = spectra.power(block, bin);
      }
    }
    double median = count > 0 ? OrderStatistics.median(Arrays.copyOf(clear, count)) : 0;
    for (int bin = edges[band]; bin < edges[band + 1]; bin++) {
      double here = spectra.power(block, bin);
      power[band][block] += ofRadio[bin] ? 0 : here;
      boolean stands = count > 0 && here > STANDS_OUT * median;
      tonal[block] += stands && !ofRadio[bin] && !ofMains[bin] ? here : 0;
    }
    return median;
  }

  /**
   * Searches.
   *
   * @param beginnings the loud beginnings in the recording [s]
   */
  Optional<ForeignSound> search(double[] beginnings) {
    double loudest = Arrays.stream(changing).max().orElse(0);
    double hiss = Arrays.stream(noise).sum();
    if (loudest > LOUD && swept()) {
      return Optional.of(new ForeignSound(Kind.SWEEP, loudest, 0));
    }
    long loud = Arrays.stream(changing).filter(v -> v > LOUD).count();
    if (loud > MOST_OF_THE_TIME * changing.length || begun(beginnings) >= LEAST_BEGINNINGS) {
      return Optional.of(new ForeignSound(Kind.CHANGING, loudest, 0));
    }
    double[] lines = lines();
    double hum = Arrays.stream(lines).sum();
    if (hum > Math.max(FAINT, hiss) && dying(lines)) {
      return Optional.of(new ForeignSound(Kind.CHANGING, Math.max(loudest, hum), 0));
    }
    double quiet = quietestTones();
    boolean beyondRadio = quiet > BESIDE_RADIO * radio.power().value();
    boolean still = quiet > loudest / ABOVE;
    // Still or dying away: a note that rings on to the end leaves no silence either.
    boolean above = quiet > FAINT && quiet > ABOVE * Math.max(hum, hiss);
    if (beyondRadio && (above || quiet > LOUD_TONE && quiet > hiss)) {
      return Optional.of(
          still
              ? new ForeignSound(Kind.TONE, quiet, strongest())
              : new ForeignSound(Kind.CHANGING, loudest, 0));
    }
    double top = Arrays.stream(lines).max().orElse(0);
    if (top > FAINT && hum - top < PURE * top && hiss < top) {
      int harmonic = 1;
      while (lines[harmonic] < top) {
        harmonic++;
      }
      return Optional.of(new ForeignSound(Kind.PURE_TONE, top, harmonic * fundamental.get()));
    }
    boolean falling = density(LOW_END) > FALL * density(MIDDLE);
    if (hiss > LOUD_NOISE || hiss > FALLING_NOISE && falling) {
      return Optional.of(new ForeignSound(Kind.NOISE, hiss, 0));
    }
    return Optional.empty();
  }

  /** Whether bands are loud one after the other; a knock or a string begins in all at once. */
  private boolean swept() {
    Set<Long> times = new HashSet<>();
    int bands = 0;
    for (double[] band : power) {
      int at = 0;
      for (int block = 1; block < band.length; block++) {
        at = band[block] > band[at] ? block : at;
      }
      if (band[at] > LOUD && band[at] > CHANGED * quantile(band, 0.2)) {
        bands++;
        times.add((long) (spectra.middle(at) / BlockSpectra.BLOCK));
      }
    }
    return bands >= LEAST_LOUD_BANDS && times.size() >= LEAST_TIMES && inOrder();
  }

  /** Whether the loud bands follow each other upwards or downwards. */
  private boolean inOrder() {
    int up = 0;
    int down = 0;
    int last = -1;
    for (double[] band : power) {
      int at = 0;
      for (int block = 1; block < band.length; block++) {
        at = band[block] > band[at] ? block : at;
      }
      if (band[at] > LOUD) {
        up += last >= 0 && at >= last ? 1 : 0;
        down += last >= 0 && at < last ? 1 : 0;
        last = at;
      }
    }
    return Math.max(up, down) > 3 * Math.min(up, down);
  }

  /** How many of the beginnings are heard beside a radio's lines as well. */
  private int begun(double[] beginnings) {
    int count = 0;
    for (double time : beginnings) {
      double after = changing[spectra.blockAt(time + BlockSpectra.BLOCK / 4)];
      double before = changing[spectra.blockAt(time - BlockSpectra.BLOCK)];
      boolean own = !radio.phone().found() || after > 2 * before;
      count += own && after > LEAST_BEGUN ? 1 : 0;
    }
    return count;
  }

  /** Whether the strongest line falls from third to third of the recording, as a string's does. */
  private boolean dying(double[] lines) {
    int strongest = 1;
    for (int k = 2; k < lines.length; k++) {
      strongest = lines[k] > lines[strongest] ? k : strongest;
    }
    double[] series = line(strongest);
    int third = series.length / 3;
    double before = Double.POSITIVE_INFINITY;
    for (int part = 0; part < 3; part++) {
      double here = quantile(Arrays.copyOfRange(series, part * third, (part + 1) * third), 0.5);
      if (here * DYING > before) {
        return false;
      }
      before = here;
    }
    return true;
  }

  /** Mean of what stands out, over the blocks with least of it. */
  private double quietestTones() {
    double[] sorted = tonal.clone();
    Arrays.sort(sorted);
    int count = Math.max(1, (int) (QUIETEST * sorted.length));
    return Arrays.stream(sorted, 0, count).average().orElse(0);
  }

  /** Frequency of the strongest line that is neither mains nor radio [Hz]. */
  private double strongest() {
    boolean[] all = new boolean[spectra.blocks()];
    Arrays.fill(all, true);
    double[] mean = spectra.mean(all);
    int top = edges[0];
    for (int bin = edges[0]; bin < edges[BANDS]; bin++) {
      top = !ofRadio[bin] && !ofMains[bin] && mean[bin] > mean[top] ? bin : top;
    }
    return top * spectra.binWidth();
  }

  /** Power of each of the mains' harmonics in the quieter blocks; the first element is 0. */
  private double[] lines() {
    double[] lines = new double[HARMONICS + 1];
    for (int k = 1; fundamental.isPresent() && k <= HARMONICS; k++) {
      lines[k] = quantile(line(k), 0.25);
    }
    return lines;
  }

  /** Power of one of the mains' harmonics, block by block. */
  private double[] line(int k) {
    double[] series = new double[spectra.blocks()];
    int centre = (int) Math.round(k * fundamental.orElseThrow() / spectra.binWidth());
    for (int block = 0; block < series.length; block++) {
      for (int bin = centre - BlockSpectra.LOBE; bin <= centre + BlockSpectra.LOBE; bin++) {
        series[block] += spectra.power(block, bin);
      }
    }
    return series;
  }

  /** Mean power of the noise in a bin between two frequencies. */
  private double density(double[] between) {
    double sum = 0;
    int bins = 0;
    for (int band = 0; band < BANDS; band++) {
      double hz = edges[band] * spectra.binWidth();
      if (hz >= between[0] && hz < between[1]) {
        sum += noise[band];
        bins += edges[band + 1] - edges[band];
      }
    }
    return sum / Math.max(1, bins);
  }

  private static double quantile(double[] values, double share) {
    return OrderStatistics.select(values.clone(), (int) (share * (values.length - 1)));
  }
}

package org.trebleproof.signal;

/** A recording of silence, cut into blocks, its steady part known. */
public final class QuietTake {

  /** Shortest recording that can be judged [s]. */
  public static final double SHORTEST = 3;

  /** Fewer blocks than these say little about their own scatter. */
  private static final int LEAST_BLOCKS = 8;

  private final double[] samples;
  private final BlockSpectra spectra;
  private final BlockSpectra pulsation;
  private final boolean[] steady;

  /**
   * Cuts a recording up.
   *
   * @param samples full scale 1, at least {@link #SHORTEST} long
   * @param rate sample rate [Hz]
   */
  public QuietTake(float[] samples, double rate) {
    this.samples = new double[samples.length];
    for (int i = 0; i < samples.length; i++) {
      this.samples[i] = samples[i];
    }
    spectra = BlockSpectra.of(this.samples, rate);
    pulsation = BurstSearch.pulsation(this.samples, rate);
    steady = SteadyBlocks.of(spectra);
  }

  /** Prepares the search for the mains. */
  public MainsSearch mainsSearch() {
    return MainsSearch.in(samples, spectra, steady);
  }

  /**
   * Takes the steady part apart. Where a phone pauses long enough, only the pauses count.
   *
   * @param fundamental frequency of the mains [Hz]
   * @param bursts a phone's bursts as found
   */
  public HumSpectrum spectrum(double fundamental, BurstSearch.Bursts bursts) {
    boolean[] pauses = steady.clone();
    int count = 0;
    for (int block = 0; block < pauses.length; block++) {
      pauses[block] &= !bursts.blocks()[block];
      count += pauses[block] ? 1 : 0;
    }
    boolean enough = count >= LEAST_BLOCKS;
    return new HumSpectrum(
        spectra, enough ? pauses : steady, fundamental, bursts.found() && !enough);
  }

  /** Looks for a phone's bursts, given the frequency of the mains [Hz]. */
  public BurstSearch.Bursts bursts(double fundamental) {
    return BurstSearch.in(spectra, pulsation, fundamental);
  }

  /** Share of the recording that is steady, 0 to 1. */
  public double steadyShare() {
    int count = 0;
    for (boolean block : steady) {
      count += block ? 1 : 0;
    }
    return (double) count / steady.length;
  }

  /** Mean square of the loudest stretch of 0.4 s, for a strike as level reference. */
  public double loudest() {
    return loudest(samples, spectra.rate());
  }

  /** A-weighted over plain power of the loudest block, which is that stretch, about. */
  public double weightedShareOfLoudest() {
    int loudest = 0;
    double most = 0;
    for (int block = 0; block < spectra.blocks(); block++) {
      double power = spectra.between(block, 20, 20000);
      if (power > most) {
        most = power;
        loudest = block;
      }
    }
    double weighted = 0;
    for (int bin = 1; bin < spectra.bins() && bin * spectra.binWidth() <= 20000; bin++) {
      weighted += AWeighting.power(bin * spectra.binWidth()) * spectra.power(loudest, bin);
    }
    return weighted / most;
  }

  /**
   * Mean square of the loudest stretch of 0.4 s, the block length of ITU-R BS.1770-4, annex 1, for
   * momentary levels.
   */
  static double loudest(double[] samples, double rate) {
    int length = (int) Math.min(samples.length, Math.round(0.4 * rate));
    double sum = 0;
    double most = 0;
    for (int i = 0; i < samples.length; i++) {
      sum += samples[i] * samples[i];
      if (i >= length) {
        sum -= samples[i - length] * samples[i - length];
      }
      if (i >= length - 1) {
        most = Math.max(most, sum);
      }
    }
    return most / length;
  }
}

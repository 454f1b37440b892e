package org.trebleproof.signal.strike;

import java.util.ArrayList;
import java.util.List;
import org.trebleproof.signal.RealFft;

/**
 * Third-octave levels of one strike, for scrapes over muted strings and strums, which have no
 * partials to follow. Bands as in IEC 61260-1, base ten.
 *
 * @param bands ascending
 */
public record BroadbandLevels(List<Band> bands) {

  private static final double LENGTH = 0.25;
  private static final int LOWEST = -9;
  private static final int HIGHEST = 11;
  private static final double WIDTH = Math.pow(10, 0.05);

  public BroadbandLevels {
    bands = List.copyOf(bands);
  }

  /**
   * One band.
   *
   * @param hz its middle [Hz]
   * @param level root of its energy after the onset [dB]
   * @param noise the same before the strike, as a share
   */
  public record Band(double hz, double level, double noise) {}

  /**
   * Measures one strike.
   *
   * @param samples the recording
   * @param rate [Hz]
   * @param place the strike
   */
  public static BroadbandLevels of(float[] samples, double rate, StrikeSpan place) {
    int window = (int) Math.min(LENGTH * rate, place.end() - place.onset());
    double[] after = power(samples, place.onset() - (int) (0.002 * rate), window);
    double[] before = power(samples, place.onset() - window - (int) (0.004 * rate), window);
    List<Band> bands = new ArrayList<>();
    for (int n = LOWEST; n <= HIGHEST; n++) {
      double hz = 1000 * Math.pow(10, n / 10.0);
      int a = (int) Math.ceil(hz / WIDTH * window / rate);
      int b = (int) Math.floor(hz * WIDTH * window / rate);
      if (b >= after.length) {
        break;
      }
      double signal = 1e-24;
      double noise = 0;
      for (int k = a; k <= b; k++) {
        signal += after[k];
        noise += before[k];
      }
      bands.add(new Band(hz, 10 * Math.log10(signal), Math.sqrt(noise / signal)));
    }
    return new BroadbandLevels(bands);
  }

  private static double[] power(float[] samples, int from, int window) {
    double[] x = new double[window];
    for (int i = 0; i < window; i++) {
      int at = from + i;
      // starts with full weight, since a scrape's energy comes first; fades out
      double c = i < window / 2 ? 1 : Math.cos(Math.PI * (i - window / 2.0) / window);
      x[i] = at >= 0 && at < samples.length ? samples[at] * c * c : 0;
    }
    double[] re = new double[window / 2 + 1];
    double[] im = new double[window / 2 + 1];
    RealFft.ofLength(window).forward(x, re, im);
    double[] power = new double[re.length];
    for (int k = 0; k < re.length; k++) {
      power[k] = (re[k] * re[k] + im[k] * im[k]) / ((double) window * window);
    }
    return power;
  }
}

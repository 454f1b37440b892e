package org.trebleproof.quantity;

import java.util.Arrays;

/**
 * A complex frequency response, measured or modelled. The arrays are shared, not copied: treat them
 * as read-only.
 *
 * @param hz frequencies, ascending [Hz]
 * @param re real parts
 * @param im imaginary parts
 * @param sd standard deviation of the real part and, equally, of the imaginary part of each value
 *     (0 throughout for a modelled response)
 */
public record Response(double[] hz, double[] re, double[] im, double[] sd) {

  public Response {
    if (re.length != hz.length || im.length != hz.length || sd.length != hz.length) {
      throw new IllegalArgumentException("a response needs arrays of one length");
    }
  }

  /** Number of frequencies. */
  public int size() {
    return hz.length;
  }

  /** Magnitude of value {@code i}. */
  public double magnitude(int i) {
    return Math.hypot(re[i], im[i]);
  }

  /** The same with another gain. */
  public Response times(double gain) {
    return gain == 1
        ? this
        : new Response(hz, times(re, gain), times(im, gain), times(sd, Math.abs(gain)));
  }

  private static double[] times(double[] values, double gain) {
    return Arrays.stream(values).map(v -> v * gain).toArray();
  }

  /** Level of value {@code i} [dB]. */
  public double level(int i) {
    return 20 * Math.log10(magnitude(i));
  }

  /** Phase of value {@code i} [rad]. */
  public double phase(int i) {
    return Math.atan2(im[i], re[i]);
  }
}

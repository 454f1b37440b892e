package org.trebleproof.signal.hum;

/**
 * A comb of sharp lines at the multiples of a radio's frame clock.
 *
 * @param clock the clock
 * @param offset of the recorder's clock against it, relative
 * @param hits lines that stand out
 */
public record Frames(FrameClock clock, double offset, int hits) {

  /** Frames per second as the recorder counts them [Hz]. */
  public double rate() {
    return clock.rate() * (1 + offset);
  }

  /** Distance to the nearest line of the comb [Hz]. */
  double from(double hz) {
    return Math.abs(hz - rate() * Math.max(1, Math.round(hz / rate())));
  }

  /** Whether a frequency lies on the comb, within {@code reach} Hz. */
  boolean covers(double hz, double reach) {
    return from(hz) < reach;
  }
}

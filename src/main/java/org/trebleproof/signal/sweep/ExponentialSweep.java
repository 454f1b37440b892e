package org.trebleproof.signal.sweep;

/**
 * An exponential sweep as a stimulus.
 *
 * <p>Plain: sin(2 pi f1 L (exp(t/L) - 1)), Farina, 108th AES Convention, 2000, preprint 5093,
 * section 4. Synchronised: sin(2 pi f1 L exp(t/L)) with f1 L a whole number, so that it starts at
 * phase zero and its harmonics are in step with it; Novak, Lotton and Simon, "Synchronized
 * Swept-Sine: Theory, Application, and Implementation", J. Audio Eng. Soc. 63(10), 2015, 786-798.
 */
public final class ExponentialSweep {

  /** Length of the raised-cosine fades [s]. */
  public static final double FADE = 0.02;

  private final SweepLaw law;
  private final double seconds;
  private final double sampleRate;
  private final boolean synchronised;

  private ExponentialSweep(SweepLaw law, double seconds, double sampleRate, boolean synchronised) {
    if (!(law.startHz() > 0)
        || !(law.endHz() > law.startHz())
        || !(law.endHz() <= sampleRate / 2)
        || !(seconds > 2 * FADE)) {
      throw new IllegalArgumentException(
          "a sweep needs 0 < start < end <= half the sample rate and some length, not "
              + law
              + " in "
              + seconds
              + " s at "
              + sampleRate
              + " Hz");
    }
    this.law = law;
    this.seconds = seconds;
    this.sampleRate = sampleRate;
    this.synchronised = synchronised;
  }

  /** A plain sweep from {@code startHz} to {@code endHz} that lasts {@code seconds}. */
  public static ExponentialSweep plain(
      double startHz, double endHz, double seconds, double sampleRate) {
    double rate = seconds / Math.log(endHz / startHz);
    return new ExponentialSweep(new SweepLaw(startHz, endHz, rate), seconds, sampleRate, false);
  }

  /** A synchronised sweep that lasts nearly {@code seconds}: its rate is rounded to fit. */
  public static ExponentialSweep synchronised(
      double startHz, double endHz, double seconds, double sampleRate) {
    double octaves = Math.log(endHz / startHz);
    double rate = Math.max(1, Math.round(startHz * seconds / octaves)) / startHz;
    return new ExponentialSweep(
        new SweepLaw(startHz, endHz, rate), rate * octaves, sampleRate, true);
  }

  public SweepLaw law() {
    return law;
  }

  /** Duration [s]. */
  public double seconds() {
    return seconds;
  }

  /** Value at time {@code t} from the start, without fades, amplitude 1. */
  public double at(double t) {
    double cycles = law.startHz() * law.rate();
    double growth = synchronised ? Math.exp(t / law.rate()) : Math.expm1(t / law.rate());
    return Math.sin(2 * Math.PI * cycles * growth);
  }

  /** One sweep with fades, amplitude 1. */
  public double[] samples() {
    int n = (int) Math.round(seconds * sampleRate);
    int fade = (int) (FADE * sampleRate);
    double[] x = new double[n];
    for (int i = 0; i < n; i++) {
      int edge = Math.min(i, n - 1 - i);
      double gain = edge < fade ? 0.5 - 0.5 * Math.cos(Math.PI * edge / fade) : 1;
      x[i] = gain * at(i / sampleRate);
    }
    return x;
  }

  /**
   * The whole stimulus: silence, sweeps with a silence after each, silence.
   *
   * @param repeats number of sweeps, at least 1
   * @param amplitude peak, full scale 1
   * @param lead silence before the first sweep [s]
   * @param gap silence after each sweep [s]
   * @param tail silence after the last gap [s]
   */
  public float[] stimulus(int repeats, double amplitude, double lead, double gap, double tail) {
    double[] one = samples();
    int before = (int) Math.round(lead * sampleRate);
    int period = one.length + (int) Math.round(gap * sampleRate);
    float[] all = new float[before + repeats * period + (int) Math.round(tail * sampleRate)];
    for (int k = 0; k < repeats; k++) {
      int at = before + k * period;
      for (int i = 0; i < one.length; i++) {
        all[at + i] = (float) (amplitude * one[i]);
      }
    }
    return all;
  }

  /**
   * Spectrum of the endless synchronised sweep (equation 42 of the paper above), continuous
   * transform [s].
   *
   * @return real and imaginary part at {@code hz}
   */
  public double[] spectrum(double hz) {
    double size = 0.5 * Math.sqrt(law.rate() / hz);
    double phase = 2 * Math.PI * hz * law.rate() * (1 - Math.log(hz / law.startHz())) - Math.PI / 4;
    return new double[] {size * Math.cos(phase), size * Math.sin(phase)};
  }
}

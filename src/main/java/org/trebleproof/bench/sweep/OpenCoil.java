package org.trebleproof.bench.sweep;

import java.util.Arrays;
import java.util.Locale;
import java.util.Optional;
import org.trebleproof.bench.job.Job;
import org.trebleproof.bench.job.Setup;
import org.trebleproof.bench.job.Slot;
import org.trebleproof.fixture.Fixture;
import org.trebleproof.quantity.Finding;
import org.trebleproof.quantity.FindingCode;
import org.trebleproof.quantity.Response;
import org.trebleproof.signal.OrderStatistics;

/**
 * A coil that passes no current: its wire is broken, or the lead to it. Through a series resistor a
 * whole one is its wire's resistance at the lowest frequencies, whatever hangs on it; a broken one
 * leaves the pots and the recorder's input. Under an exciter the voltage rises in step with
 * frequency there; what leaps a break as through a small capacitor, into the resistance behind it,
 * rises with its square.
 */
public final class OpenCoil {

  /** Where a coil is little more than its resistance [Hz]. */
  private static final double LOWEST_HZ = 30;

  private static final double HIGHEST_HZ = 150;

  /** Far below the resonance of any coil under a lead, and often above the noise [Hz]. */
  private static final double HIGHEST_UNDER_EXCITER_HZ = 500;

  /** No coil of a guitar has half as much there, inductance included [ohm]. */
  private static final double NO_COIL = 100e3;

  private static final double QUARTER = 0.25;

  /** Pots are up to so much larger than marked; common practice, no source. */
  private static final double POT_SPREAD = 1.2;

  private static final int LEAST_POINTS = 6;

  /** Between one, a whole coil's, and two, a broken one's: voltage over frequency as a power. */
  private static final double STEEP = 1.35;

  /** Variance over power up to which a point says something. */
  private static final double HEARD = 0.05;

  private OpenCoil() {}

  /** The finding, where there is no coil to be seen with all controls full up. */
  public static Optional<Finding> of(Job job, CaptureReading reading) {
    return of(job, reading.entry().id(), reading.entry().setup(), reading.measured());
  }

  /**
   * The same of a capture that was read before.
   *
   * @param capture its id
   * @param wired its setup
   */
  public static Optional<Finding> of(Job job, String capture, String wired, Response r) {
    Setup setup = job.setups().get(wired);
    boolean turned =
        setup.volume().filter(v -> v.rotation() < 1).isPresent()
            || !setup.extras().pots().isEmpty()
            // A bass cut lets no low note through, however whole the coil is.
            || setup.extras().parts().containsKey(Slot.BASS_CAPACITOR);
    if (turned) {
      return Optional.empty();
    }
    if (job.fixture() instanceof Fixture.Series series) {
      return throughResistor(series, capture, r, most(job, setup));
    }
    return job.fixture() instanceof Fixture.Exciter ? underExciter(capture, r) : Optional.empty();
  }

  /** What a whole coil may be there, even behind a volume pot that was not full up [ohm]. */
  private static double most(Job job, Setup setup) {
    double input = job.fixture().input().resistance().value();
    return setup
        .volume()
        .flatMap(v -> job.parts().get(v.part()).marking())
        // Half of the track on either side of the wiper: a quarter of it, and the input beside it.
        .map(m -> POT_SPREAD / (1 / (QUARTER * m.value()) + 1 / input))
        .map(ohm -> Math.max(NO_COIL, ohm))
        .orElse(NO_COIL);
  }

  private static Optional<Finding> throughResistor(
      Fixture.Series series, String capture, Response r, double most) {
    double ratio = series.channels().map(c -> c.ratio().value()).orElse(1.0);
    double[] ohms = new double[r.size()];
    int count = 0;
    for (int i = 0; i < r.size(); i++) {
      if (r.hz()[i] >= LOWEST_HZ && r.hz()[i] <= HIGHEST_HZ) {
        double re = r.re()[i] / ratio;
        double im = r.im()[i] / ratio;
        ohms[count++] =
            series.seriesResistance().value() * Math.hypot(re, im) / Math.hypot(1 - re, im);
      }
    }
    if (count < LEAST_POINTS) {
      return Optional.empty();
    }
    double ohm = OrderStatistics.median(Arrays.copyOf(ohms, count));
    return ohm < most
        ? Optional.empty()
        : Optional.of(
            broken(
                capture,
                String.format(
                    Locale.ROOT,
                    "below 150 Hz there are %.0f kohm, as the recorder's input and pots leave; a"
                        + " whole coil has 20 at most",
                    ohm / 1000)));
  }

  private static Optional<Finding> underExciter(String capture, Response r) {
    double[] x = new double[r.size()];
    double[] y = new double[r.size()];
    int count = 0;
    for (int i = 0; i < r.size(); i++) {
      double power = r.re()[i] * r.re()[i] + r.im()[i] * r.im()[i];
      if (r.hz()[i] >= LOWEST_HZ
          && r.hz()[i] <= HIGHEST_UNDER_EXCITER_HZ
          && r.sd()[i] * r.sd()[i] < HEARD * power) {
        x[count] = Math.log(r.hz()[i]);
        y[count++] = Math.log(power) / 2;
      }
    }
    double slope = count < LEAST_POINTS ? 1 : slope(x, y, count);
    return slope < STEEP
        ? Optional.empty()
        : Optional.of(
            broken(
                capture,
                String.format(
                    Locale.ROOT,
                    "below 500 Hz it rises by %.0f dB per octave, as through a small capacitor; a"
                        + " whole coil's voltage rises by 6",
                    slope * 20 * Math.log10(2))));
  }

  private static double slope(double[] x, double[] y, int count) {
    double meanX = Arrays.stream(x, 0, count).average().orElse(0);
    double meanY = Arrays.stream(y, 0, count).average().orElse(0);
    double xy = 0;
    double xx = 0;
    for (int i = 0; i < count; i++) {
      xy += (x[i] - meanX) * (y[i] - meanY);
      xx += (x[i] - meanX) * (x[i] - meanX);
    }
    return xy / xx;
  }

  private static Finding broken(String capture, String evidence) {
    return Finding.of(
            FindingCode.NO_SIGNAL,
            "Capture "
                + capture
                + ": no current passes the coil, so its wire or the lead to it is broken.",
            evidence,
            "Read the coil with an ohmmeter at its own two wires: where that shows nothing,"
                + " look at the ends of the winding, else at the lead and its joints.")
        .in(capture);
  }
}

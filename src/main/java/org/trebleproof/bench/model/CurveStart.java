package org.trebleproof.bench.model;

import java.util.HashMap;
import java.util.Map;
import java.util.Optional;
import org.trebleproof.bench.job.CaptureEntry;
import org.trebleproof.bench.job.Job;
import org.trebleproof.bench.job.Part;
import org.trebleproof.bench.job.Setup;
import org.trebleproof.fixture.Fixture;
import org.trebleproof.quantity.Marking;
import org.trebleproof.quantity.Response;

/** Reads rough coil values off the measured curves, so that nobody is asked for start values. */
public final class CurveStart {

  private static final double USUAL_RESISTANCE = 7000;
  private static final double CORE_TIME = 8e-5;
  private static final double SMALL_DEPARTURE = 1e-4;

  private CurveStart() {}

  /** Start values of every pickup that was captured, by its name. */
  public static Map<String, CoilStart> of(Job job, Map<String, Response> measured) {
    Map<String, CoilStart> starts = new HashMap<>();
    for (Part part : job.parts().values()) {
      if (part.kind() != Part.Kind.PICKUP) {
        continue;
      }
      boolean captured =
          job.captures().stream()
              .anyMatch(
                  c ->
                      measured.containsKey(c.id())
                          && job.setups().get(c.setup()).pickup().equals(part.name()));
      if (captured) {
        starts.put(
            part.name(),
            job.fixture() instanceof Fixture.Series series
                ? series(job, part, series, measured)
                : exciter(job, part, measured));
      }
    }
    return starts;
  }

  private static double resistance(Job job, Part pickup, double otherwise) {
    if (pickup.marking().isPresent()) {
      return pickup.marking().get().value();
    }
    for (Setup setup : job.setups().values()) {
      if (setup.pickup().equals(pickup.name()) && setup.dcResistance().isPresent()) {
        double reading = setup.dcResistance().get().value();
        Optional<Double> pot = setup.volume().flatMap(v -> marked(job, v.part()));
        return pot.filter(p -> p > 2 * reading).map(p -> 1 / (1 / reading - 1 / p)).orElse(reading);
      }
    }
    return otherwise;
  }

  private static Optional<Double> marked(Job job, String part) {
    return job.parts().get(part).marking().map(Marking::value);
  }

  /** Capacitance that the job knows to be outside the pickup during a capture [F]. */
  private static double outside(Job job, CaptureEntry capture) {
    Setup setup = job.setups().get(capture.setup());
    double sum = job.fixture().input().capacitance().value();
    sum += setup.cable().flatMap(c -> marked(job, c)).orElse(0.0);
    for (String part : capture.across()) {
      Part.Kind kind = job.parts().get(part).kind();
      if (kind == Part.Kind.CAPACITOR || kind == Part.Kind.CABLE) {
        sum += marked(job, part).orElse(0.0);
      }
    }
    return sum;
  }

  private static CoilStart series(
      Job job, Part pickup, Fixture.Series fixture, Map<String, Response> measured) {
    CaptureEntry capture = simplest(job, pickup, measured);
    Setup setup = job.setups().get(capture.setup());
    double ratio = fixture.channels().map(c -> c.ratio().value()).orElse(1.0);
    JackAdmittance y =
        JackAdmittance.of(measured.get(capture.id()), ratio, 0, fixture.seriesResistance().value());
    double load = 1 / fixture.input().resistance().value();
    load += setup.volume().flatMap(v -> marked(job, v.part())).map(p -> 1 / p).orElse(0.0);
    double resistance = 0;
    double inductance = 0;
    int low = 0;
    int middle = 0;
    double top = 0;
    for (int i = 0; i < y.size(); i++) {
      double g = y.re()[i] - load;
      double b = y.im()[i];
      double power = g * g + b * b;
      double w = 2 * Math.PI * y.hz()[i];
      if (y.hz()[i] < 60 && g > 0) {
        resistance += g / power;
        low++;
      }
      if (y.hz()[i] > 150 && y.hz()[i] < 600 && b < 0) {
        inductance += -b / power / w;
        middle++;
      }
      top = Math.max(top, y.hz()[i]);
    }
    double r = resistance(job, pickup, low > 0 ? resistance / low : USUAL_RESISTANCE);
    double l = middle > 0 ? inductance / middle : 3;
    double c = capacitance(y, l);
    return new CoilStart(
        positive(r, USUAL_RESISTANCE),
        positive(l, 3),
        winding(c - outside(job, capture)),
        CORE_TIME,
        SMALL_DEPARTURE,
        pickup.marking());
  }

  /** Total capacitance from the frequency at which the admittance is real. */
  private static double capacitance(JackAdmittance y, double inductance) {
    for (int i = 1; i < y.size(); i++) {
      if (y.hz()[i] > 800 && y.im()[i - 1] < 0 && y.im()[i] >= 0) {
        double w = 2 * Math.PI * y.hz()[i];
        return 1 / (w * w * inductance);
      }
    }
    return 250e-12;
  }

  private static CaptureEntry simplest(Job job, Part pickup, Map<String, Response> measured) {
    return job.captures().stream()
        .filter(c -> measured.containsKey(c.id()))
        .filter(c -> job.setups().get(c.setup()).pickup().equals(pickup.name()))
        .min(java.util.Comparator.comparingDouble(c -> outside(job, c)))
        .orElseThrow();
  }

  private static CoilStart exciter(Job job, Part pickup, Map<String, Response> measured) {
    CaptureEntry base = simplest(job, pickup, measured);
    double square = SecondOrder.nearest(measured.get(base.id())).square();
    double known = outside(job, base);
    double inductance = square / (known + CoilKnowledge.USUAL_CAPACITANCE);
    double widest = 0;
    for (CaptureEntry other : job.captures()) {
      double more = outside(job, other) - known;
      if (measured.containsKey(other.id())
          && job.setups().get(other.setup()).pickup().equals(pickup.name())
          && more > Math.max(widest, 50e-12)) {
        widest = more;
        inductance = (SecondOrder.nearest(measured.get(other.id())).square() - square) / more;
      }
    }
    double l = positive(inductance, 3);
    return new CoilStart(
        resistance(job, pickup, USUAL_RESISTANCE),
        l,
        winding(square / l - known),
        CORE_TIME,
        SMALL_DEPARTURE,
        pickup.marking());
  }

  private static double positive(double value, double otherwise) {
    return value > 0.05 && value < 1e6 ? value : otherwise;
  }

  private static double winding(double capacitance) {
    return capacitance > 50e-12 && capacitance < 250e-12
        ? capacitance
        : CoilKnowledge.USUAL_CAPACITANCE;
  }
}

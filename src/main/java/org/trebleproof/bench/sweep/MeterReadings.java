package org.trebleproof.bench.sweep;

import java.util.ArrayList;
import java.util.List;
import org.trebleproof.bench.answer.FitResult;
import org.trebleproof.bench.job.Setup;
import org.trebleproof.bench.model.BenchUnknown;
import org.trebleproof.bench.model.JackAdmittance;
import org.trebleproof.bench.model.JobModel;
import org.trebleproof.bench.model.LocalCurve;
import org.trebleproof.fit.Posterior;
import org.trebleproof.quantity.Estimate;
import org.trebleproof.quantity.Known;
import org.trebleproof.quantity.Quantity;
import org.trebleproof.quantity.Response;
import org.trebleproof.quantity.RowKey;
import org.trebleproof.quantity.Subject;
import org.trebleproof.quantity.Unit;

/**
 * What a component meter would show at its usual test frequencies, straight from a series capture
 * and without any coil model: series inductance, series resistance and Q. Without a cable in the
 * setup the recorder's input is taken out; with one it belongs to the reading.
 */
public final class MeterReadings {

  private static final double[] TEST_HZ = {100, 120, 1000, 10000};
  private static final double NEIGHBOURHOOD = 0.2;

  private MeterReadings() {}

  /**
   * The readings, each with its frequency.
   *
   * @param posterior what the fit knows of the recording path
   * @param capture id of a series capture of the setup
   */
  public static List<FitResult.Row> of(
      JobModel model, Posterior posterior, Setup setup, String capture) {
    List<FitResult.Row> readings = new ArrayList<>();
    double[] x = model.asStated(posterior.mean());
    boolean bare = setup.cable().isEmpty();
    PathSpread spread = new PathSpread(model, posterior, bare, true);
    Response measured = model.observations().get(capture).measured();
    for (double f : TEST_HZ) {
      if (measured.size() < 8
          || measured.hz()[0] > f / 1.2
          || measured.hz()[measured.size() - 1] < f * 1.2) {
        continue;
      }
      Reading centre = read(model, x, capture, f, bare);
      double[] sd =
          spread
              .of(
                  moved -> {
                    Reading r = read(model, moved, capture, f, bare);
                    return new double[] {r.r, r.inductance(f), r.q()};
                  },
                  x)
              .sd();
      double r = Math.hypot(sd[0], centre.noiseR);
      double l = Math.hypot(sd[1], centre.noiseX / (2 * Math.PI * f));
      double q =
          Math.hypot(sd[2], Math.hypot(centre.noiseX, centre.q() * centre.noiseR) / centre.r);
      Subject subject = Subject.setup(setup.name());
      int hz = (int) Math.round(f);
      readings.add(
          new FitResult.Row(
              RowKey.of(subject, Quantity.SERIES_INDUCTANCE).at(hz),
              Estimate.normal(centre.inductance(f), l, Unit.HENRY, Known.MEASURED)));
      readings.add(
          new FitResult.Row(
              RowKey.of(subject, Quantity.SERIES_RESISTANCE).at(hz),
              Estimate.normal(centre.r, r, Unit.OHM, Known.MEASURED)));
      readings.add(
          new FitResult.Row(
              RowKey.of(subject, Quantity.SERIES_Q).at(hz),
              Estimate.normal(centre.q(), q, Unit.RATIO, Known.MEASURED)));
    }
    return readings;
  }

  private record Reading(double r, double x, double noiseR, double noiseX) {
    double inductance(double f) {
      return x / (2 * Math.PI * f);
    }

    double q() {
      return x / r;
    }
  }

  private static Reading read(JobModel model, double[] x, String capture, double f, boolean bare) {
    JackAdmittance y = model.jack(capture, x);
    // Admittance is what is interpolated: a coil's has no pole near any frequency, whereas its
    // impedance turns over within the neighbourhood of a resonance.
    LocalCurve conductance = LocalCurve.at(y.hz(), y.re(), y.sd(), f, NEIGHBOURHOOD, 3);
    LocalCurve susceptance = LocalCurve.at(y.hz(), y.im(), y.sd(), f, NEIGHBOURHOOD, 3);
    double w = 2 * Math.PI * f;
    double g =
        conductance.value() - (bare ? 1 / model.value(x, BenchUnknown.INPUT_RESISTANCE.key()) : 0);
    double b =
        susceptance.value() - (bare ? w * model.value(x, BenchUnknown.INPUT_CAPACITANCE.key()) : 0);
    double power = g * g + b * b;
    // d Z = -Z^2 d Y, and noise is as large in both parts of Y
    double noise = Math.max(conductance.sd(), susceptance.sd()) / power;
    return new Reading(g / power, -b / power, noise, noise);
  }
}

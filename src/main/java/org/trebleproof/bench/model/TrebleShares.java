package org.trebleproof.bench.model;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.trebleproof.bench.answer.FitResult;
import org.trebleproof.bench.job.Layout;
import org.trebleproof.bench.job.Setup;
import org.trebleproof.bench.job.Slot;
import org.trebleproof.circuit.Analysis;
import org.trebleproof.circuit.Circuit;
import org.trebleproof.circuit.Probe;
import org.trebleproof.fit.Posterior;
import org.trebleproof.quantity.Estimate;
import org.trebleproof.quantity.Known;
import org.trebleproof.quantity.Unit;

/**
 * Where the treble went: the loss of power in the band in which the ear is most sensitive, for each
 * load on its own and for all of them together, against the same coil with nothing connected.
 */
public final class TrebleShares {

  private static final double LOW_HZ = 2000;
  private static final double HIGH_HZ = 5000;
  private static final int POINTS = 33;

  private TrebleShares() {}

  public static Optional<FitResult.TrebleLoss> of(
      JobModel model, Posterior posterior, Setup setup) {
    Layout guitar =
        Layout.of(setup)
            .with(Slot.CABLE, (String) null)
            .with(Slot.INPUT, (String) null)
            .with(Slot.INPUT_CAPACITANCE, (String) null);
    boolean oneCoil = setup.extras().secondPickup().isEmpty() && !setup.extras().tapped();
    if (!oneCoil || !Layout.of(setup).loaded()) {
      return Optional.empty();
    }
    List<FitResult.TrebleLoss.Share> shares = new ArrayList<>();
    Layout bare = Layout.bare(setup.pickup());
    if (guitar.loaded()) {
      boolean onlyPots = setup.extras().parts().isEmpty();
      shares.add(share(onlyPots ? "pots" : "pots and wiring", model, posterior, setup, guitar));
    }
    if (setup.cable().isPresent()) {
      Layout lead = bare.with(Slot.CABLE, setup.cable().get());
      shares.add(share("cable", model, posterior, setup, lead));
    }
    Layout input =
        bare.with(Slot.INPUT, JobModel.INPUT_RESISTANCE)
            .with(Slot.INPUT_CAPACITANCE, JobModel.INPUT_CAPACITANCE);
    shares.add(share("recorder or amplifier input", model, posterior, setup, input));
    Layout all =
        Layout.of(setup)
            .with(Slot.INPUT, JobModel.INPUT_RESISTANCE)
            .with(Slot.INPUT_CAPACITANCE, JobModel.INPUT_CAPACITANCE);
    shares.add(share("all together", model, posterior, setup, all));
    return Optional.of(new FitResult.TrebleLoss(setup.name(), LOW_HZ, HIGH_HZ, shares));
  }

  private static FitResult.TrebleLoss.Share share(
      String name, JobModel model, Posterior posterior, Setup setup, Layout loaded) {
    Band with = new Band(model, model.circuit(loaded));
    Band without = new Band(model, model.circuit(Layout.bare(setup.pickup())));
    double[] mean = posterior.mean();
    double[] gWith = new double[mean.length];
    double[] gWithout = new double[mean.length];
    double loss = without.level(model, mean, gWithout) - with.level(model, mean, gWith);
    for (int i = 0; i < mean.length; i++) {
      gWithout[i] -= gWith[i];
    }
    return new FitResult.TrebleLoss.Share(
        name, Estimate.normal(loss, posterior.sd(gWithout), Unit.DECIBEL, Known.DERIVED));
  }

  private record Band(Circuit circuit, int[] slots) {
    Band(JobModel model, Circuit circuit) {
      this(circuit, model.slots(circuit));
    }

    /** Mean power of the transfer over the band [dB]; adds its derivatives to {@code gradient}. */
    double level(JobModel model, double[] x, double[] gradient) {
      double[] hz = new double[POINTS];
      for (int i = 0; i < POINTS; i++) {
        hz[i] = LOW_HZ * Math.pow(HIGH_HZ / LOW_HZ, i / (POINTS - 1.0));
      }
      Analysis a = circuit.analyse(hz, model.values(slots, x), Probe.EMF_TO_JACK);
      double power = 0;
      for (int i = 0; i < POINTS; i++) {
        power += a.re()[i] * a.re()[i] + a.im()[i] * a.im()[i];
      }
      for (int s = 0; s < slots.length; s++) {
        double d = 0;
        for (int i = 0; i < POINTS; i++) {
          d += 2 * (a.re()[i] * a.dRe()[s][i] + a.im()[i] * a.dIm()[s][i]);
        }
        gradient[slots[s]] += 10 / Math.log(10) * d / power;
      }
      return 10 * Math.log10(power / POINTS);
    }
  }
}

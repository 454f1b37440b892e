package org.trebleproof.bench.model;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Optional;
import java.util.function.DoubleUnaryOperator;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.trebleproof.bench.job.Job;
import org.trebleproof.bench.job.Part;
import org.trebleproof.circuit.CoilModel;
import org.trebleproof.quantity.Resonance;

/**
 * Resonance, peak, cut-off and load of a coil R, L with C and a resistor Rl across it, against the
 * closed form of the second-order low-pass (any circuits text): H0 = Rl/(R+Rl), w0^2 =
 * (1+R/Rl)/(LC), Q = w0/(R/L+1/(Rl C)), f_pk = f0 sqrt(1-1/(2Q^2)), peak = Q/sqrt(1-1/(4Q^2)).
 */
class SetupQuantitiesTest {

  private record Place(JobModel model, double[] x, SetupQuantities quantities) {}

  /** Left at the pots' ends [ohm], and the inputs' corner [Hz]: too little to be seen. */
  private static final double NO_END = 0.01;

  private static final double NO_CORNER = 1e-4;

  private static boolean ofPath(String name) {
    return BenchUnknown.of(name).isPresent()
        && !name.equals(BenchUnknown.INPUT_RESISTANCE.key())
        && !name.equals(BenchUnknown.INPUT_CAPACITANCE.key())
        && !name.equals(BenchUnknown.SERIES_RESISTOR.key());
  }

  private static Place place(MadeUpJob made) {
    made.sweep("a", "s", 1);
    Job job = made.job();
    JobModel model =
        new JobModel(job, CoilModel.IDEAL, CurveStart.of(job, made.measured()), made.measured());
    double[] x =
        model.parameters().stream()
            .mapToDouble(
                p ->
                    BenchUnknown.END.is(p.name())
                        ? Math.log(NO_END)
                        : p.name().equals(BenchUnknown.INPUT_CORNER.key())
                            ? Math.log(NO_CORNER)
                            : ofPath(p.name()) ? p.start() : Math.log(made.truth(p.name())))
            .toArray();
    return new Place(model, x, new SetupQuantities(model, job.setups().get("s")));
  }

  /** The load is a volume pot alone; without a lead the recorder is no part of what is reported. */
  private static Place pot(double l, double r, double c, double load) {
    return place(
        new MadeUpJob(CoilModel.IDEAL, 1, r, l, c)
            .series(100e3, 1, 0)
            // The track hangs behind the pot's end: together they are the load.
            .part("pot", Part.Kind.POT, load - NO_END, 0.2)
            .wired("s", "pot", null, null, null));
  }

  private static DoubleUnaryOperator level(double l, double r, double c, double load) {
    return hz -> {
      double w = 2 * Math.PI * hz;
      double re = 1 + r / load - w * w * l * c;
      double im = w * (l / load + r * c);
      return -10 * Math.log10(re * re + im * im);
    };
  }

  /**
   * Peak frequency [Hz], peak over zero frequency [dB] and half-power cut-off [Hz] computed from
   * the formulas, six digits.
   */
  @ParameterizedTest
  @CsvSource({
    "2.4,5700,620e-12,97560.976,3672.88,3.57112,5999.85",
    "2.4,5700,620e-12,160000,3957.85,6.7677,6264.82",
    "5,8200,650e-12,160000,2566.89,4.51853,4135.57",
    "2.2,6000,580e-12,200000,4337.73,8.14827,6826.63"
  })
  void resonanceAndPeak(
      double l, double r, double c, double load, double hz, double peak, double halfPower) {
    Place place = pot(l, r, c, load);
    DoubleUnaryOperator level = level(l, r, c, load);
    Resonance found = place.quantities().curve(place.x()).peak().orElseThrow();
    assertEquals(hz, found.hz(), 0.006);
    // peaks count from 20 Hz, not from zero
    double zero = level.applyAsDouble(1e-3);
    assertEquals(peak + zero - level.applyAsDouble(20), found.peak(), 6e-6);
    // the cut-off stands at 3 dB, half power at 3.0103 dB, a few hertz above
    double cutoff = place.quantities().curve(place.x()).cutoff();
    assertEquals(level.applyAsDouble(20) - 3, level.applyAsDouble(cutoff), 1e-6);
    assertTrue(cutoff < halfPower && cutoff > 0.997 * halfPower, cutoff + " Hz");
    // The pot's end stands between coil and track. As good as none (1 mohm) it is 1000 S beside
    // some
    // uS: of the sixteen digits of a double seven are left.
    assertEquals(1 / load, place.quantities().loadConductance(place.x(), hz), 4e-7 / load);
    assertEquals(c, place.quantities().totalCapacitance(place.x(), 3000), 1e-9 * c);
  }

  @Test
  void withALeadTheRecordersInputIsPartOfTheLoad() {
    // the first case again, its load and capacitance made of pot, lead, winding and recorder
    double pot = 1 / (1 / 97560.976 - 1e-6);
    Place place =
        place(
            new MadeUpJob(CoilModel.IDEAL, 2, 5700, 2.4, 120e-12)
                .series(100e3, 1, 0)
                .part("pot", Part.Kind.POT, pot, 0.2)
                .part("lead", Part.Kind.CABLE, 420e-12, 0.1)
                .wired("s", "pot", null, null, "lead"));
    assertEquals(3672.88, place.quantities().curve(place.x()).peak().orElseThrow().hz(), 0.006);
    // The pot's end in front of the lead and the recorder adds (w C)^2 R to the conductance.
    assertEquals(
        1 / 97560.976, place.quantities().loadConductance(place.x(), 3000), 4e-7 / 97560.976);
    assertEquals(620e-12, place.quantities().totalCapacitance(place.x(), 3000), 1e-21);
  }

  @Test
  void aBareCoilHasNoLoad() {
    Place place =
        place(
            new MadeUpJob(CoilModel.IDEAL, 3, 5700, 2.4, 120e-12)
                .series(100e3, 1, 0)
                .wired("s", null, null, null, null));
    assertFalse(place.quantities().loaded());
    assertEquals(2.4, place.quantities().inductance(place.x()), 1e-12);
    assertEquals(5700, place.quantities().resistance(place.x()), 1e-9);
    // undamped resonance of 2.4 H and 120 pF, computed: 9378.29 Hz; R moves the peak by a trace
    assertEquals(9378.29, place.quantities().curve(place.x()).peak().orElseThrow().hz(), 5);
  }

  @Test
  void aDampedCoilHasNoResonance() {
    Place place = pot(2.4, 5700, 620e-12, 30e3);
    assertEquals(Optional.empty(), place.quantities().curve(place.x()).peak());
  }
}

package org.trebleproof.bench.sweep;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.trebleproof.quantity.RowKeys.key;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import org.trebleproof.bench.job.Job;
import org.trebleproof.bench.job.JobEdit;
import org.trebleproof.bench.job.Part;
import org.trebleproof.bench.job.Setup;
import org.trebleproof.bench.job.Slot;
import org.trebleproof.bench.model.CoilLadder;
import org.trebleproof.bench.model.FittedModels;
import org.trebleproof.bench.model.MadeUpJob;
import org.trebleproof.bench.model.ModelEstimates;
import org.trebleproof.circuit.CoilModel;
import org.trebleproof.fixture.Fixture;
import org.trebleproof.quantity.Estimate;
import org.trebleproof.quantity.Finding;
import org.trebleproof.quantity.FindingCode;
import org.trebleproof.quantity.Marking;
import org.trebleproof.quantity.Response;
import org.trebleproof.quantity.RowKey;
import org.trebleproof.quantity.Verdict;

/** Wrong statements are refused, right ones are not. */
class FitChecksTest {

  private static List<Finding> errors(Job job, Map<String, Response> measured) {
    FittedModels models = FittedModels.of(new CoilLadder(job, measured));
    return new Verdict(FitChecks.of(models, models.best().model().job(), measured)).errors();
  }

  private static MadeUpJob exciter(long seed) {
    return MadeUpJob.singleCoil(seed)
        .coilReading(5718, 0.01)
        .exciter(0.05, 4e-6, 0.3e-6)
        .swapParts()
        .sweptSwap(1.15);
  }

  private static MadeUpJob series(long seed) {
    MadeUpJob made = MadeUpJob.singleCoil(seed).coilReading(5718, 0.01);
    made.series(100e3, 1.004, 5e-9).swapParts();
    return made.sweep("before", "before", 1).sweep("after", "after", 1);
  }

  @ParameterizedTest
  @CsvSource({
    "exciter,clip,10e-9,0.01,\"clip\": stated 10n",
    "exciter,lead,2.7e-9,0.1,\"lead\": stated 2.7n",
    "exciter,pickup,17.1e3,0.01,the resistance of \"pickup\": stated 17.1k",
    "series,lead,2.7e-9,0.1,\"lead\": stated 2.7n",
    "series,pickup,17.1e3,0.01,the resistance of \"pickup\": stated 17.1k"
  })
  void aWrongPartIsRefused(
      String fixture, String part, double stated, double tolerance, String named) {
    MadeUpJob made = fixture.equals("series") ? series(61) : exciter(62);
    refused(
        FindingCode.MARKING_CONTRADICTED,
        named,
        errors(made.stating(part, stated, tolerance), made.measured()));
  }

  /** A name with a dot in it is a name, and what is wrong of it is said in words. */
  @ParameterizedTest
  @ValueSource(strings = {"pickup", "No. 3 coil", "a.resistance", "neck \"hot\""})
  void aPickupMayHaveAnyName(String name) {
    MadeUpJob made = series(61);
    List<Finding> errors =
        errors(renamed(made.stating("pickup", 17.1e3, 0.01), name), made.measured());
    assertTrue(
        errors.stream()
            .anyMatch(f -> f.text().contains("stated of the resistance of \"" + name + "\"")),
        errors.toString());
  }

  private static Job renamed(Job job, String pickup) {
    Map<String, Part> parts = new LinkedHashMap<>();
    for (Part p : job.parts().values()) {
      String name = p.kind() == Part.Kind.PICKUP ? pickup : p.name();
      parts.put(name, new Part(name, p.kind(), p.marking(), p.coil()));
    }
    Map<String, Setup> setups = new LinkedHashMap<>();
    for (Setup s : job.setups().values()) {
      setups.put(
          s.name(),
          new Setup(
              s.name(),
              pickup,
              s.volume(),
              s.tone(),
              s.toneCapacitor(),
              s.toneAfterVolume(),
              s.cable(),
              s.dcResistance(),
              s.extras()));
    }
    return job.withParts(parts).withSetups(setups);
  }

  @Test
  void aWrongSeriesResistorIsRefused() {
    MadeUpJob made = series(63);
    Fixture.Series f = (Fixture.Series) made.job().fixture();
    refused(
        FindingCode.MARKING_CONTRADICTED,
        "the series resistor: stated 10k",
        errors(
            made.stating(
                new Fixture.Series(new Marking(10e3, 0.001, true), f.channels(), 1, 2, f.input())),
            made.measured()));
  }

  /** 100 kilohms between lug and wiper are no end of a track, however well all else agrees. */
  @Test
  void aVolumeThatWasNotFullUpIsRefused() {
    MadeUpJob made = MadeUpJob.singleCoil(65).coilReading(5718, 0.01);
    made.series(100e3, 1.004, 5e-9).swapParts().sweep("before", "before", 1);
    Job full = made.job();
    made.setup(turned(0.8).applied(full).setups().get("after")).sweep("after", "after", 1);
    refused(
        FindingCode.MARKING_CONTRADICTED,
        "a volume pot that is full up",
        errors(turned(1).applied(made.job()), made.measured()));
  }

  private static JobEdit turned(double rotation) {
    return new JobEdit.Placed("after", Slot.VOLUME, Optional.of("new volume"), rotation);
  }

  /** As 0.6 us between the channels do that were stated in nanoseconds. */
  @Test
  void picofaradsAcrossTheSeriesResistorAreRefused() {
    MadeUpJob made = MadeUpJob.singleCoil(66).series(47e3, 1.004, 0.6e-6);
    made.wired("bare", null, null, null, null).sweep("bare", "bare", 1);
    Fixture.Series f = (Fixture.Series) made.job().fixture();
    Fixture.ChannelMatch said = f.channels().orElseThrow();
    Fixture.ChannelMatch nanoseconds =
        new Fixture.ChannelMatch(said.ratio(), said.delay() / 1000, said.delayHalfWidth());
    List<Finding> errors =
        errors(
            made.stating(
                new Fixture.Series(
                    f.seriesResistance(), Optional.of(nanoseconds), 1, 2, f.input())),
            made.measured());
    assertTrue(!errors.isEmpty(), "a delay of 0.6 us stated as 0.6 ns");
  }

  @Test
  void aWrongInputCapacitanceIsRefused() {
    MadeUpJob made = exciter(64);
    Fixture.InputLoad input =
        new Fixture.InputLoad(new Marking(1e6, 0.01, true), new Marking(960e-12, 0.03, true), true);
    refused(
        FindingCode.MARKING_CONTRADICTED,
        "the recorder's input capacitance: stated",
        errors(
            made.stating(new Fixture.Exciter(false, Optional.empty(), 1, 2, input)),
            made.measured()));
  }

  /** One cause is told, what else was found follows from it, and it names what is wrong. */
  private static void refused(FindingCode code, String named, List<Finding> errors) {
    assertEquals(List.of(code), errors.stream().map(Finding::code).toList(), errors.toString());
    assertTrue(errors.get(0).evidence().startsWith(named), errors.toString());
  }

  /**
   * Thirty right jobs: none refused, and nine intervals in ten hold their truth. Of their three
   * hundred markings one may by chance lie so far off that single parts are held back, as one in a
   * thousand does.
   */
  @Test
  void rightJobsAreNotRefusedAndTheirIntervalsHold() {
    List<String> missed = new ArrayList<>();
    int rows = 0;
    int doubtful = 0;
    for (long seed = 100; seed < 130; seed++) {
      MadeUpJob made = right(seed);
      FittedModels models = FittedModels.of(new CoilLadder(made.job(), made.measured()));
      List<Finding> errors =
          new Verdict(FitChecks.of(models, made.job(), made.measured())).errors();
      if (!errors.isEmpty()) {
        assertEquals(
            FindingCode.MARKING_DOUBTFUL, errors.get(0).code(), "seed " + seed + ": " + errors);
        doubtful++;
        continue;
      }
      Map<RowKey, ModelEstimates.Line> lines = models.lines();
      for (String part : made.job().parts().keySet()) {
        Estimate e =
            part.equals("pickup")
                ? lines.get(key("pickup.resistance")).estimate()
                : lines.get(made.job().parts().get(part).row()).estimate();
        double truth = made.truth(part.equals("pickup") ? "pickup.resistance" : part);
        rows++;
        if (!e.contains(truth)) {
          missed.add("seed " + seed + " " + part + " " + truth + " " + e);
        }
        double far = Math.abs(Math.log(truth / e.value()) / Math.log(e.high() / e.value()));
        assertTrue(far < 2.5, "seed " + seed + " " + part + " " + truth + " " + e);
      }
    }
    assertTrue(doubtful <= 1, doubtful + " jobs in doubt");
    assertTrue(missed.size() <= rows / 10, missed.size() + " of " + rows + ": " + missed);
  }

  private static MadeUpJob right(long seed) {
    Random random = new Random(seed);
    double r = 5000 + 4000 * random.nextDouble();
    double l = 1.5 + 2.5 * random.nextDouble();
    double c = (90 + 80 * random.nextDouble()) * 1e-12;
    double share = 0.1 + 0.25 * random.nextDouble();
    MadeUpJob made =
        seed % 3 == 0
            ? new MadeUpJob(
                CoilModel.SPLIT_INDUCTANCE, seed, r, l * (1 - share), l * share, 1e-5, c)
            : new MadeUpJob(CoilModel.SOLID_CORE, seed, r, l * (1 - share), l * share, 7e-5, c);
    made.coilReading(r, 0.01);
    if (seed % 2 == 0) {
      made.exciter(0.08 * Math.abs(random.nextGaussian()), 5e-6, 0.5e-6 * random.nextGaussian());
    } else {
      made.series(100e3, 1 + 0.005 * random.nextGaussian(), 1e-8 * random.nextGaussian());
    }
    made.part("old volume", Part.Kind.POT, 250e3 * (0.9 + 0.2 * random.nextDouble()), 0.2)
        .part("new volume", Part.Kind.POT, 500e3 * (0.9 + 0.2 * random.nextDouble()), 0.2)
        .part("tone pot", Part.Kind.POT, 250e3 * (0.9 + 0.2 * random.nextDouble()), 0.2)
        .part("tone cap", Part.Kind.CAPACITOR, 22e-9, 0.1)
        .part("lead", Part.Kind.CABLE, (300 + 500 * random.nextDouble()) * 1e-12, 0.1)
        .wired("before", "old volume", "tone pot", "tone cap", "lead")
        .wired("after", "new volume", "tone pot", "tone cap", "lead")
        .noise(1 + 3 * random.nextDouble());
    if (seed % 2 == 0) {
      made.part("clip", Part.Kind.CAPACITOR, 1e-9, 0.01);
      return made.sweptSwap(0.8 + 0.4 * random.nextDouble());
    }
    return made.sweep("before", "before", 1).sweep("after", "after", 1);
  }
}

package org.trebleproof.bench.mod;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.trebleproof.bench.job.Job;
import org.trebleproof.bench.job.JobReader;
import org.trebleproof.bench.job.Layout;
import org.trebleproof.bench.mod.explain.Explainer;
import org.trebleproof.bench.mod.explain.Explanation;
import org.trebleproof.bench.mod.guitar.ChainFile;
import org.trebleproof.bench.mod.guitar.Knowledge;
import org.trebleproof.bench.mod.guitar.SignalChain;
import org.trebleproof.bench.mod.guitar.TypedGuitars;
import org.trebleproof.bench.mod.identify.CoilIdentifier;
import org.trebleproof.bench.mod.identify.CoilIdentity;
import org.trebleproof.bench.mod.predict.Prediction;
import org.trebleproof.bench.mod.predict.Predictor;
import org.trebleproof.bench.model.FittedParts;
import org.trebleproof.circuit.CoilModel;
import org.trebleproof.fit.Parameter;

/** A prediction that starts from what a fit has learned. */
class FittedChainTest {

  @Test
  void partsOfTheFitKeepWhatItKnowsAndBoughtOnesTheirMarking() {
    Job job = JobReader.read(Path.of("sample-captures/pot-swap/job.json"));
    Map<String, Double> values =
        Map.of(
            "pickup.resistance", 5700.0,
            "pickup.inductance", 2.4,
            "pickup.lossResistance", 800e3,
            "pickup.capacitance", 120e-12,
            "old volume", 238e3,
            "new volume", 519e3,
            "tone pot", 231e3,
            "tone cap", 21e-9,
            "lead", 481e-12);
    List<String> names = new ArrayList<>(values.keySet());
    names.add(Layout.RECORDER_RESISTANCE);
    names.add(Layout.RECORDER_CAPACITANCE);
    double[] log =
        names.stream()
            .mapToDouble(
                n ->
                    Math.log(
                        values.getOrDefault(
                            n, n.equals(Layout.RECORDER_RESISTANCE) ? 1e6 : 80e-12)))
            .toArray();
    double[][] covariance = new double[names.size()][names.size()];
    for (int i = 0; i < log.length; i++) {
      covariance[i][i] = 1e-8;
    }
    FittedParts fitted =
        new FittedParts(
            job,
            Map.of("pickup", CoilModel.LOSS_RESISTOR),
            names,
            log,
            covariance,
            names.stream().map(n -> Parameter.Path.VALUE).toList(),
            1,
            List.of());
    SignalChain chain = SignalChain.of(fitted, List.of());
    assertEquals("after", chain.current());
    Prediction known = predict(chain, "after", "volume=old volume");
    assertTrue(
        known.levels().get(1).change().halfWidth() < 0.02, "both pots are known from the fit");
    assertEquals(List.of("volume pot 519k to 238k"), known.changes());
    Prediction bought = predict(chain, "before", "volume=500k");
    assertTrue(
        bought.levels().get(1).change().halfWidth() > 0.1, "a pot out of a bag has 20 per cent");
    assertEquals(List.of("volume pot 500k"), bought.worst().parts());
  }

  /** Two models that stand: one says 2.4 H, the other 4 per cent more. */
  private static SignalChain inDoubt() {
    SignalChain one =
        TypedGuitars.single(
            "volume=500k 1%,tone=500k 1%,toneCapacitor=22n 1%,cable=500p 1%,input=1M");
    Knowledge k = one.knowledge();
    double[] more = k.logMean().clone();
    more[k.index("pickup.inductance")] += 0.04;
    double[][] narrow = new double[more.length][more.length];
    for (int i = 0; i < more.length; i++) {
      narrow[i][i] = 1e-8;
    }
    Knowledge first = new Knowledge(k.names(), k.logMean(), narrow, k.paths(), k.markings());
    Knowledge second = new Knowledge(k.names(), more, narrow, k.paths(), k.markings());
    SignalChain rival =
        new SignalChain(
            one.title(),
            Map.of("pickup", CoilModel.LOSS_RESISTOR, "neck", CoilModel.LOSS_RESISTOR),
            second,
            one.slots(),
            one.layouts(),
            one.current(),
            Map.of(),
            List.of(),
            0.4,
            List.of(),
            Map.of());
    return new SignalChain(
        one.title(),
        one.coils(),
        first,
        one.slots(),
        one.layouts(),
        one.current(),
        Map.of(),
        List.of(),
        0.6,
        List.of(rival),
        Map.of());
  }

  @Test
  void whatModelsDisagreeOnIsPartOfEveryBand() {
    SignalChain doubt = inDoubt();
    Prediction p = predict(doubt, "now", "cable=none");
    // 4 % of inductance are 2 % of resonance: either model must lie inside.
    double now = p.resonances().hzNow().orElseThrow().value();
    assertTrue(p.resonances().hzNow().orElseThrow().low() < now * 0.982, p.resonances()::toString);
    assertTrue(p.resonances().hzNow().orElseThrow().high() < now * 1.002);
    Explanation e = new Explainer(doubt, doubt.layout(Optional.empty()), 2000, 5000).explain();
    Explanation alone =
        new Explainer(doubt.rivals().get(0), doubt.layout(Optional.empty()), 2000, 5000).explain();
    assertTrue(
        Math.abs(alone.treble().there().value() - e.treble().there().value())
            < e.treble().there().halfWidth(),
        "the rival's loss lies inside the interval");
    double sum = e.shares().stream().mapToDouble(s -> s.there().value()).sum();
    assertEquals(e.treble().there().value(), sum, 1e-9, "shares still add up");
    CoilIdentity c =
        new CoilIdentifier(doubt, "pickup", 20, Optional.empty()).identify(Optional.empty());
    assertTrue(c.inductance().high() > 2.4 * 1.04, c.inductance()::toString);
  }

  @Test
  void theSpreadOfModelsIsKeptInAFile(@org.junit.jupiter.api.io.TempDir Path folder)
      throws java.io.IOException {
    SignalChain doubt = inDoubt();
    Path file = folder.resolve("guitar.json");
    java.nio.file.Files.writeString(file, ChainFile.text(doubt));
    SignalChain read = ChainFile.read(file);
    assertEquals(0.6, read.weight());
    assertEquals(1, read.rivals().size());
    assertEquals(
        predict(doubt, "now", "volume=250k").resonances(),
        predict(read, "now", "volume=250k").resonances());
  }

  /** Every model that a fit may choose can be kept and read again. */
  @Test
  void everyCoilModelHasItsOwnName() {
    List<CoilModel> all = new ArrayList<>();
    for (CoilModel m : CoilModel.all()) {
      all.add(m);
      all.add(m.withDepartures());
      if (m.dielectricLoss()) {
        all.add(m.withConstantPhase());
        all.add(m.withConstantPhase().withDepartures());
      }
    }
    for (CoilModel m : all) {
      assertEquals(Optional.of(m), CoilModel.of(m.key()), m.key());
    }
  }

  private static Prediction predict(SignalChain chain, String setup, String changes) {
    Layout now = chain.layout(Optional.of(setup));
    SignalChain both =
        chain.with("then", now, org.trebleproof.bench.job.PlanReader.parsed(List.of(changes)));
    return new Predictor(both, now, both.layouts().get("then"), 500).predict();
  }
}

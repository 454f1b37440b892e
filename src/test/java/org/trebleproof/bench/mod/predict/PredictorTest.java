package org.trebleproof.bench.mod.predict;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.DoubleStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.trebleproof.bench.job.PlanReader;
import org.trebleproof.bench.mod.guitar.ChainFile;
import org.trebleproof.bench.mod.guitar.Knowledge;
import org.trebleproof.bench.mod.guitar.SignalChain;
import org.trebleproof.bench.mod.guitar.TypedCoil;
import org.trebleproof.bench.mod.guitar.TypedGuitars;
import org.trebleproof.bench.mod.guitar.WiredCircuit;
import org.trebleproof.quantity.Refusal;
import org.trebleproof.quantity.Resonance;

class PredictorTest {
  private static final String WIRED = "volume=250k,tone=250k,toneCapacitor=22n,cable=500p,input=1M";

  /**
   * Both pots changed together on two coils without core loss of their own, loaded by 1 Mohm and
   * 800 kohm in parallel. Reference: ngspice 39's AC analysis of the same circuit; peak frequency
   * found on its grid (2 Hz), level within 0.005 dB.
   */
  @ParameterizedTest
  @CsvSource({
    "2.4, 5.7k, 120p, 250k, 3.0842, 3668.0",
    "2.4, 5.7k, 120p, 500k, 6.4649, 3957.6",
    "2.4, 5.7k, 120p, 1M, 9.0029, 4044.1",
    "2.4, 5.7k, 120p, 2M, 10.6517, 4074.1",
    "5, 8.2k, 150p, 250k, 0.8499, 2140.1",
    "5, 8.2k, 150p, 500k, 4.0874, 2565.8",
    "5, 8.2k, 150p, 1M, 6.7139, 2686.8",
    "5, 8.2k, 150p, 2M, 8.4780, 2727.9"
  })
  void agreesWithAnotherSimulator(
      String l, String r, String c, String pots, double level, double hz) {
    Map<String, TypedCoil> coils = new LinkedHashMap<>();
    coils.put("pickup", TypedGuitars.coil(l, r, c, null));
    SignalChain chain =
        TypedCoil.guitar(
            coils,
            PlanReader.parsed(
                List.of(
                    "volume="
                        + pots
                        + ",tone="
                        + pots
                        + ",toneCapacitor=22n,cable=500p,input=444.4444k")));
    WiredCircuit wired = WiredCircuit.of(chain, chain.layout(Optional.empty()));
    Resonance peak = Grid.resonance(wired.powers(chain.knowledge().logMean(), Grid.frequencies()));
    assertEquals(level, peak.level(), 0.005);
    assertEquals(hz, peak.hz(), 2);
  }

  /** Common practice, no source: 250k to 1M is easy to hear, 1M to 2M hardly. */
  @Test
  void potSwapsAreAsAudibleAsTheTradeSays() {
    Prediction easy = TypedGuitars.predict(TypedGuitars.single(WIRED), "volume=1M,tone=1M", 400);
    assertEquals(Audibility.Grade.PLAIN, easy.audibility().verdict());
    assertTrue(easy.sure() > 0.99);
    SignalChain large = TypedGuitars.single(WIRED.replace("250k", "1M"));
    Prediction hard = TypedGuitars.predict(large, "volume=2M,tone=2M", 400);
    assertEquals(Audibility.Grade.EDGE, hard.audibility().verdict());
    assertTrue(Math.abs(hard.audibility().shiftHz()) < hard.audibility().leastShiftHz());
    Prediction none = TypedGuitars.predict(TypedGuitars.single(WIRED), "toneCapacitor=47n", 400);
    assertEquals(Audibility.Grade.INAUDIBLE, none.audibility().verdict());
  }

  /**
   * A volume turned down with a treble bleed lowers everything, the peak over 20 Hz by what its
   * load makes of it.
   */
  @Test
  void thePeaksChangeIsThatOfThePeak() {
    Prediction.Resonances r =
        TypedGuitars.predict(
                TypedGuitars.single(WIRED), "volumeRotation=0.5,bleedCapacitor=1n", 400)
            .resonances();
    assertEquals(
        r.peakThen().orElseThrow().value() - r.peakNow().orElseThrow().value(),
        r.peakChange().orElseThrow().value(),
        1e-3);
  }

  /** 0.079 F / sqrt(Q) of Gagne and Zurek 1988 at 4044 Hz and Q 2.84: 189.6 Hz. */
  @Test
  void knowsTheLeastAudibleShift() {
    assertEquals(189.6, Audibility.leastShift(4044, 2.84), 0.05);
  }

  /**
   * Both pots of a 250k guitar 20 % low or high: the peak lies 1.2 dB under and 0.95 dB over the
   * nominal one (NumPy, same circuit: 1.90, 3.08 and 4.03 dB).
   */
  @Test
  void worstCaseIsTheCornerOfTheTolerances() {
    Map<String, TypedCoil> coils = new LinkedHashMap<>();
    coils.put("pickup", TypedGuitars.coil("2.4 0.001%", "5.7k 0.001%", "120p 0.001%", null));
    SignalChain chain =
        TypedCoil.guitar(
            coils,
            PlanReader.parsed(
                List.of(
                    "volume=250k 0.001%,tone=250k 0.001%,toneCapacitor=22n 0.001%,cable=500p 0.001%,"
                        + "input=444.4444k 0.001%")));
    SignalChain open =
        chain.with(
            "then",
            chain.layout(Optional.empty()),
            PlanReader.parsed(List.of("volume=250k 20%,tone=250k 20%")));
    Prediction p =
        new Predictor(open, open.layout(Optional.empty()), open.layouts().get("then"), 400)
            .predict();
    double high = DoubleStream.of(p.worst().high()).max().orElseThrow();
    double low = DoubleStream.of(p.worst().low()).min().orElseThrow();
    for (String corner : List.of("300k", "200k")) {
      SignalChain at =
          chain.with(
              "corner",
              chain.layout(Optional.empty()),
              PlanReader.parsed(
                  List.of("volume=" + corner + " 0.001%,tone=" + corner + " 0.001%")));
      WiredCircuit now = WiredCircuit.of(at, at.layout(Optional.empty()));
      WiredCircuit then = WiredCircuit.of(at, at.layouts().get("corner"));
      double[] log = at.knowledge().logMean();
      double[] a = now.powers(log, Grid.frequencies());
      double[] b = then.powers(log, Grid.frequencies());
      boolean up = corner.equals("300k");
      assertEquals(
          up ? 4.03 - 3.08 : 1.90 - 3.08,
          Grid.resonance(b).level() - Grid.resonance(a).level(),
          0.01);
      double most = 0;
      for (int i = 0; i < Grid.curvePoints(); i++) {
        most = Math.max(most, Math.abs(10 * Math.log10(b[i] / a[i])));
      }
      assertEquals(up ? high : -low, most, 1e-3);
    }
    // Two pots of 20 % at 95 % draw a band inside the corners.
    assertTrue(DoubleStream.of(p.change().high()).max().orElseThrow() < high);
    assertTrue(DoubleStream.of(p.change().low()).min().orElseThrow() > low);
  }

  @Test
  void aKnownSumStaysKnownInEveryRandomGuitar() {
    double[][] covariance = {{0.04, -0.01}, {-0.01, 0.0025}};
    Knowledge sum =
        new Knowledge(
            List.of("winding", "cable"),
            new double[] {Math.log(100), Math.log(400)},
            covariance,
            List.of(
                org.trebleproof.fit.Parameter.Path.VALUE, org.trebleproof.fit.Parameter.Path.VALUE),
            Map.of());
    for (double[] draw : sum.draws(500, 7)) {
      assertEquals(500, Math.exp(draw[0]) + Math.exp(draw[1]), 1e-6);
    }
  }

  @Test
  void nothingChangedIsNothing() {
    Prediction p = TypedGuitars.predict(TypedGuitars.single(WIRED), "cable=500p", 200);
    assertEquals(0, DoubleStream.of(p.change().decibel()).map(Math::abs).max().orElseThrow());
    assertTrue(p.changes().isEmpty());
  }

  @Test
  void keepsAGuitarInAFile(@TempDir Path folder) throws java.io.IOException {
    SignalChain chain = TypedGuitars.with(TypedGuitars.single(WIRED), "volume=500k 5%");
    Path file = Files.writeString(folder.resolve("guitar.json"), ChainFile.text(chain));
    assertTrue(ChainFile.isOne(file));
    SignalChain back = ChainFile.read(file);
    assertEquals(chain.layouts(), back.layouts());
    assertEquals(chain.coils(), back.coils());
    assertEquals(chain.knowledge().names(), back.knowledge().names());
    assertArrayEquals(chain.knowledge().logMean(), back.knowledge().logMean(), 1e-12);
    assertArrayEquals(chain.knowledge().logCovariance()[2], back.knowledge().logCovariance()[2], 0);
    Files.writeString(
        file, ChainFile.text(chain).replace("\"current\" : \"now\"", "\"current\" : \"x\""));
    assertThrows(Refusal.class, () -> ChainFile.read(file));
  }

  /** Every wiring of a plan can be predicted, and each does what its name says. */
  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "bleedCapacitor=1n,volumeRotation=0.3",
        "bleedCapacitor=1n,bleedResistor=150k,bleedStyle=series,volumeRotation=0.3",
        "bassCapacitor=2.2n,bassPot=1M,bassPotRotation=0.5",
        "pickups=pickup+neck",
        "pickups=pickup+neck,joint=series",
        "pickups=pickup+neck,phase=out,output=0.8",
        "pickups=pickup+neck,secondVolume=250k,secondVolumeRotation=0.5,volumeWiring=independent",
        "tap=on",
        "tap=on,tapResistor=4.7k",
        "tonePosition=after,volumeRotation=0.5,volumeCentre=0.15",
        "cable=none,input=none"
      })
  void everyWiring(String changes) {
    Prediction p = TypedGuitars.predict(TypedGuitars.single(WIRED), changes, 100);
    assertTrue(DoubleStream.of(p.then().decibel()).allMatch(Double::isFinite));
    assertTrue(DoubleStream.of(p.change().decibel()).map(Math::abs).max().orElseThrow() > 0.3);
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "volumeRotation=0|silence",
        "volume=A500k|500k",
        "vlume=500k|did you mean volume",
        "bleedResistor=150k|treble bleed capacitor",
        "toneCapacitor=none|tone capacitor",
        "pickups=bridge|no pickup",
        "selector=2|three pickups",
        "tapResistor=1k|tap=on",
        "phase=backwards|in or out",
        "volumeRotation=1.5|from 0.0 to 1.0"
      })
  void refusesInOneSentence(String changes, String word) {
    Refusal refusal =
        assertThrows(
            Refusal.class, () -> TypedGuitars.predict(TypedGuitars.single(WIRED), changes, 100));
    assertTrue(refusal.getMessage().contains(word), refusal.getMessage());
  }
}

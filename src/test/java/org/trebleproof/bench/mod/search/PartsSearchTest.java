package org.trebleproof.bench.mod.search;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.trebleproof.bench.job.Slot;
import org.trebleproof.bench.mod.guitar.SignalChain;
import org.trebleproof.bench.mod.guitar.TypedGuitars;
import org.trebleproof.bench.mod.predict.Prediction;
import org.trebleproof.bench.mod.predict.Predictor;
import org.trebleproof.quantity.Estimate;
import org.trebleproof.quantity.Refusal;

class PartsSearchTest {
  private static final String WIRED = "volume=250k,tone=250k,toneCapacitor=22n,cable=500p,input=1M";

  private static FoundParts find(SignalChain chain, Target target, int most) {
    return new PartsSearch(chain, chain.layout(Optional.empty()), target, most).find();
  }

  /** What a known change makes of the guitar must be found again as that change. */
  @ParameterizedTest
  @ValueSource(
      strings = {
        "volume=1M",
        "tone=500k",
        "loadCapacitor=470p",
        "loadResistor=150k",
        "cable=900p",
        "bassCapacitor=4.7n"
      })
  void findsAHiddenChange(String hidden) {
    SignalChain chain = TypedGuitars.single(WIRED);
    SignalChain both = TypedGuitars.with(chain, hidden);
    Target target = PartsSearch.shapeOf("hidden", both, both.layouts().get("then"));
    FoundParts found = find(chain, target, 2);
    String[] change = hidden.split("=");
    FoundParts.Option same =
        found.options().stream()
            .filter(o -> o.parts().size() == 1 && change[1].equals(o.parts().get(slot(change[0]))))
            .findFirst()
            .orElseThrow(() -> new AssertionError(found.options().toString()));
    // The curve lies on the grid of a prediction, so what is left is its reading between points.
    assertTrue(same.distance() < 0.02, same.toString());
  }

  /** And what a known wiring makes of it, as that wiring. */
  @ParameterizedTest
  @ValueSource(strings = {"series", "parallel"})
  void findsAHiddenWiring(String joint) {
    SignalChain chain = TypedGuitars.single(WIRED);
    SignalChain both = TypedGuitars.with(chain, "pickups=pickup+neck,joint=" + joint);
    Target target = PartsSearch.shapeOf("hidden", both, both.layouts().get("then"));
    FoundParts.Option same =
        find(chain, target, 1).options().stream()
            .filter(o -> o.wiring().equals(List.of("neck on as well, in " + joint)))
            .findFirst()
            .orElseThrow();
    assertEquals(1, same.changes());
    assertTrue(same.parts().isEmpty());
    assertTrue(same.distance() < 0.02, same.toString());
    FoundParts.Option first = find(chain, target, 1).options().get(1);
    assertEquals(same.wiring(), first.wiring(), "the nearest of one change is that wiring");
  }

  @Test
  void findsATrebleBleedInSeries() {
    SignalChain chain = TypedGuitars.single(WIRED + ",volumeRotation=0.4");
    SignalChain both =
        TypedGuitars.with(chain, "bleedCapacitor=1n,bleedResistor=150k,bleedStyle=series");
    Target target = PartsSearch.shapeOf("hidden", both, both.layouts().get("then"));
    FoundParts.Option same =
        find(chain, target, 2).options().stream()
            .filter(o -> o.changes() == 2)
            .findFirst()
            .orElseThrow();
    assertEquals(List.of("treble bleed in series"), same.wiring());
    assertEquals(Map.of(Slot.BLEED_CAPACITOR, "1n", Slot.BLEED_RESISTOR, "150k"), same.parts());
  }

  private static Slot slot(String key) {
    for (Slot slot : Slot.values()) {
      if (slot.key().equals(key)) {
        return slot;
      }
    }
    throw new AssertionError(key);
  }

  @Test
  void reachesAResonanceAndSaysWhatUnluckyPartsLeave() {
    SignalChain chain = TypedGuitars.single(WIRED);
    FoundParts found = find(chain, new Target.Peak(3200, Optional.of(4.0)), 3);
    FoundParts.Option best =
        found.options().stream().filter(o -> o.changes() == 3).findFirst().orElseThrow();
    assertEquals(3200, best.resonance().orElseThrow().value(), 40);
    assertEquals(4.0, best.peak().orElseThrow().value(), 0.2);
    assertTrue(found.tried() > 1000);
    for (FoundParts.Option option : found.options()) {
      assertTrue(option.unlucky() >= option.distance() * 0.5, option.toString());
      assertTrue(option.changes() <= 3);
    }
    assertTrue(found.options().get(0).parts().isEmpty(), "as it is comes first");
  }

  /**
   * The interval of an offer is the one that a prediction gives the same guitar, up to the chance
   * of 400 random guitars: the 2.5 % point of a normal distribution then scatters by 0.13 standard
   * deviations, here by 7 % of the half-width; thrice that is held.
   */
  @Test
  void anOfferHasTheIntervalOfItsPrediction() {
    SignalChain chain = TypedGuitars.single(WIRED);
    FoundParts found = find(chain, new Target.Peak(3200, Optional.of(4.0)), 1);
    assertTrue(
        found.options().stream().anyMatch(o -> o.changes() == 1), "something is offered besides");
    for (FoundParts.Option option : found.options()) {
      Map<String, String> changes = new java.util.LinkedHashMap<>();
      option.parts().forEach((slot, value) -> changes.put(slot.key(), value));
      SignalChain with = chain.with("then", chain.layout(Optional.empty()), changes);
      Prediction.Resonances predicted =
          new Predictor(with, chain.layout(Optional.empty()), with.layouts().get("then"), 4000)
              .predict()
              .resonances();
      close(predicted.hzThen().orElseThrow(), option.resonance().orElseThrow());
      close(predicted.peakThen().orElseThrow(), option.peak().orElseThrow());
    }
  }

  private static void close(Estimate expected, Estimate found) {
    double most = 0.21 * (expected.high() - expected.low()) / 2;
    assertEquals(expected.value(), found.value(), 1e-6 * Math.abs(expected.value()));
    assertEquals(expected.low(), found.low(), most);
    assertEquals(expected.high(), found.high(), most);
  }

  /** A resonance that is drowned is not given a figure. */
  @Test
  void noPeakIsNoFigure() {
    SignalChain chain =
        TypedGuitars.single("volume=25k,tone=25k,toneCapacitor=22n,cable=500p,input=1M");
    Target target = PartsSearch.shapeOf("as it is", chain, chain.layout(Optional.empty()));
    FoundParts.Option asItIs = find(chain, target, 1).options().get(0);
    assertEquals(0, asItIs.changes());
    assertEquals(Optional.empty(), asItIs.resonance());
    assertEquals(Optional.empty(), asItIs.peak());
  }

  @Test
  void whatIsThereAlreadyIsNoChange() {
    SignalChain chain = TypedGuitars.single(WIRED);
    FoundParts found = find(chain, new Target.Peak(3640, Optional.empty()), 2);
    assertTrue(
        found.options().stream().anyMatch(o -> !o.parts().isEmpty()), "something is offered");
    found.options().forEach(o -> assertFalse(o.parts().containsValue("250k"), o.toString()));
    assertTrue(found.options().get(0).distance() < 0.1);
  }

  /** A part reads otherwise than it is marked, but what it is marked with is what is in. */
  @ParameterizedTest
  @ValueSource(strings = {"volume=215k", "volume=239k", "volume=281k", "cable=486p", "cable=3.3 m"})
  void neverOffersThePartThatIsIn(String reading) {
    String slot = reading.substring(0, reading.indexOf('='));
    String in = slot.equals("volume") ? "250k" : reading.endsWith("m") ? "300p" : "450p";
    SignalChain chain = TypedGuitars.single(WIRED.replaceFirst(slot + "=[^,]*", reading));
    Target target = new Target.Peak(4500, Optional.of(6.0));
    FoundParts found = find(chain, target, 2);
    assertTrue(
        found.options().stream().anyMatch(o -> o.parts().containsKey(slot(slot))), "it is tried");
    found.options().forEach(o -> assertFalse(in.equals(o.parts().get(slot(slot))), o.toString()));
  }

  @Test
  void readsACurve(@TempDir Path folder) throws IOException {
    Path file =
        Files.writeString(folder.resolve("c.csv"), "hz,dB\n100,0\n1000,1\n3000;4\n9000\t-6\n");
    Target.Shape shape = CurveFile.read(file);
    assertEquals(0.5, shape.at(Math.sqrt(100 * 1000)), 1e-12);
    assertEquals(-6, shape.at(20000), 1e-12);
    Files.writeString(file, "hz,dB\n100,0\n90,1\n300,4\n");
    assertThrows(Refusal.class, () -> CurveFile.read(file));
    assertThrows(Refusal.class, () -> CurveFile.read(folder.resolve("none.csv")));
  }
}

package org.trebleproof.shelf.sheet;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;
import org.trebleproof.bench.mod.listen.CurvePair;
import org.trebleproof.quantity.Estimate;
import org.trebleproof.quantity.Known;
import org.trebleproof.shelf.item.Circumstances;
import org.trebleproof.shelf.item.CoilCurve;
import org.trebleproof.shelf.item.CoilState;
import org.trebleproof.shelf.item.CoilValue;
import org.trebleproof.shelf.item.ShelvedCoil;

/** Batches made up of coils of which it is known what is strange about them. */
class BatchSheetTest {

  private static final long SEED = Long.getLong("batch.seed", 20261130L);
  private static final double SCATTER = 0.005;

  private static ShelvedCoil coil(String name, String bench, CoilState state, double... values) {
    Map<CoilValue, Estimate> known = new EnumMap<>(CoilValue.class);
    CoilValue[] which = {
      CoilValue.RESISTANCE_AT_20, CoilValue.INDUCTANCE, CoilValue.CAPACITANCE, CoilValue.LOSS
    };
    for (int i = 0; i < values.length; i++) {
      known.put(which[i], Estimate.logNormal(values[i], 0.001, which[i].unit(), Known.MEASURED));
    }
    return new ShelvedCoil(
        name,
        "hot",
        List.of(),
        "",
        name + bench,
        new Circumstances(bench, "", "2026-11-30", OptionalDouble.empty()),
        "test",
        state,
        "",
        known,
        Optional.empty());
  }

  private static List<ShelvedCoil> siblings(int count) {
    System.out.println("seed " + SEED);
    SplittableRandom random = new SplittableRandom(SEED);
    List<ShelvedCoil> coils = new ArrayList<>();
    for (int i = 0; i < count; i++) {
      double[] z = new double[4];
      for (int k = 0; k < 4; k++) {
        z[k] = 1 + SCATTER * (random.nextDouble() - 0.5) * Math.sqrt(12);
      }
      coils.add(
          coil("s" + i, "a", CoilState.GOOD, 6000 * z[0], 2.4 * z[1], 110e-12 * z[2], 2e-6 * z[3]));
    }
    return coils;
  }

  private static OddCoil strange(double r, double l, double c, double loss) {
    List<ShelvedCoil> all = siblings(12);
    all.add(coil("x", "a", CoilState.GOOD, 6000 * r, 2.4 * l, 110e-12 * c, 2e-6 * loss));
    BatchSheet sheet = BatchSheet.of("batch", all);
    assertEquals(List.of("x"), List.copyOf(sheet.odd().keySet()));
    assertEquals("x", sheet.coils().get(0).name());
    return sheet.odd().get("x");
  }

  @Test
  void eachCauseIsTold() {
    OddCoil turns = strange(0.93, 0.93 * 0.93, 1, 1);
    assertEquals(OddCoil.Cause.TURNS, turns.cause());
    assertTrue(turns.size().orElseThrow().contains(0.93), "" + turns);
    assertEquals(OddCoil.Cause.WIRE, strange(1.21, 1, 1, 1).cause());
    assertEquals(OddCoil.Cause.CORE, strange(1, 1.2, 1, 1.3).cause());
    assertEquals(OddCoil.Cause.CAPACITANCE, strange(1, 1, 1.4, 1).cause());
    assertEquals(OddCoil.Cause.LOSS, strange(1, 1, 1, 2).cause());
    assertEquals(OddCoil.Cause.SEVERAL, strange(1.2, 0.8, 1, 1).cause());
  }

  @Test
  void brokenOnesStandFirstAndDoNotCount() {
    List<ShelvedCoil> all = siblings(12);
    all.add(coil("open", "a", CoilState.OPEN));
    all.add(coil("wire", "a", CoilState.GOOD, 7300, 2.4, 110e-12, 2e-6));
    BatchSheet sheet = BatchSheet.of("batch", all);
    assertEquals("open", sheet.coils().get(0).name());
    assertEquals("wire", sheet.coils().get(1).name());
    Estimate median = sheet.families().get(0).median().get(CoilValue.RESISTANCE_AT_20);
    assertTrue(median.contains(6000) || Math.abs(median.value() / 6000 - 1) < SCATTER, "" + median);
    assertFalse(BatchSheet.of("few", all.subList(0, 2)).odd().containsKey("s0"));
  }

  /** Held against all, each of the hotter ones would have a third more turns. */
  @Test
  void coilsOfAnotherRecipeAreNoSiblings() {
    List<ShelvedCoil> all = new ArrayList<>(siblings(9));
    for (int i = 0; i < 5; i++) {
      ShelvedCoil c = coil("hot" + i, "a", CoilState.GOOD, 8000 + i, 4.2 + 1e-3 * i, 120e-12, 2e-6);
      all.add(
          new ShelvedCoil(
              c.name(),
              "hotter",
              c.tags(),
              c.notes(),
              c.measurement(),
              c.circumstances(),
              c.program(),
              c.state(),
              c.reason(),
              c.values(),
              c.curve()));
    }
    BatchSheet sheet = BatchSheet.of("both", all);
    assertEquals(Map.of(), sheet.odd());
    assertEquals(2, sheet.families().size());
    assertEquals(2, sheet.recipes());
    assertEquals(
        8002,
        sheet.families().get(1).median().get(CoilValue.RESISTANCE_AT_20).value(),
        1e-6 * 8002);
  }

  @Test
  void aCoilThatStandsAloneIsNoDrift() {
    List<ShelvedCoil> all = siblings(20);
    all.set(9, coil("s9", "a", CoilState.GOOD, 7300, 2.4, 110e-12, 2e-6));
    all.set(4, coil("s4", "a", CoilState.SHORTED));
    DriftChart drift = DriftChart.of(CoilValue.RESISTANCE_AT_20, all).orElseThrow();
    assertEquals(List.of("s4", "s9"), drift.aside().stream().map(ShelvedCoil::name).toList());
    assertEquals(18, drift.coils().size());
    assertTrue(drift.chart().signals().isEmpty(), "" + drift.chart().signals());
    // the wire on the spool has changed: that is what a chart is for
    for (int i = 14; i < 20; i++) {
      all.set(i, coil("s" + i, "a", CoilState.GOOD, 7300, 2.4, 110e-12, 2e-6));
    }
    DriftChart changed = DriftChart.of(CoilValue.RESISTANCE_AT_20, all).orElseThrow();
    assertEquals(List.of("s4", "s9"), changed.aside().stream().map(ShelvedCoil::name).toList());
    assertFalse(changed.chart().signals().isEmpty());
  }

  @Test
  void benchesAreComparedCoilByCoil() {
    List<ShelvedCoil> all = new ArrayList<>();
    for (int i = 0; i < 5; i++) {
      double ohm = 5000 + 500 * i;
      all.add(coil("c" + i, "a", CoilState.GOOD, ohm));
      all.add(coil("c" + i, "b", CoilState.GOOD, ohm * (1.002 + 0.0001 * (i - 2))));
    }
    all.add(coil("alone", "b", CoilState.GOOD, 9000));
    BenchComparison c = BenchComparison.of(CoilValue.RESISTANCE_AT_20, "a", "b", all).orElseThrow();
    assertEquals(5, c.coils().size());
    assertEquals(1.002, c.offset().value(), 1e-6);
    assertTrue(c.differ());
    // Student's t for 4 degrees is 2.776 (tables of the distribution)
    assertEquals(2.776 * c.deviation() / Math.sqrt(5), c.leastSeen(), 1e-3 * c.leastSeen());
    assertTrue(BenchComparison.of(CoilValue.INDUCTANCE, "a", "b", all).isEmpty());
  }

  /** A curve with a peak, lifted above 1 kHz. */
  private static ShelvedCoil heard(String name, double lifted, double peakHz) {
    double[] hz = CurvePair.frequencies();
    double[] level =
        Arrays.stream(hz)
            .map(
                f -> {
                  double x = f / peakHz;
                  double q = 3;
                  return -10 * Math.log10(Math.pow(1 - x * x, 2) + x * x / (q * q))
                      + (f > 1000 ? lifted : 0);
                })
            .toArray();
    ShelvedCoil plain = coil(name, "a", CoilState.GOOD, 6000, 2.4, 110e-12, 2e-6);
    return new ShelvedCoil(
        plain.name(),
        plain.recipe(),
        plain.tags(),
        plain.notes(),
        plain.measurement(),
        plain.circumstances(),
        plain.program(),
        plain.state(),
        plain.reason(),
        plain.values(),
        Optional.of(new CoilCurve(level, level, level)));
  }

  @Test
  void pairsAreRankedByWhatIsHeard() {
    CoilPairs pairs =
        new CoilPairs(
            List.of(
                heard("one", 0, 4000),
                heard("same", 0, 4000),
                heard("loud", 3, 4000),
                heard("high", 0, 6000)));
    CoilPairs.Pair best = pairs.alike(10).get(0);
    assertEquals("one", best.first().name());
    assertEquals("same", best.second().name());
    assertEquals(0, best.distance().steps(), 1e-12);
    List<CoilPairs.Pair> like = pairs.like("one", 10);
    assertEquals("same", like.get(0).second().name());
    // 3 dB are three steps of 1 dB
    assertEquals("loud", like.get(1).second().name());
    assertEquals(3, like.get(1).distance().steps(), 0.05);
    assertEquals(2, pairs.sets(2, 5).size());
    assertEquals(6, pairs.alike(100).size());
  }
}

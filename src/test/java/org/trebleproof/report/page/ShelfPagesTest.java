package org.trebleproof.report.page;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.StringReader;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import javax.xml.parsers.DocumentBuilderFactory;
import org.junit.jupiter.api.Test;
import org.trebleproof.bench.mod.listen.CurvePair;
import org.trebleproof.quantity.Estimate;
import org.trebleproof.quantity.Known;
import org.trebleproof.quantity.Unit;
import org.trebleproof.shelf.item.Circumstances;
import org.trebleproof.shelf.item.CoilCurve;
import org.trebleproof.shelf.item.CoilState;
import org.trebleproof.shelf.item.CoilValue;
import org.trebleproof.shelf.item.ShelvedCoil;
import org.trebleproof.shelf.sheet.BenchComparison;
import org.trebleproof.shelf.sheet.CoilPairs;
import org.xml.sax.InputSource;

/** Pages on which coils of a shelf are held against each other. */
class ShelfPagesTest {

  private static final String DAY = "2026-11-30";

  /** A coil whose curve has a peak at this frequency [Hz]. */
  private static ShelvedCoil coil(String name, String bench, double hz, double ohm) {
    double[] at = CurvePair.frequencies();
    double[] level =
        Arrays.stream(at).map(f -> 8 / (1 + 4 * Math.pow(Math.log(f / hz), 2))).toArray();
    double[] low = Arrays.stream(level).map(l -> l - 0.05).toArray();
    double[] high = Arrays.stream(level).map(l -> l + 0.05).toArray();
    return new ShelvedCoil(
        name,
        "hot <bridge>",
        List.of(),
        "",
        name + bench,
        new Circumstances(bench, "", DAY, OptionalDouble.empty()),
        "1",
        CoilState.GOOD,
        "",
        Map.of(
            CoilValue.RESISTANCE_AT_20,
            new Estimate(ohm, ohm * 0.999, ohm * 1.001, Unit.OHM, Known.MEASURED)),
        Optional.of(new CoilCurve(level, low, high)));
  }

  private static final List<ShelvedCoil> COILS =
      List.of(
          coil("a & b", "bench a", 3000, 8000),
          coil("grey 7", "bench a", 3010, 8100),
          coil("grey 8", "bench b", 3500, 9000),
          coil("grey 9", "bench b", 3520, 9100));

  private static String wellFormed(String page) throws Exception {
    DocumentBuilderFactory.newInstance()
        .newDocumentBuilder()
        .parse(new InputSource(new StringReader(page.replaceFirst("<!DOCTYPE html>", ""))));
    return page;
  }

  private static int rows(String page) {
    return page.split("<th scope=\"row\">", -1).length - 1;
  }

  @Test
  void pairsStandWithTheClosestDrawn() throws Exception {
    CoilPairs pairs = new CoilPairs(COILS);
    String page = wellFormed(PairsPage.ofPairs(pairs.alike(10), "1", DAY));
    assertEquals(6, rows(page));
    assertEquals(2, page.split("<svg", -1).length - 1, "levels and their difference");
    assertFalse(page.contains("times the first"), "no ratio was asked for");
    page = PairsPage.ofPairs(pairs.apart(CoilValue.RESISTANCE_AT_20, 1.1, 3), "1", DAY);
    assertTrue(wellFormed(page).contains("times the first"));
    assertEquals(3, rows(page));
  }

  @Test
  void setsNameTheirCoils() throws Exception {
    String page = wellFormed(PairsPage.ofSets(new CoilPairs(COILS).sets(2, 5), "1", DAY));
    assertEquals(2, rows(page));
    for (String one : List.of("grey 8", "grey 9")) {
      assertTrue(page.lines().anyMatch(l -> l.matches(".*<td>[^<]*" + one + "[^<]*</td>.*")), one);
    }
  }

  @Test
  void theNearestComesFirst() throws Exception {
    ShelvedCoil coil = COILS.get(2);
    List<CoilPairs.Pair> like = new CoilPairs(COILS).like(coil.name(), 10);
    String page = wellFormed(PairsPage.like(coil, like, "1", DAY));
    assertEquals(3, rows(page));
    assertTrue(
        page.indexOf("<th scope=\"row\">grey 9") < page.indexOf("<th scope=\"row\">a &amp;"));
    assertTrue(page.contains("hot &lt;bridge&gt;"), "names are no markup");
    assertTrue(wellFormed(PairsPage.like(coil, List.of(), "1", DAY)).contains("no other good"));
  }

  @Test
  void benchesThatDifferAreSetOff() throws Exception {
    List<ShelvedCoil> all = new ArrayList<>();
    for (int i = 0; i < 4; i++) {
      all.add(coil("c" + i, "bench a", 3000, 8000 + 100 * i));
      // reads one percent more, give or take a hundredth
      all.add(coil("c" + i, "bench b", 3000, (8000 + 100 * i) * (1.01 + 1e-4 * (i % 2))));
    }
    BenchComparison differ =
        BenchComparison.of(CoilValue.RESISTANCE_AT_20, "bench a", "bench b", all).orElseThrow();
    String page = wellFormed(BenchesPage.of("bench a", "bench b", List.of(differ), all, "1", DAY));
    assertTrue(page.contains("read the resistance at 20 °C differently on the 4 coils"), page);
    assertTrue(page.contains("<td class=\"number odd\""));
    assertTrue(page.contains("not known yet"), "no coil was measured twice on one bench");
    BenchComparison agree =
        BenchComparison.of(
                CoilValue.RESISTANCE_AT_20,
                "bench a",
                "bench b",
                List.of(
                    coil("c", "bench a", 3000, 8000),
                    coil("c", "bench b", 3000, 8010),
                    coil("d", "bench a", 3000, 8000),
                    coil("d", "bench b", 3000, 7990)))
            .orElseThrow();
    page = wellFormed(BenchesPage.of("bench a", "bench b", List.of(agree), all, "1", DAY));
    assertTrue(page.contains("No difference is seen between"));
    assertFalse(page.contains("class=\"number odd\""));
  }
}

package org.trebleproof.circuit;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.util.List;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/**
 * Circuits against the committed answers of ngspice 39 (folder ngspice beside this class's
 * resources, each with its netlist; {@link NgspiceLiveTest} made them).
 */
class NgspiceReferenceTest {

  static List<NgspiceCase> cases() {
    return NgspiceCase.committed();
  }

  @ParameterizedTest
  @MethodSource("cases")
  void agrees(NgspiceCase one) throws IOException {
    String netlist = "ngspice/" + one.name() + ".cir";
    try (InputStream in = getClass().getResourceAsStream(netlist)) {
      assertNotNull(in, netlist + " is not there: record it with NgspiceLiveTest");
      // The answers belong to this netlist only.
      String committed = new String(in.readAllBytes(), StandardCharsets.UTF_8);
      assertEquals(committed, one.deck(), netlist + " is not what was answered");
    }
    List<double[]> rows = ReferenceTable.read("ngspice/" + one.name() + ".csv");
    assertEquals(31, rows.size());
    double[] gap = one.disagreement(rows);
    assertTrue(gap[0] < 1e-6, () -> one.name() + ": " + gap[0] + " dB");
    assertTrue(gap[1] < 1e-5, () -> one.name() + ": " + gap[1] + " degree");
  }
}

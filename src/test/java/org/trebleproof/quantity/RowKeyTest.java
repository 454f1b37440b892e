package org.trebleproof.quantity;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.HashSet;
import java.util.Set;
import org.junit.jupiter.api.Test;

/** The names in result files are those of its guide page, whatever parts and setups are called. */
class RowKeyTest {

  @Test
  void namesInResultFiles() {
    Subject setup = Subject.setup("before");
    assertEquals("before.resonance", RowKey.of(setup, Quantity.RESONANCE).text());
    assertEquals(
        "before.seriesInductance.1000Hz",
        RowKey.of(setup, Quantity.SERIES_INDUCTANCE).at(1000).text());
    assertEquals("change.loadConductance", RowKey.LOAD_CHANGE.text());
    assertEquals(
        "pickup.inductance", RowKey.of(Subject.coil("bridge", true), Quantity.INDUCTANCE).text());
    assertEquals(
        "bridge.inductance", RowKey.of(Subject.coil("bridge", false), Quantity.INDUCTANCE).text());
  }

  @Test
  void wordsHoldNoNameOfAFile() {
    RowKey coil = RowKey.of(Subject.coil("No. 3 coil", false), Quantity.CAPACITANCE);
    assertEquals("No. 3 coil: winding capacitance", coil.words());
    assertEquals(
        "coil: inductance", RowKey.of(Subject.coil("x", true), Quantity.INDUCTANCE).words());
    assertEquals("a.value", RowKey.of(Subject.part("a.value"), Quantity.PART_RESISTANCE).words());
    assertEquals("change of load conductance", RowKey.LOAD_CHANGE.words());
    RowKey meter = RowKey.of(Subject.setup("bare 1.5"), Quantity.SERIES_Q);
    assertEquals("bare 1.5: Q at 1 kHz", meter.at(1000).words());
    assertEquals("bare 1.5: Q at 120 Hz", meter.at(120).words());
  }

  @Test
  void aTextMeansARowWholeOrWithoutItsSubject() {
    RowKey key = RowKey.of(Subject.coil("No. 3 coil", false), Quantity.INDUCTANCE);
    assertTrue(key.meantBy("No. 3 coil.inductance"));
    assertTrue(key.meantBy("inductance"));
    assertFalse(key.meantBy("coil.inductance"));
    assertFalse(key.meantBy("ductance"));
    assertTrue(
        RowKey.of(Subject.part("a.value"), Quantity.PART_RESISTANCE).meantBy("a.value.value"));
  }

  @Test
  void theGuideNamesEveryQuantity() throws IOException {
    String guide = Files.readString(Path.of("src/site/markdown/result-file.md"));
    for (Quantity quantity : Quantity.values()) {
      assertTrue(guide.contains("." + quantity.code()), quantity.code());
    }
  }

  @Test
  void aSetupMayBeCalledLikeAPickupOrAPart() {
    Set<RowKey> keys = new HashSet<>();
    keys.add(RowKey.of(Subject.setup("x"), Quantity.RESONANCE));
    keys.add(RowKey.of(Subject.coil("x", false), Quantity.RESISTANCE));
    keys.add(RowKey.of(Subject.part("x"), Quantity.PART_RESISTANCE));
    assertEquals(3, keys.size());
    assertTrue(keys.contains(RowKey.of(Subject.part("x"), Quantity.PART_RESISTANCE)));
    assertNotEquals(Subject.setup("x"), Subject.part("x"));
  }
}

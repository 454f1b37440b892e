package org.trebleproof.bench.job;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;

class ComparedSetupsTest {

  private static Setup setup(String name, String pickup, Optional<String> lead) {
    return new Setup(
        name,
        pickup,
        Optional.empty(),
        Optional.empty(),
        Optional.empty(),
        false,
        lead,
        Optional.empty());
  }

  private static final Setup COIL = setup("coil", "bridge", Optional.empty());
  private static final Setup BEFORE = setup("before", "bridge", Optional.of("long"));
  private static final Setup AFTER = setup("after", "bridge", Optional.of("short"));
  private static final Setup THIRD = setup("third", "bridge", Optional.of("shorter"));
  private static final Setup NECK = setup("neck", "neck", Optional.of("long"));

  private static List<String> compared(Setup... setups) {
    return ComparedSetups.of(List.of(setups)).stream().map(Setup::name).toList();
  }

  @Test
  void twoAreComparedWhateverTheyAre() {
    assertEquals(List.of("coil", "before"), compared(COIL, BEFORE));
    assertEquals(List.of("before", "neck"), compared(BEFORE, NECK));
  }

  @Test
  void aBareCoilBesideTwoGuitarsIsNot() {
    assertEquals(List.of("before", "after"), compared(COIL, BEFORE, AFTER));
    assertEquals(List.of("before", "after", "third"), compared(BEFORE, COIL, AFTER, THIRD));
  }

  @Test
  void anotherPickupIsNot() {
    assertEquals(List.of("before", "after"), compared(BEFORE, NECK, AFTER));
    assertEquals(
        List.of("coil"),
        compared(
            Stream.concat(
                    Stream.of(COIL),
                    Stream.of("neck", "middle").map(p -> setup(p, p, Optional.empty())))
                .toArray(Setup[]::new)));
  }
}

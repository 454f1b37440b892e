package org.trebleproof.bench.live;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.trebleproof.quantity.RowKeys.key;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.trebleproof.quantity.Refusal;

final class IntervalGoalTest {

  @Test
  void readsAKeyAndAShare() {
    assertEquals(
        new IntervalGoal("old volume.value", 0.015), IntervalGoal.parse("old volume.value 1.5%"));
    String goal = IntervalGoal.parse("loadResistance 2%").key();
    assertTrue(key("before.loadResistance").meantBy(goal));
    assertFalse(key("before.seriesResistance.1000Hz").meantBy(goal));
  }

  @ParameterizedTest
  @ValueSource(strings = {"", "loadResistance", "loadResistance 2", "loadResistance -1%", "x y%"})
  void refusesWhatIsNone(String text) {
    assertThrows(Refusal.class, () -> IntervalGoal.parse(text));
  }
}

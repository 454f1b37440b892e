package org.trebleproof.shelf.item;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import org.junit.jupiter.api.Test;
import org.trebleproof.quantity.Refusal;

class CoilNameTest {

  @Test
  void theNextNameIsProposed() {
    assertEquals("grey 7", CoilName.after("grey 6"));
    assertEquals("grey 10", CoilName.after("grey 9"));
    assertEquals("n-010", CoilName.after("n-009"));
    assertEquals("grey 2", CoilName.after("grey"));
    assertEquals("grey 8", CoilName.free("grey 6", Set.of("grey 6", "grey 7")));
    assertEquals("grey 6", CoilName.free("grey 6", Set.of("grey 7")));
  }

  @Test
  void namesAreOrderedByTheirNumbers() {
    List<String> names = new ArrayList<>(List.of("grey 10", "Grey 9", "blue", "grey 2", "grey"));
    names.sort(CoilName.ORDER);
    assertEquals(List.of("blue", "grey", "grey 2", "Grey 9", "grey 10"), names);
  }

  @Test
  void aNameIsOneLine() {
    assertThrows(Refusal.class, () -> CoilName.checked("a\nb"));
    assertThrows(Refusal.class, () -> CoilName.checked(" "));
    assertEquals("grey 6", CoilName.checked(" grey 6 "));
  }
}

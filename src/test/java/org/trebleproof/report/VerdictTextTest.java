package org.trebleproof.report;

import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import org.junit.jupiter.api.Test;

class VerdictTextTest {

  @Test
  void fitsOnOneScreen() {
    for (var r :
        List.of(ExampleResults.potSwap(), ExampleResults.bareCoil(), ExampleResults.refused())) {
      List<String> lines = VerdictText.ofChange(r, TextStyle.PLAIN);
      System.out.println(String.join("\n", lines) + "\n----");
      assertTrue(lines.size() <= 24);
      assertTrue(lines.stream().allMatch(l -> l.length() <= 100));
    }
    System.out.println(
        String.join("\n", VerdictText.ofFit(ExampleResults.potSwap(), TextStyle.PLAIN)));
  }
}

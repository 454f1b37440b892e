package org.trebleproof.report.words;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.trebleproof.quantity.RowKeys.key;

import java.util.List;
import org.junit.jupiter.api.Test;
import org.trebleproof.bench.answer.FitResult;
import org.trebleproof.report.ExampleResults;

class AdviceTextTest {

  @Test
  void namesTheMeasurementAndWhatItBuys() {
    assertEquals(
        List.of(
            "School-band baritone: volume pot 250k to 500k",
            "What would settle more, the best first:",
            "1. Clip 1 nF (1 %) across the jack in setup \"before\" and sweep again (coil: winding"
                + " capacitance:",
            "   ±42 % now, ±2 % then).",
            "",
            "Still open, known from markings only: coil: winding capacitance 120 ±50 pF; new volume 481k"
                + " ±58k;",
            "  tone pot 251k ±48k."),
        AdviceText.lines(ExampleResults.potSwap(), TextStyle.PLAIN));
  }

  @Test
  void asksForARefusedCaptureAgain() {
    String text = String.join("\n", AdviceText.lines(ExampleResults.refused(), TextStyle.PLAIN));
    assertTrue(text.contains("have to be taken again"), text);
    assertTrue(text.contains("Next: Turn the input gain or the sweep down"), text);
  }

  @Test
  void saysWhatIsOpenNow() {
    assertEquals(
        "Clip a capacitor on (coil: inductance: open now, ±0.5 % then).",
        AdviceText.of(
            new FitResult.Advice(
                FitResult.Advice.About.PARTS,
                "clip a capacitor on",
                key("pickup.inductance"),
                Double.POSITIVE_INFINITY,
                0.005)));
  }
}

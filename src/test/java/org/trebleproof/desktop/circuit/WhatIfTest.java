package org.trebleproof.desktop.circuit;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Map;
import java.util.Optional;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.DoubleRange;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.trebleproof.bench.answer.Rows;
import org.trebleproof.bench.answer.TrebleLoss;
import org.trebleproof.bench.job.Slot;
import org.trebleproof.bench.mod.predict.Predictor;
import org.trebleproof.quantity.Refusal;
import org.trebleproof.report.schematic.Item;

/** A guitar with something changed about it, without a window. */
class WhatIfTest {

  private final WhatIf asItIs = ExampleGuitars.asItIs(ExampleGuitars.USUAL);

  @Test
  void turningBackIsNoChange() {
    WhatIf turned = asItIs.turned(Slot.TONE, 0.4);
    assertEquals(Map.of("toneRotation", "0.4"), turned.changes());
    assertEquals(0.4, turned.rotation(Slot.TONE));
    assertEquals(Map.of(), turned.turned(Slot.TONE, 1).changes());
  }

  @Property(seed = "20261125", tries = 200)
  void potsStopAtTheirEnds(@ForAll @DoubleRange(min = -3, max = 4) double rotation) {
    double tone = asItIs.turned(Slot.TONE, rotation).rotation(Slot.TONE);
    double volume = asItIs.turned(Slot.VOLUME, rotation).rotation(Slot.VOLUME);
    assertEquals(Math.max(0, Math.min(1, rotation)), tone, 5.1e-4);
    assertEquals(Math.max(0.01, Math.min(1, rotation)), volume, 5.1e-4);
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "500k|VOLUME|500e3",
        "0,5M|VOLUME|500e3",
        "4,7n 5%|TONE_CAPACITOR|4.7e-9",
        "223|CABLE|",
        "22k|TONE_CAPACITOR|",
        "much|VOLUME|"
      })
  void valuesAreTypedAsTheTradeWritesThem(String text, Slot slot, Double value) {
    if (value == null) {
      assertThrows(Refusal.class, () -> asItIs.typed(slot, text));
    } else {
      assertEquals(value, asItIs.typed(slot, text).value(slot), 1e-9 * value);
    }
  }

  @Test
  void percentTurnsAndNoneTakesAway() {
    assertEquals(0.625, asItIs.typed(Slot.TONE, "62,5 %").rotation(Slot.TONE));
    assertThrows(Refusal.class, () -> asItIs.typed(Slot.TONE, "120 %"));
    WhatIf without = asItIs.typed(Slot.TONE_CAPACITOR, "none");
    assertTrue(without.then().part(Slot.TONE).isEmpty());
    assertEquals(Map.of(), without.asNow(Slot.TONE).changes());
    assertEquals(Map.of(), asItIs.typed(Slot.VOLUME, "1M").typed(Slot.VOLUME, " ").changes());
  }

  @Test
  void stepsGoToPreferredValues() {
    // IEC 60063, E12: 15, 18, 22, 27, 33 and 390, 470, 560.
    assertEquals(
        27e-9, asItIs.stepped(Slot.TONE_CAPACITOR, true).value(Slot.TONE_CAPACITOR), 1e-12);
    assertEquals(
        18e-9, asItIs.stepped(Slot.TONE_CAPACITOR, false).value(Slot.TONE_CAPACITOR), 1e-12);
    assertEquals(560e-12, asItIs.stepped(Slot.CABLE, true).value(Slot.CABLE), 1e-15);
    assertEquals(470e-12, asItIs.stepped(Slot.CABLE, false).value(Slot.CABLE), 1e-15);
  }

  @Test
  void whatIsMissingIsOffered() {
    WhatIf bare = ExampleGuitars.asItIs("volume=250k");
    List<String> words = PartOffer.of(bare).stream().map(PartOffer::words).toList();
    assertEquals("tone pot, 500k, 22n", words.get(0));
    assertTrue(words.contains("treble bleed capacitor, 1n"));
    for (PartOffer offer : PartOffer.of(bare)) {
      assertTrue(offer.made(bare).then().parts().size() > bare.then().parts().size());
      assertTrue(LiveCurve.of(offer.made(bare)) != null, offer.words());
    }
    WhatIf without = asItIs.typed(Slot.CABLE, "none");
    assertEquals(
        Map.of(),
        PartOffer.of(without).stream()
            .filter(o -> o.words().equals("lead, as it is now"))
            .findFirst()
            .orElseThrow()
            .made(without)
            .changes());
  }

  @Test
  void partsSayWhetherTheyAreAssumed() {
    PartWords words = new PartWords(asItIs, new SaidInscriptions(asItIs.chain(), Rows.NONE));
    Item volume = item(Slot.VOLUME, asItIs);
    Item tone = item(Slot.TONE, asItIs);
    assertEquals("volume pot: 250k ±10 %. Turned to 100 %.", words.of(volume));
    assertEquals("tone pot: 250k ±20 %, assumed. Turned to 100 %.", words.of(tone));
    WhatIf changed = asItIs.typed(Slot.VOLUME, "500k 5%");
    assertEquals(
        "volume pot: 500k ±5 %. Turned to 100 %. Changed.",
        new PartWords(changed, new SaidInscriptions(changed.chain(), Rows.NONE))
            .of(item(Slot.VOLUME, changed)));
  }

  private static Item item(Slot slot, WhatIf state) {
    return new Item(
        Item.Kind.PART,
        Optional.of(slot),
        state.then().part(slot).orElseThrow(),
        Item.State.PLAIN,
        List.of());
  }

  @Test
  void curveIsThePredictors() {
    WhatIf changed = asItIs.typed(Slot.VOLUME, "500k").turned(Slot.TONE, 0.3);
    LiveCurve curve = LiveCurve.of(changed);
    assertArrayEquals(
        new Predictor(changed.chain(), changed.now(), changed.then(), 0).curve(LiveCurve.HZ),
        curve.then());
    assertArrayEquals(LiveCurve.of(asItIs).then(), curve.now(), 1e-9);
  }

  @Test
  void litShareIsTheExplanationsAtThePeak() {
    LiveCurve curve = LiveCurve.of(asItIs);
    LiveCurve.Lit lit = LiveCurve.Lit.of(curve, "volume pot");
    TrebleLoss.Share share = lit.share();
    int peak = 0;
    while (LiveCurve.HZ[peak] < lit.hz()) {
      peak++;
    }
    assertEquals(share.there().value(), lit.loss()[peak], 1e-9);
    assertTrue(share.there().value() > 0.5 && share.there().halfWidth() > 0);
    assertEquals(null, LiveCurve.Lit.of(curve, "treble bleed"));
  }
}

package org.trebleproof.quantity;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** About 100 pF per metre, 66 to 160 (common practice, no source). */
class LeadLengthTest {

  @ParameterizedTest
  @CsvSource({"9 m, 925p", "9m, 925p", "450 cm, 462p", "15 ft, 470p", "3 metres, 308p"})
  void readsALength(String text, String capacitance) {
    assertTrue(LeadLength.isMeant(text));
    Marking marking = LeadLength.capacitance(text);
    assertEquals(TradeNotation.value(capacitance, Unit.FARAD), marking.value(), 1e-12);
    assertFalse(marking.stated());
  }

  @Test
  void aCapacitanceIsNoLength() {
    for (String text : new String[] {"480p", "0.5n", "480p 10%", "m", "nine m"}) {
      assertFalse(LeadLength.isMeant(text), text);
    }
    assertThrows(TradeNotationException.class, () -> LeadLength.capacitance("90 m"));
  }

  @ParameterizedTest
  @CsvSource({
    "300p, 'a 3 m lead, about 300p'",
    "450p, 'a 4.5 m lead, about 450p'",
    "600p, 'a 6 m lead, about 600p'",
    "900p, 'a 9 m lead, about 900p'",
    "20p, 'a 0.5 m lead, about 20p'"
  })
  void answersInMetres(String capacitance, String words) {
    assertEquals(words, LeadLength.words(TradeNotation.value(capacitance, Unit.FARAD)));
  }

  /** What is answered is read back as the same lead, to the half metre. */
  @Test
  void itsAnswerIsItsQuestion() {
    for (double metres = 0.5; metres <= 20; metres += 0.5) {
      String text = metres + " m";
      String back = LeadLength.metres(LeadLength.capacitance(text).value());
      assertEquals(text.replace(".0 m", " m"), back);
    }
  }
}

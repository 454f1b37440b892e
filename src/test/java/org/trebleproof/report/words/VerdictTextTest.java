package org.trebleproof.report.words;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.trebleproof.quantity.RowKeys.key;

import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.trebleproof.bench.answer.FitResult;
import org.trebleproof.quantity.Finding;
import org.trebleproof.quantity.FindingCode;
import org.trebleproof.quantity.Verdict;
import org.trebleproof.report.ExampleResults;

class VerdictTextTest {

  private static final char ESCAPE = 27;

  static List<FitResult> examples() {
    return List.of(ExampleResults.potSwap(), ExampleResults.bareCoil(), ExampleResults.refused());
  }

  @ParameterizedTest
  @MethodSource("examples")
  void fitsOnOneScreen(FitResult result) {
    for (List<String> lines :
        List.of(
            VerdictText.ofChange(result, TextStyle.PLAIN),
            VerdictText.ofFit(result, TextStyle.PLAIN))) {
      String text = String.join("\n", lines);
      assertTrue(lines.size() <= 24, text);
      assertTrue(lines.stream().allMatch(l -> l.length() <= 100), text);
      assertFalse(text.matches("(?s).*\\d[eE][-+]?\\d.*"), "no powers of ten: " + text);
    }
  }

  @Test
  void readsAsACustomerAndATechnicianReadIt() {
    assertEquals(
        """
        School-band baritone: volume pot 250k to 500k
        The new volume pot is about 481k ±58k (marked 500k, usual ±20 %: not read well enough to decide),
        the old one reads 238k ±14k. That gives back 2.05 ±0.07 dB at 3.9 kHz, on the edge of hearing; the
        coil is unchanged.
          change of load conductance -2.23 ±0.02 µS measured
                                     before                            after
          resonance                  3564.9 ±0.7 Hz measured           3719.2 ±0.7 Hz measured
          peak over 20 Hz            3.90 ±0.01 dB measured            5.60 ±0.01 dB measured
          load resistance            110.9k ±0.8k measured             147.4k ±1.0k measured
          total capacitance          680 ±5 pF measured                680 ±5 pF measured
          coil: inductance           2.401 ±0.016 H measured
          coil: resistance           5.70k ±0.04k measured
          coil: winding capacitance  120 ±50 pF assumed
          old volume                 238k ±14k measured                new volume      481k ±58k assumed
          tone pot                   251k ±48k assumed
        What takes the treble, held against the pickup without pots on a 2 m lead into 1M
          volume pot                 4.20 ±0.10 dB at 3.2 kHz          2.60 ±0.10 dB at 3.2 kHz
          lead                       3.10 ±0.10 dB at 3.2 kHz          2.70 ±0.10 dB at 3.2 kHz
          recorder input             1.10 ±0.10 dB at 3.2 kHz          1.20 ±0.10 dB at 3.2 kHz
        Mind: The calibration of the recorder in bench.json is more than a year old. Next: Measure the
          calibration again.
        1 note in --json and --page.
        To settle more: Clip 1 nF (1 %) across the jack in setup "before" and sweep again (coil: winding
          capacitance: ±42 % now, ±2 % then).
        """,
        String.join("\n", VerdictText.ofChange(ExampleResults.potSwap(), TextStyle.PLAIN)) + "\n");
  }

  @Test
  void aRefusedJobGivesReasonAndNextStepInPlaceOfNumbers() {
    assertEquals(
        """
        School-band baritone: volume pot 250k to 500k
        No verdict: Capture "after": the device channel is clipped.
        Evidence: 0.34 % of its samples sit at 0.9999 of full scale.
        Next: Turn the input gain or the sweep down and record it again.
        """,
        String.join("\n", VerdictText.ofChange(ExampleResults.refused(), TextStyle.PLAIN)) + "\n");
  }

  @Test
  void whatWasWithdrawnComesBeforeWhatIsLeft() {
    FitResult good = ExampleResults.potSwap();
    FitResult partly =
        FitResult.of(
                good.job(),
                new Verdict(
                    List.of(
                        Finding.of(
                                FindingCode.NO_MODEL_FITS,
                                "No coil model fits.",
                                "",
                                "sweep the bare pickup")
                            .about(List.of(key("pickup.inductance"))))))
            .withModel(good.model())
            .withRows(
                ExampleResults.rows(
                    good.rows().list().get(0),
                    new FitResult.Row(key("pickup.inductance"), Optional.empty())))
            .withDifferences(good.differences())
            .withCaptures(good.captures());
    List<String> lines = VerdictText.ofChange(partly, TextStyle.PLAIN);
    String text = String.join("\n", lines);
    int error = text.indexOf("Error: No coil model fits. Next: Sweep the bare pickup.");
    assertTrue(text.indexOf("±0.07 dB") > 0 && text.indexOf("±0.07 dB") < error, text);
    assertTrue(error < text.indexOf("withdrawn"), text);
  }

  /** Each sentence stands with its own evidence, once, and what follows from it is left out. */
  @Test
  void ofTwoErrorsTheCauseIsToldWithItsOwnEvidence() {
    FitResult good = ExampleResults.potSwap();
    Finding follows =
        Finding.of(
                FindingCode.NO_MODEL_FITS, "No coil explains it.", "it misses by 1 %", "look again")
            .about(List.of(key("pickup.inductance")));
    Finding cause =
        Finding.of(
            FindingCode.MARKING_CONTRADICTED, "The lead is not 480p.", "it reads 2.7n", "see it");
    Finding other =
        Finding.of(FindingCode.SAME_RECORDING, "One file is there twice.", "the same bytes", "name")
            .in("before", "after");
    FitResult refused =
        FitResult.of(good.job(), new Verdict(List.of(follows, cause, other)))
            .withModel(good.model())
            .withCaptures(good.captures());
    assertEquals(
        """
        School-band baritone: volume pot 250k to 500k
        No verdict: One file is there twice.
        Evidence: The same bytes.
        Next: Name.
        Also: The lead is not 480p.
        Evidence: It reads 2.7n.
        Next: See it.
        1 further finding in --json.
        """,
        String.join("\n", VerdictText.ofChange(refused, TextStyle.PLAIN)) + "\n");
  }

  @Test
  void setsOffOnlyForATerminal() {
    String plain = String.join("\n", VerdictText.ofFit(ExampleResults.potSwap(), TextStyle.PLAIN));
    List<String> styled = VerdictText.ofFit(ExampleResults.potSwap(), TextStyle.ANSI);
    assertEquals(-1, plain.indexOf(ESCAPE));
    assertTrue(styled.get(1).startsWith(ESCAPE + "[1m"), "the sentence is bold");
    assertTrue(
        styled.stream().anyMatch(l -> l.contains(ESCAPE + "[2m120 ±50 pF assumed")),
        "assumed is faint");
    String bare = String.join("\n", styled).replaceAll(ESCAPE + "\\[\\dm", "");
    assertEquals(plain, bare.replaceAll(" +\n", "\n"), "the same words");
  }
}

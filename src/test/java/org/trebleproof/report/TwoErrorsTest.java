package org.trebleproof.report;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.trebleproof.quantity.RowKeys.key;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.trebleproof.bench.answer.FitResult;
import org.trebleproof.bench.answer.Rows;
import org.trebleproof.quantity.Finding;
import org.trebleproof.quantity.FindingCode;
import org.trebleproof.quantity.Verdict;
import org.trebleproof.report.file.ResultJson;
import org.trebleproof.report.page.HtmlPage;
import org.trebleproof.report.words.TextStyle;
import org.trebleproof.report.words.VerdictText;

/**
 * A job with two errors at once and one that follows from them, found in whatever order: each face
 * tells the causes first, each with its own evidence, and no sentence twice.
 */
class TwoErrorsTest {

  private static final Finding FOLLOWS =
      Finding.of(
              FindingCode.NO_MODEL_FITS, "No coil explains it.", "it misses by 1 %", "look again")
          .about(List.of(key("pickup.inductance")));

  private static final Finding CAUSE =
      Finding.of(
          FindingCode.MARKING_CONTRADICTED, "The lead is not 480p.", "it reads 2.7n", "see to it");

  private static final Finding OTHER =
      Finding.of(
              FindingCode.SAME_RECORDING, "One file is there twice.", "the same bytes", "name both")
          .in("before", "after");

  private static FitResult refused(int turn) {
    List<Finding> findings = new ArrayList<>(List.of(FOLLOWS, CAUSE, OTHER));
    java.util.Collections.rotate(findings, turn);
    return ExampleResults.potSwap().withRows(Rows.NONE).withVerdict(new Verdict(findings));
  }

  @ParameterizedTest
  @ValueSource(ints = {0, 1, 2})
  void inTheTerminal(int turn) {
    String text = String.join("\n", VerdictText.ofChange(refused(turn), TextStyle.PLAIN));
    inOrder(
        text,
        "No verdict: One file is there twice.",
        "Evidence: The same bytes.",
        "Next: Name both.",
        "Also: The lead is not 480p.",
        "Evidence: It reads 2.7n.",
        "Next: See to it.");
    assertFalse(text.contains("No coil explains it"), text);
    once(text);
  }

  /** The sheet and the evidence are read apart: a sentence may stand once in each. */
  @ParameterizedTest
  @ValueSource(ints = {0, 1, 2})
  void onThePage(int turn) {
    String page = HtmlPage.of(refused(turn), "0", "2026-01-31");
    int end = page.indexOf("</section>");
    String sheet = page.substring(0, end);
    inOrder(
        sheet,
        "No verdict: One file is there twice.",
        "Next: Name both.",
        "The lead is not 480p.",
        "Next: See to it.");
    assertFalse(sheet.contains("No coil explains it"), sheet);
    once(sheet);
    String evidence = page.substring(end);
    inOrder(
        evidence,
        "One file is there twice.",
        "Evidence: the same bytes",
        "The lead is not 480p.",
        "Evidence: it reads 2.7n",
        "No coil explains it.",
        "Evidence: it misses by 1 %");
    once(evidence);
  }

  @ParameterizedTest
  @ValueSource(ints = {0, 1, 2})
  void inTheResultFile(int turn) throws Exception {
    JsonNode json = new ObjectMapper().readTree(ResultJson.of(refused(turn)));
    List<String> told = new ArrayList<>();
    json.get("findings")
        .forEach(f -> told.add(f.get("code").asText() + ": " + f.get("evidence").asText()));
    assertEquals(
        List.of(
            "same-recording: the same bytes",
            "marking-contradicted: it reads 2.7n",
            "no-model-fits: it misses by 1 %"),
        told);
  }

  private static void inOrder(String text, String... sentences) {
    int at = 0;
    for (String sentence : sentences) {
      int found = text.indexOf(sentence, at);
      assertTrue(found >= 0, sentence + " after " + at + " in " + text);
      at = found + sentence.length();
    }
  }

  private static void once(String text) {
    for (Finding finding : List.of(FOLLOWS, CAUSE, OTHER)) {
      int first = text.indexOf(finding.text());
      assertEquals(first, text.lastIndexOf(finding.text()), finding.text());
    }
  }
}

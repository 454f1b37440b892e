package org.trebleproof.bench.mod.explain;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.trebleproof.bench.FitJob;
import org.trebleproof.bench.answer.FitResult;
import org.trebleproof.bench.answer.TrebleLoss;
import org.trebleproof.bench.job.JobReader;
import org.trebleproof.bench.mod.guitar.SignalChain;
import org.trebleproof.bench.mod.predict.Audibility;
import org.trebleproof.report.words.ExplanationText;
import org.trebleproof.report.words.Headline;
import org.trebleproof.report.words.TextStyle;
import org.trebleproof.report.words.VerdictText;

/** The player with the long lead, from the recordings to the answer. */
class TrebleComplaintTest {

  private static FitResult result;
  private static SignalChain guitar;

  @BeforeAll
  static void fit() {
    result =
        new FitJob()
            .run(
                JobReader.read(Path.of("sample-captures", "treble-complaint", "job.json")),
                parts -> guitar = SignalChain.of(parts, List.of()));
  }

  @Test
  void theLongLeadTakesMostAndTheShorterOneIsNamed() {
    SignalChain now = guitar.at("long lead");
    Explanation e = new Explainer(now, now.layout(Optional.empty())).explain();
    assertEquals("9 m lead", e.shares().get(0).name());
    assertEquals("the pickup without pots on the 3 m lead into 1M", e.treble().against());
    // the exchange of leads gives back 8.8 dB at 4 kHz with these pots, and more without them
    assertEquals(9.5, e.shares().get(0).there().value(), 1.5);
    assertTrue(e.shares().get(0).there().halfWidth() < 0.5);
    Explanation.Remedy own =
        e.remedies().stream().filter(Explanation.Remedy::atHand).findFirst().orElseThrow();
    assertEquals("use the 3 m lead (329p)", own.change());
    assertEquals(Audibility.Grade.PLAIN, own.audible());
    String said = String.join(" ", ExplanationText.headline(e));
    assertTrue(said.startsWith("The 9 m lead takes most: "), said);
    assertTrue(said.contains("Use the 3 m lead (329p): that gives back 8."), said);
    assertFalse(said.contains("-"), said);
  }

  @Test
  void atTheShortLeadThePotsTakeMost() {
    SignalChain now = guitar.at("short lead");
    TrebleLoss loss = new Explainer(now, now.layout(Optional.empty())).loss();
    assertEquals("volume pot", loss.shares().get(0).name());
    assertTrue(loss.shares().stream().noneMatch(s -> s.cause().equals("lead")));
  }

  @Test
  void theComparisonSaysTheSame() {
    assertEquals(
        List.of("long lead", "short lead"),
        result.treble().stream().map(TrebleLoss::wiring).toList());
    assertEquals("9 m lead", result.treble().get(0).shares().get(0).name());
    String headline = Headline.of(result);
    assertTrue(headline.startsWith("The 3 m lead is about 329"), headline);
    assertTrue(headline.contains("That gives back 8.8"), headline);
    assertTrue(headline.contains("the coil is unchanged"), headline);
    String terminal = String.join("\n", VerdictText.ofChange(result, TextStyle.PLAIN));
    assertFalse(terminal.contains("gain:"), terminal);
  }
}

package org.trebleproof.report.words;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.trebleproof.bench.answer.FitResult;
import org.trebleproof.bench.job.Setup;
import org.trebleproof.quantity.Estimate;
import org.trebleproof.quantity.EstimateText;
import org.trebleproof.quantity.Finding;
import org.trebleproof.quantity.Known;

/**
 * The verdict for a terminal of 24 lines by 100 columns: one sentence, the key numbers with their
 * 95 % intervals, what to mind, where the treble went, what to measure next. A refused job gives
 * the reason and the next step in their place.
 */
public final class VerdictText {

  private static final int WIDTH = 98;
  private static final int LABEL = 29;
  private static final int CELL = 34;
  private static final int TREBLE_LABEL = 39;
  private static final int TREBLE_CELL = 24;
  private static final int MOST_SETUPS = 2;
  private static final int MOST_WARNINGS = 3;
  private static final int MOST_CAUSES = 4;
  private static final List<String> METER_ROWS =
      List.of("seriesInductance.1000Hz", "seriesResistance.1000Hz", "seriesQ.1000Hz");

  private final FitResult result;
  private final TextStyle style;
  private final List<String> lines = new ArrayList<>();

  private VerdictText(FitResult result, TextStyle style) {
    this.result = result;
    this.style = style;
  }

  /** The verdict that leads with what changed between two setups. */
  public static List<String> ofChange(FitResult result, TextStyle style) {
    return new VerdictText(result, style).lines(Headline.of(result));
  }

  /** The verdict that leads with the coil and its resonance. */
  public static List<String> ofFit(FitResult result, TextStyle style) {
    return new VerdictText(result, style).lines(Headline.ofFit(result));
  }

  private List<String> lines(String headline) {
    lines.add(style.faint(result.job().title()));
    for (String line : Wrapped.lines(headline, WIDTH, "")) {
      lines.add(style.strong(line));
    }
    if (result.verdict().refused()) {
      addRefusal();
      return lines;
    }
    addErrors();
    addNumbers();
    addTreble();
    addFindings();
    addAdvice();
    return lines;
  }

  private void addRefusal() {
    int shown = 0;
    for (Finding finding : result.verdict().errors()) {
      if (shown == MOST_CAUSES) {
        break;
      }
      if (shown > 0) {
        addWrapped("Also: " + finding.text());
      }
      if (!finding.evidence().isEmpty()) {
        addFaint("Evidence: " + Sentence.of(finding.evidence()));
      }
      addWrapped("Next: " + Sentence.of(finding.next()));
      shown++;
    }
    long others = result.findings().size() - shown;
    if (others > 0) {
      addFaint(others + (others == 1 ? " further finding" : " further findings") + " in --json.");
    }
  }

  private void addNumbers() {
    List<String> setups = setups();
    lines.add("");
    if (setups.size() > 1) {
      StringBuilder header = new StringBuilder(padded("", LABEL));
      setups.forEach(setup -> header.append(padded(setup, CELL)));
      lines.add(style.faint(header.toString().stripTrailing()));
    }
    for (String quantity : KeyQuantities.ofSetups(result)) {
      addRow(
          RowName.quantity("setup." + quantity),
          setups.stream().map(setup -> setup + "." + quantity).toList());
    }
    for (String key : KeyQuantities.COIL) {
      addRow(RowName.full(key), List.of(key));
    }
    for (String setup : setups.stream().filter(this::bare).toList()) {
      for (String quantity : METER_ROWS) {
        String key = setup + "." + quantity;
        if (estimate(key).isPresent()) {
          addRow(RowName.full(key), List.of(key));
        }
      }
    }
    addParts();
  }

  /** A component meter is held against a coil, not against a guitar. */
  private boolean bare(String setup) {
    Setup s = result.job().setups().get(setup);
    return s.volume().isEmpty() && s.tone().isEmpty() && s.cable().isEmpty();
  }

  private void addParts() {
    List<String> keys =
        result.rows().stream().map(FitResult.Row::key).filter(k -> k.endsWith(".value")).toList();
    for (int i = 0; i < keys.size(); i += 2) {
      StringBuilder line = new StringBuilder();
      for (String key : keys.subList(i, Math.min(keys.size(), i + 2))) {
        String name = padded(RowName.full(key), line.length() == 0 ? LABEL - 2 : 16);
        line.append(line.length() == 0 ? "  " : "").append(name).append(cell(key));
      }
      lines.add(line.toString().stripTrailing());
    }
  }

  /** The setups that have a number to show, the first ones where there are many. */
  private List<String> setups() {
    return result.job().setups().keySet().stream()
        .filter(
            setup ->
                result.rows().stream().anyMatch(row -> RowName.subject(row.key()).equals(setup)))
        .limit(MOST_SETUPS)
        .toList();
  }

  private void addRow(String label, List<String> keys) {
    if (keys.stream().noneMatch(this::known)) {
      return;
    }
    StringBuilder line = new StringBuilder(padded("  " + label, LABEL));
    keys.forEach(key -> line.append(cell(key)));
    lines.add(line.toString().stripTrailing());
  }

  private boolean known(String key) {
    return result.rows().stream().anyMatch(row -> row.key().equals(key));
  }

  private String cell(String key) {
    if (!known(key)) {
      return padded("", CELL);
    }
    Optional<Estimate> estimate = estimate(key);
    if (estimate.isEmpty()) {
      return style.faint(padded("withdrawn", CELL));
    }
    String text = EstimateText.full(estimate.get());
    String word = " " + estimate.get().known().word();
    String space = " ".repeat(Math.max(1, CELL - text.length() - word.length()));
    if (estimate.get().known() == Known.ASSUMED) {
      return style.faint(text + word) + space;
    }
    return text + style.faint(word) + space;
  }

  private void addTreble() {
    List<FitResult.TrebleLoss> losses =
        result.treble().stream().filter(l -> !l.shares().isEmpty()).limit(MOST_SETUPS).toList();
    if (losses.isEmpty()) {
      return;
    }
    FitResult.TrebleLoss first = losses.get(0);
    int all = first.shares().size() - 1;
    String heading =
        String.format(
            Locale.ROOT,
            "Treble lost, %.0f to %.0f kHz, all together",
            first.lowHz() / 1000,
            first.highHz() / 1000);
    addShares(heading, losses, all);
    for (int i = 0; i < all; i++) {
      addShares("  " + first.shares().get(i).load() + " alone", losses, i);
    }
    if (losses.stream().flatMap(l -> l.shares().stream()).anyMatch(s -> s.loss().high() < 0)) {
      addFaint("Minus is a gain: that load moves the resonance into this band.");
    }
  }

  private void addShares(String label, List<FitResult.TrebleLoss> losses, int share) {
    StringBuilder line = new StringBuilder(padded(label, TREBLE_LABEL));
    for (FitResult.TrebleLoss loss : losses) {
      if (share < loss.shares().size()) {
        line.append(padded(EstimateText.full(loss.shares().get(share).loss()), TREBLE_CELL));
      }
    }
    lines.add(line.toString().stripTrailing());
  }

  /** What was withdrawn comes before what is left. */
  private void addErrors() {
    result.verdict().errors().forEach(f -> addFinding("Error: ", f));
  }

  private void addFindings() {
    List<Finding> warnings = result.verdict().warnings().stream().limit(MOST_WARNINGS).toList();
    warnings.forEach(f -> addFinding("Mind: ", f));
    int hidden = result.findings().size() - result.verdict().errors().size() - warnings.size();
    if (hidden > 0) {
      addFaint(hidden + (hidden == 1 ? " note" : " notes") + " in --json and --page.");
    }
  }

  private void addFinding(String word, Finding finding) {
    addWrapped(word + Sentence.of(finding.text()) + " Next: " + Sentence.of(finding.next()));
  }

  private void addAdvice() {
    if (result.advice().isEmpty()) {
      return;
    }
    addWrapped("To settle more: " + AdviceText.of(result.advice().get(0)));
  }

  private void addWrapped(String text) {
    lines.addAll(Wrapped.lines(text, WIDTH, "  "));
  }

  private void addFaint(String text) {
    Wrapped.lines(text, WIDTH, "  ").forEach(line -> lines.add(style.faint(line)));
  }

  private Optional<Estimate> estimate(String key) {
    return result.rows().stream()
        .filter(row -> row.key().equals(key))
        .findFirst()
        .flatMap(FitResult.Row::estimate);
  }

  private static String padded(String text, int width) {
    return text.length() >= width ? text + " " : text + " ".repeat(width - text.length());
  }
}

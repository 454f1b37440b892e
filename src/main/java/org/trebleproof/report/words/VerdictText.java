package org.trebleproof.report.words;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.trebleproof.bench.answer.FitResult;
import org.trebleproof.bench.answer.TrebleLoss;
import org.trebleproof.quantity.Estimate;
import org.trebleproof.quantity.EstimateText;
import org.trebleproof.quantity.Finding;
import org.trebleproof.quantity.Known;
import org.trebleproof.quantity.Quantity;
import org.trebleproof.quantity.RowKey;
import org.trebleproof.quantity.Subject;

/**
 * The verdict for a terminal of 24 lines by 100 columns: one sentence, the key numbers with their
 * 95 % intervals, what to mind, where the treble went, what to measure next. A refused job gives
 * the reason and the next step in their place.
 */
public final class VerdictText {

  private static final int WIDTH = 98;
  private static final int LABEL = 29;
  private static final int CELL = 34;
  private static final int COLUMNS = 2;
  private static final int MOST_SETUPS = 6;
  private static final int MOST_WARNINGS = 3;
  private static final int MOST_CAUSES = 4;
  private static final List<Quantity> METER_ROWS =
      List.of(Quantity.SERIES_INDUCTANCE, Quantity.SERIES_RESISTANCE, Quantity.SERIES_Q);
  private static final int METER_HZ = 1000;

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
    List<Subject> setups = setups();
    Optional<RowKey> change = KeyQuantities.ofChange(result);
    if (change.isPresent()) {
      addRow(change.get().words(), List.of(change.get()));
    } else {
      lines.add("");
    }
    for (int i = 0; i < setups.size(); i += COLUMNS) {
      List<Subject> some = setups.subList(i, Math.min(setups.size(), i + COLUMNS));
      if (setups.size() > 1) {
        addHeader(some);
      }
      for (Quantity quantity : KeyQuantities.ofSetups(result)) {
        addRow(quantity.words(), keys(some, quantity));
      }
    }
    addCoils();
    for (Subject setup : setups.stream().filter(this::bare).toList()) {
      for (Quantity quantity : METER_ROWS) {
        RowKey key = RowKey.of(setup, quantity).at(METER_HZ);
        if (result.rows().estimate(key).isPresent()) {
          addRow(key.words(), List.of(key));
        }
      }
    }
    addParts();
  }

  /** One coil needs no name; several stand side by side like the setups. */
  private void addCoils() {
    List<Subject> coils = result.rows().coils();
    for (int i = 0; i < coils.size(); i += COLUMNS) {
      List<Subject> some = coils.subList(i, Math.min(coils.size(), i + COLUMNS));
      if (coils.size() > 1) {
        addHeader(some);
      }
      for (Quantity quantity : KeyQuantities.COIL) {
        addRow("coil: " + quantity.words(), keys(some, quantity));
      }
    }
  }

  private void addHeader(List<Subject> columns) {
    StringBuilder header = new StringBuilder(padded("", LABEL));
    columns.forEach(column -> header.append(padded(column.words(), CELL)));
    lines.add(style.faint(header.toString().stripTrailing()));
  }

  private static List<RowKey> keys(List<Subject> subjects, Quantity quantity) {
    return subjects.stream().map(subject -> RowKey.of(subject, quantity)).toList();
  }

  /** A component meter is held against a coil, not against a guitar. */
  private boolean bare(Subject setup) {
    return result.job().setups().get(setup.name()).bare();
  }

  private void addParts() {
    List<RowKey> keys = result.rows().parts().keys();
    for (int i = 0; i < keys.size(); i += 2) {
      StringBuilder line = new StringBuilder();
      for (RowKey key : keys.subList(i, Math.min(keys.size(), i + 2))) {
        String name = padded(key.words(), line.length() == 0 ? LABEL - 2 : 16);
        line.append(line.length() == 0 ? "  " : "").append(name).append(cell(key));
      }
      lines.add(line.toString().stripTrailing());
    }
  }

  /** The setups that have a number to show, the first ones where there are many. */
  private List<Subject> setups() {
    return result.job().setups().keySet().stream()
        .filter(setup -> !result.rows().setup(setup).isEmpty())
        .limit(MOST_SETUPS)
        .map(Subject::setup)
        .toList();
  }

  private void addRow(String label, List<RowKey> keys) {
    if (keys.stream().noneMatch(this::known)) {
      return;
    }
    StringBuilder line = new StringBuilder(padded("  " + label, LABEL));
    keys.forEach(key -> line.append(cell(key)));
    lines.add(line.toString().stripTrailing());
  }

  private boolean known(RowKey key) {
    return result.rows().row(key).isPresent();
  }

  private String cell(RowKey key) {
    if (!known(key)) {
      return padded("", CELL);
    }
    Optional<Estimate> estimate = result.rows().estimate(key);
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
    List<TrebleLoss> losses = result.treble().stream().limit(COLUMNS).toList();
    if (losses.isEmpty()) {
      return;
    }
    addFaint("What takes the treble, " + TrebleText.against(losses.get(0)));
    for (String cause : TrebleText.causes(losses)) {
      StringBuilder line = new StringBuilder(padded("  " + cause, LABEL));
      losses.forEach(l -> line.append(padded(TrebleText.there(l, cause), CELL)));
      lines.add(line.toString().stripTrailing());
    }
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
    addWrapped("To settle more: " + AdviceText.of(result, result.advice().get(0)));
  }

  private void addWrapped(String text) {
    lines.addAll(Wrapped.lines(text, WIDTH, "  "));
  }

  private void addFaint(String text) {
    Wrapped.lines(text, WIDTH, "  ").forEach(line -> lines.add(style.faint(line)));
  }

  private static String padded(String text, int width) {
    return text.length() >= width ? text + " " : text + " ".repeat(width - text.length());
  }
}

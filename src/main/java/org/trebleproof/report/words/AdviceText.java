package org.trebleproof.report.words;

import java.math.BigDecimal;
import java.math.MathContext;
import java.util.ArrayList;
import java.util.List;
import org.trebleproof.bench.answer.Budget;
import org.trebleproof.bench.answer.FitResult;
import org.trebleproof.quantity.EstimateText;
import org.trebleproof.quantity.Finding;
import org.trebleproof.quantity.FindingCode;
import org.trebleproof.quantity.Known;

/** An extra measurement and what it would buy, in words. */
public final class AdviceText {

  private static final int WIDTH = 98;

  private AdviceText() {}

  /** Such as: Sweep the bare pickup (coil: winding capacitance from ±42 % to ±2 %). */
  public static String of(FitResult.Advice advice) {
    String sentence = Sentence.of(advice.text());
    return sentence.substring(0, sentence.length() - 1) + " " + bought(advice) + ".";
  }

  /** The same, saying what the interval hangs on now. */
  public static String of(FitResult result, FitResult.Advice advice) {
    String words = of(advice);
    return result
        .budget(advice.key())
        .flatMap(BudgetWords::leading)
        .map(from -> words.substring(0, words.length() - 2) + "; now " + from + ").")
        .orElse(words);
  }

  /** What a job leaves open and what would settle it, for a terminal. */
  public static List<String> lines(FitResult result, TextStyle style) {
    List<String> lines = new ArrayList<>();
    lines.add(style.faint(result.job().title()));
    if (result.verdict().refused()) {
      lines.add(style.strong("These captures have to be taken again before anything else."));
      for (Finding finding : result.verdict().errors()) {
        String text = Sentence.of(finding.text()) + " Next: " + Sentence.of(finding.next());
        lines.addAll(Wrapped.lines(text, WIDTH, "  "));
      }
      return lines;
    }
    List<String> open = open(result);
    if (result.strikes().isPresent()) {
      lines.add(style.strong("What would settle more:"));
      for (Finding finding : result.findings()) {
        if (finding.code().remedy() == FindingCode.Remedy.MORE) {
          String text = Sentence.of(finding.text()) + " " + Sentence.of(finding.next());
          lines.addAll(Wrapped.lines(text, WIDTH, "  "));
        }
      }
      lines.addAll(
          Wrapped.lines(
              "Single parts: sweep through a series resistor at the jack, or with an exciter coil.",
              WIDTH,
              "  "));
    } else if (result.advice().isEmpty()) {
      lines.add(
          style.strong(
              open.isEmpty()
                  ? "Nothing is left open: the recordings settle every estimate."
                  : "No further measurement is known to help."));
    } else {
      lines.add(style.strong("What would settle more, the best first:"));
      int number = 0;
      for (FitResult.Advice advice : result.advice()) {
        lines.addAll(Wrapped.lines(++number + ". " + of(result, advice), WIDTH, "   "));
      }
    }
    addBudgets(result, lines, style);
    if (!open.isEmpty()) {
      lines.add("");
      lines.addAll(
          Wrapped.lines(
              "Still open, known from markings only: " + String.join("; ", open) + ".",
              WIDTH,
              "" + "  "));
    }
    return lines;
  }

  /** Where the intervals come from, as on the page. */
  private static void addBudgets(FitResult result, List<String> lines, TextStyle style) {
    List<Budget> budgets = BudgetWords.headline(result);
    if (budgets.isEmpty()) {
      return;
    }
    lines.add("");
    lines.add(style.strong("Where the intervals come from (95 %):"));
    for (Budget budget : budgets) {
      String line =
          BudgetWords.name(budget)
              + " "
              + BudgetWords.half(budget)
              + ": "
              + BudgetWords.shares(budget);
      lines.addAll(Wrapped.lines("  " + line, WIDTH, "    "));
    }
  }

  private static List<String> open(FitResult result) {
    List<String> open = new ArrayList<>();
    for (FitResult.Row row : result.rows()) {
      row.estimate()
          .filter(e -> e.known() == Known.ASSUMED)
          .ifPresent(e -> open.add(row.key().words() + " " + EstimateText.full(e)));
    }
    return open;
  }

  static String bought(FitResult.Advice advice) {
    String name = advice.key().words();
    String then = Double.isFinite(advice.then()) ? "±" + percent(advice.then()) : "an interval";
    if (!Double.isFinite(advice.now())) {
      return "(" + name + ": open now, " + then + " then)";
    }
    return "(" + name + ": ±" + percent(advice.now()) + " now, " + then + " then)";
  }

  private static String percent(double relative) {
    return new BigDecimal(100 * relative).round(new MathContext(2)).toPlainString() + " %";
  }
}

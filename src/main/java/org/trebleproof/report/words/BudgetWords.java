package org.trebleproof.report.words;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.trebleproof.bench.answer.Budget;
import org.trebleproof.bench.answer.FitResult;
import org.trebleproof.quantity.Estimate;
import org.trebleproof.quantity.Known;
import org.trebleproof.quantity.RowKey;
import org.trebleproof.quantity.Subject;
import org.trebleproof.quantity.TradeNotation;

/** Where intervals come from, in words. */
public final class BudgetWords {

  /** Shares below this are named together. */
  private static final double SMALL = 0.02;

  /** A source that has less than this is not what an interval hangs on. */
  private static final double LEADING = 0.2;

  private BudgetWords() {}

  /** All of it, in shares that add up to 100 %, such as {@code noise 75 %, the rest 25 %}. */
  public static String shares(Budget budget) {
    List<String> words = new ArrayList<>();
    long left = 100;
    for (Budget.Share share : budget.shares()) {
      long percent = Math.round(100 * share.share());
      if (share.share() >= SMALL && percent <= left) {
        words.add(share.origin().words() + " " + percent + " %");
        left -= percent;
      }
    }
    if (left > 0) {
      words.add("the rest " + left + " %");
    }
    return String.join(", ", words);
  }

  /** What it mostly comes from: {@code mostly from the marking of clip (50 %)}. */
  public static Optional<String> leading(Budget budget) {
    List<String> words =
        budget.shares().stream()
            .filter(s -> s.share() >= LEADING)
            .limit(2)
            .map(s -> cause(s.origin()) + " (" + Math.round(100 * s.share()) + " %)")
            .toList();
    return words.isEmpty()
        ? Optional.empty()
        : Optional.of("mostly from " + String.join(" and ", words));
  }

  /** What a measurement tells apart is not what it leaves open. */
  private static String cause(Budget.Origin origin) {
    return origin.source() == Budget.Source.MODEL
        ? "coil models that fit alike"
        : "the " + origin.words();
  }

  /** Half the 95 % interval, such as {@code ±7k}. */
  public static String half(Budget budget) {
    return "±" + TradeNotation.print(Estimate.NORMAL_95 * budget.uncertainty(), budget.unit(), 2);
  }

  /** What the number is called; a change of level with its place. */
  public static String name(Budget budget) {
    String words = budget.number().words();
    return budget.number() instanceof Budget.Number.OfLevel level
        ? words + " at " + Place.of(level.hz())
        : words;
  }

  /** The budgets of the numbers that are looked for first, and of every part that was read. */
  public static List<Budget> headline(FitResult result) {
    Set<RowKey> keys = new HashSet<>(KeyQuantities.ofCoils(result));
    for (String setup : result.job().setups().keySet()) {
      KeyQuantities.ofSetups(result).forEach(q -> keys.add(RowKey.of(Subject.setup(setup), q)));
    }
    for (FitResult.Row row : result.rows().parts()) {
      row.estimate().filter(e -> e.known() != Known.ASSUMED).ifPresent(e -> keys.add(row.key()));
    }
    keys.add(RowKey.LOAD_CHANGE);
    for (FitResult.Row row : result.rows()) {
      if (row.estimate().isEmpty()) {
        keys.remove(row.key());
      }
    }
    return result.budgets().stream()
        .filter(b -> !(b.number() instanceof Budget.Number.OfRow row) || keys.contains(row.key()))
        .toList();
  }
}

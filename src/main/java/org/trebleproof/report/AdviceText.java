package org.trebleproof.report;

import java.math.BigDecimal;
import java.math.MathContext;
import org.trebleproof.bench.FitResult;

/** An extra measurement and what it would buy, in words. */
public final class AdviceText {

  private AdviceText() {}

  /** Such as: Sweep the bare pickup (coil: winding capacitance from ±42 % to ±2 %). */
  public static String of(FitResult.Advice advice) {
    String sentence = Sentence.of(advice.text());
    return sentence.substring(0, sentence.length() - 1) + " " + bought(advice) + ".";
  }

  static String bought(FitResult.Advice advice) {
    String name = RowName.full(advice.key());
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

package org.trebleproof.report.page;

import java.math.BigDecimal;
import java.math.MathContext;

/** A share in percent. */
final class Percent {

  private Percent() {}

  /** Such as {@code 0.05 %} for 0.0005; three figures at most. */
  static String of(double share) {
    BigDecimal percent = BigDecimal.valueOf(share).movePointRight(2).round(new MathContext(3));
    return (percent.signum() == 0 ? "0" : percent.stripTrailingZeros().toPlainString()) + " %";
  }
}

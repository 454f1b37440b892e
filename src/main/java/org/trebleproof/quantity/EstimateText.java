package org.trebleproof.quantity;

import java.math.BigDecimal;
import java.math.RoundingMode;

/**
 * An estimate as the trade writes it: {@code 238k ±14k}, {@code 681 ±4 pF}, {@code 2.401 ±0.016 H}.
 * The interval decides how many digits are worth printing: its half-width keeps two figures when it
 * begins with 1, else one, and the value ends at the same place. No powers of ten.
 */
public final class EstimateText {

  /** An interval whose sides differ by more than this share is written as two bounds. */
  private static final double LOPSIDED = 0.2;

  /** A bound without a partner is printed as if known to this share of itself. */
  private static final double ONE_SIDED_MARGIN = 0.05;

  /** What no ear hears needs no figure: levels end at this place [dB]. */
  private static final double FINEST_DECIBEL = 0.02;

  /** Frequencies end at this place [Hz]. */
  private static final double FINEST_HERTZ = 0.2;

  /** More figures than this behind the point help nobody at a bench. */
  private static final int MOST_DECIMALS = 5;

  private EstimateText() {}

  /** Value and interval, such as {@code 238k ±14k} or {@code 238k (224k to 255k)}. */
  public static String full(Estimate estimate) {
    if (!Double.isFinite(estimate.low()) || !Double.isFinite(estimate.high())) {
      return oneSided(estimate);
    }
    Scale scale = Scale.coarse(estimate);
    double up = estimate.high() - estimate.value();
    double down = estimate.value() - estimate.low();
    double half = Math.max(up, down);
    String value = scale.number(estimate.value());
    // Bounds that would be printed like the value say less than a half-width.
    boolean seen =
        !scale.number(estimate.low()).equals(value) || !scale.number(estimate.high()).equals(value);
    if (seen && (down < 0 || up < 0 || Math.abs(up - down) > LOPSIDED * half)) {
      return scale.unit(scale.number(estimate.value()))
          + " ("
          + scale.lower(estimate.low())
          + " to "
          + scale.unit(scale.number(estimate.high()))
          + ")";
    }
    if (scale.separate) {
      return scale.unit(scale.number(estimate.value()) + " ±" + scale.width(half));
    }
    return scale.unit(scale.number(estimate.value())) + " ±" + scale.unit(scale.width(half));
  }

  /** The value alone, with as many figures as its interval allows, however fine. */
  public static String value(Estimate estimate) {
    Scale scale = Scale.of(estimate);
    return scale.unit(scale.number(estimate.value()));
  }

  /** The interval alone, such as {@code 224k to 252k}, however fine. */
  public static String interval(Estimate estimate) {
    if (!Double.isFinite(estimate.low()) || !Double.isFinite(estimate.high())) {
      return oneSided(estimate);
    }
    Scale scale = Scale.of(estimate);
    return scale.lower(estimate.low()) + " to " + scale.unit(scale.number(estimate.high()));
  }

  private static String oneSided(Estimate estimate) {
    if (Double.isFinite(estimate.low())) {
      return "at least " + bound(estimate.low(), estimate);
    }
    if (Double.isFinite(estimate.high())) {
      return "at most " + bound(estimate.high(), estimate);
    }
    return "not determined";
  }

  private static String bound(double bound, Estimate estimate) {
    double margin = ONE_SIDED_MARGIN * Math.abs(bound);
    return value(
        new Estimate(bound, bound - margin, bound + margin, estimate.unit(), estimate.known()));
  }

  /** The prefix and the number of decimals for one estimate. */
  private static final class Scale {
    private final double factor;
    private final String suffix;
    private final boolean separate;
    private final int decimals;

    private Scale(double factor, String suffix, boolean separate, int decimals) {
      this.factor = factor;
      this.suffix = suffix;
      this.separate = separate;
      this.decimals = decimals;
    }

    /** As fine as the interval allows. */
    static Scale of(Estimate estimate) {
      return of(estimate, halfWidth(estimate));
    }

    /** No finer than anybody hears. */
    static Scale coarse(Estimate estimate) {
      double finest =
          switch (estimate.unit()) {
            case DECIBEL -> FINEST_DECIBEL;
            case HERTZ -> FINEST_HERTZ;
            default -> 0;
          };
      return of(estimate, Math.max(finest, halfWidth(estimate)));
    }

    private static Scale of(Estimate estimate, double half) {
      double size = estimate.value() == 0 ? half : Math.abs(estimate.value());
      return switch (estimate.unit()) {
        case OHM -> ohm(size, half);
        // leads and windings are spoken of in picofarad, also above 1 nF
        case FARAD ->
            size < 2e-9
                ? plain(1e-12, "pF", half)
                : prefixed("F", size, half, 1e-12, "p", 1e-9, "n", 1e-6, "µ");
        case HENRY -> prefixed("H", size, half, 1e-6, "µ", 1e-3, "m", 1, "");
        case SIEMENS -> prefixed("S", size, half, 1e-9, "n", 1e-6, "µ", 1e-3, "m");
        case SECOND -> prefixed("s", size, half, 1e-6, "µ", 1e-3, "m", 1, "");
        case VOLT -> prefixed("V", size, half, 1e-6, "µ", 1e-3, "m", 1, "");
        case HERTZ -> size < 1e4 ? plain(1, "Hz", half) : plain(1e3, "kHz", half);
        case DECIBEL, DEGREE, RATIO -> plain(1, estimate.unit().symbol(), half);
      };
    }

    private static Scale ohm(double size, double half) {
      if (size >= 999.5e3) {
        return new Scale(1e6, "M", false, decimals(half / 1e6));
      }
      if (size >= 999.5) {
        return new Scale(1e3, "k", false, decimals(half / 1e3));
      }
      return plain(1, "Ω", half);
    }

    private static Scale prefixed(
        String unit,
        double size,
        double half,
        double small,
        String smallPrefix,
        double middle,
        String middlePrefix,
        double large,
        String largePrefix) {
      if (size >= 0.9995 * large) {
        return plain(large, largePrefix + unit, half);
      }
      if (size >= 0.9995 * middle) {
        return plain(middle, middlePrefix + unit, half);
      }
      return plain(small, smallPrefix + unit, half);
    }

    private static Scale plain(double factor, String suffix, double half) {
      return new Scale(factor, suffix, true, decimals(half / factor));
    }

    private static double halfWidth(Estimate estimate) {
      double half = Math.max(estimate.high() - estimate.value(), estimate.value() - estimate.low());
      double size = Math.max(Math.abs(estimate.value()), Double.MIN_NORMAL);
      return Double.isFinite(half) && half > 0 ? half : ONE_SIDED_MARGIN * size;
    }

    private static int decimals(double half) {
      int exponent = (int) Math.floor(Math.log10(half));
      double lead = half / Math.pow(10, exponent);
      int figures = lead < 1.95 ? 1 : 0;
      return Math.max(0, Math.min(MOST_DECIMALS, figures - exponent));
    }

    String number(double value) {
      BigDecimal rounded =
          BigDecimal.valueOf(value / factor).setScale(decimals, RoundingMode.HALF_EVEN);
      return rounded.signum() == 0 ? rounded.abs().toPlainString() : rounded.toPlainString();
    }

    /** A half-width; never printed as nothing. */
    String width(double half) {
      BigDecimal least = BigDecimal.ONE.movePointLeft(decimals);
      BigDecimal rounded =
          BigDecimal.valueOf(half / factor).setScale(decimals, RoundingMode.HALF_EVEN);
      return rounded.signum() == 0 ? least.toPlainString() : rounded.toPlainString();
    }

    /** The lower bound of an interval: a unit that follows with a space is written once. */
    String lower(double value) {
      return separate ? number(value) : unit(number(value));
    }

    String unit(String number) {
      if (suffix.isEmpty()) {
        return number;
      }
      return separate ? number + " " + suffix : number + suffix;
    }
  }
}

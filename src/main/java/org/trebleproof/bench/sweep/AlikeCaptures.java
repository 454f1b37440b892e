package org.trebleproof.bench.sweep;

import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import org.trebleproof.bench.job.CaptureEntry;
import org.trebleproof.bench.job.Job;
import org.trebleproof.bench.job.Layout;
import org.trebleproof.quantity.Finding;
import org.trebleproof.quantity.FindingCode;
import org.trebleproof.quantity.Refusal;
import org.trebleproof.quantity.Response;

/**
 * Captures that the job describes alike must be alike: where they are not, a clipped part was
 * forgotten, a changed one was not named, or something was loose. No model is to blame then.
 */
final class AlikeCaptures {

  /**
   * Repeated captures agree to hundredths of a decibel; a part that was forgotten makes more than
   * this somewhere.
   */
  private static final double APART = 0.3;

  private static final double LOWEST_HZ = 100;
  private static final double HIGHEST_HZ = 10000;

  private AlikeCaptures() {}

  /** The first pair that disagrees. */
  static Optional<Finding> disagreeing(Job job, Map<String, Response> measured) {
    List<CaptureEntry> captures = job.captures();
    for (int i = 0; i < captures.size(); i++) {
      for (int j = i + 1; j < captures.size(); j++) {
        CaptureEntry a = captures.get(i);
        CaptureEntry b = captures.get(j);
        Response ra = measured.get(a.id());
        Response rb = measured.get(b.id());
        if (ra != null && rb != null && ra.size() == rb.size() && alike(job, a, b)) {
          int at = furthest(ra, rb);
          double apart = apart(ra, rb, at);
          if (beyondNoise(ra, rb, at) > APART) {
            return Optional.of(finding(a, b, apart, ra.hz()[at]));
          }
        }
      }
    }
    return Optional.empty();
  }

  private static boolean alike(Job job, CaptureEntry a, CaptureEntry b) {
    return a.across().equals(b.across())
        && Layout.of(job.setups().get(a.setup())).equals(Layout.of(job.setups().get(b.setup())));
  }

  private static Finding finding(CaptureEntry a, CaptureEntry b, double apart, double hz) {
    boolean same = a.setup().equals(b.setup());
    return Finding.of(
            FindingCode.CAPTURES_DISAGREE,
            "Captures "
                + Refusal.quote(a.id())
                + " and "
                + Refusal.quote(b.id())
                + (same ? " are of one setup" : " are of setups that are wired alike")
                + ", yet they differ, so no part values are given.",
            String.format(
                Locale.ROOT,
                "they differ by up to %.1f dB, at %.0f Hz, a common gain aside",
                apart,
                hz),
            same
                ? "Was a part clipped on for one of them? Name it under across. Else something was"
                    + " loose: sweep both again."
                : "Name the part that was changed in one of the setups, and check which file belongs to"
                    + " which.")
        .in(a.id(), b.id());
  }

  private static int furthest(Response a, Response b) {
    int best = -1;
    for (int i = 0; i < a.size(); i++) {
      boolean inBand = a.hz()[i] >= LOWEST_HZ && a.hz()[i] <= HIGHEST_HZ;
      if (inBand && (best < 0 || beyondNoise(a, b, i) > beyondNoise(a, b, best))) {
        best = i;
      }
    }
    return Math.max(best, 0);
  }

  /** The difference less four of its standard deviations [dB]. */
  private static double beyondNoise(Response a, Response b, int i) {
    double relative = Math.hypot(a.sd()[i] / a.magnitude(i), b.sd()[i] / b.magnitude(i));
    return apart(a, b, i) - 4 * relative * 20 / Math.log(10);
  }

  /** Difference of level at a point less that at the lowest frequencies of the band [dB]. */
  private static double apart(Response a, Response b, int i) {
    int low = 0;
    while (low < a.size() - 1 && a.hz()[low] < LOWEST_HZ) {
      low++;
    }
    return Math.abs(a.level(i) - b.level(i) - (a.level(low) - b.level(low)));
  }
}

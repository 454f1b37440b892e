package org.trebleproof.bench.sweep;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import org.trebleproof.bench.job.Job;
import org.trebleproof.quantity.Finding;
import org.trebleproof.quantity.FindingCode;
import org.trebleproof.quantity.Refusal;
import org.trebleproof.quantity.Response;

/**
 * Captures of one setup at several levels, where they show that the coil's inductance grows with
 * level, led back to no level at all. In weak fields iron is permeable by a constant and a part
 * that grows in proportion to the field (Rayleigh's law; R. M. Bozorth, Ferromagnetism, chapter on
 * initial permeability, from memory). One over a response is linear in the coil's inductance, in
 * series with a resistor as under an exciter, so a straight line over the level leads back.
 *
 * @param job the job with the first capture of each such setup in place of all
 * @param readings its readings, those captures led back to no level
 * @param into for a capture that is in no job any more, the one that stands for it
 * @param finding what a person is told; empty where nothing was led back
 */
public record SmallSignal(
    Job job, List<CaptureReading> readings, Map<String, String> into, Optional<Finding> finding) {

  /** Levels nearer to each other than this lead back to nothing [ratio]. */
  private static final double APART = 1.4;

  /** Squared differences over their variances, per number, above which captures are not alike. */
  private static final double UNLIKE = 2;

  /** By how much less than the level the third harmonic may fall with it. */
  private static final double FALLING = 0.5;

  /** The readings of a job; those of captures that were refused stay as they are. */
  public static SmallSignal of(Job job, List<CaptureReading> readings) {
    List<CaptureReading> left = new ArrayList<>(readings);
    Map<String, String> into = new LinkedHashMap<>();
    List<Finding> findings = new ArrayList<>();
    for (CaptureReading first : readings) {
      List<CaptureReading> alike =
          left.stream().filter(r -> r.usable() && alike(first, r)).toList();
      if (alike.size() < 2 || alike.get(0) != first || !grows(alike)) {
        continue;
      }
      left.set(left.indexOf(first), first.with(ledBack(alike)));
      left.removeAll(alike);
      alike.stream().skip(1).forEach(r -> into.put(r.entry().id(), first.entry().id()));
      findings.add(finding(alike));
    }
    return findings.isEmpty()
        ? new SmallSignal(job, readings, Map.of(), Optional.empty())
        : new SmallSignal(
            job.withCaptures(left.stream().map(CaptureReading::entry).toList()),
            List.copyOf(left),
            into,
            Optional.of(findings.get(0)));
  }

  /** The capture that stands for one. */
  public String standsFor(String capture) {
    return into.getOrDefault(capture, capture);
  }

  private static boolean alike(CaptureReading a, CaptureReading b) {
    return a.entry().setup().equals(b.entry().setup())
        && a.entry().across().equals(b.entry().across())
        && Arrays.equals(a.measured().hz(), b.measured().hz());
  }

  /** How strong the sweep was, in any unit. */
  private static double drive(CaptureReading r) {
    return r.measurement().health().reference().rms();
  }

  private static double third(CaptureReading r) {
    return Math.pow(10, r.measurement().harmonics().level(3) / 20);
  }

  private static CaptureReading loudest(List<CaptureReading> alike) {
    return alike.stream().max(java.util.Comparator.comparingDouble(SmallSignal::drive)).get();
  }

  private static CaptureReading quietest(List<CaptureReading> alike) {
    return alike.stream().min(java.util.Comparator.comparingDouble(SmallSignal::drive)).get();
  }

  /**
   * Whether the loudest and the quietest differ by more than noise and more than a knob could make
   * them, and the loudest has a third harmonic that falls with the level, as iron makes it.
   */
  private static boolean grows(List<CaptureReading> alike) {
    CaptureReading loud = loudest(alike);
    CaptureReading quiet = quietest(alike);
    double apart = drive(loud) / drive(quiet);
    return apart > APART
        && third(loud) > 0
        && third(quiet) < third(loud) * Math.pow(apart, -FALLING)
        && unlike(loud.measured(), quiet.measured());
  }

  private static boolean unlike(Response a, Response b) {
    double product = 0;
    double turned = 0;
    double power = 0;
    for (int i = 0; i < a.size(); i++) {
      double w = 1 / (square(a.sd()[i]) + square(b.sd()[i]));
      product += w * (a.re()[i] * b.re()[i] + a.im()[i] * b.im()[i]);
      turned += w * (a.im()[i] * b.re()[i] - a.re()[i] * b.im()[i]);
      power += w * square(b.magnitude(i));
    }
    double re = product / power;
    double im = turned / power;
    double sum = 0;
    for (int i = 0; i < a.size(); i++) {
      double dRe = a.re()[i] - re * b.re()[i] + im * b.im()[i];
      double dIm = a.im()[i] - re * b.im()[i] - im * b.re()[i];
      sum += (dRe * dRe + dIm * dIm) / (square(a.sd()[i]) + square(b.sd()[i]));
    }
    return sum > UNLIKE * 2 * a.size();
  }

  /** A straight line through one over the responses, weighted, where it meets no level. */
  private static Response ledBack(List<CaptureReading> alike) {
    double full = drive(loudest(alike));
    double[] level = alike.stream().mapToDouble(r -> drive(r) / full).toArray();
    Response like = alike.get(0).measured();
    int n = like.size();
    double[] re = new double[n];
    double[] im = new double[n];
    double[] sd = new double[n];
    double[] change = new double[n];
    for (int i = 0; i < n; i++) {
      double w0 = 0;
      double w1 = 0;
      double w2 = 0;
      double[] sums = new double[4];
      for (int c = 0; c < level.length; c++) {
        Response r = alike.get(c).measured();
        double power = square(r.magnitude(i));
        double oneRe = r.re()[i] / power;
        double oneIm = -r.im()[i] / power;
        double w = square(power / r.sd()[i]);
        w0 += w;
        w1 += w * level[c];
        w2 += w * square(level[c]);
        sums[0] += w * oneRe;
        sums[1] += w * oneIm;
        sums[2] += w * level[c] * oneRe;
        sums[3] += w * level[c] * oneIm;
      }
      double d = w0 * w2 - w1 * w1;
      double oneRe = (w2 * sums[0] - w1 * sums[2]) / d;
      double oneIm = (w2 * sums[1] - w1 * sums[3]) / d;
      double power = oneRe * oneRe + oneIm * oneIm;
      re[i] = oneRe / power;
      im[i] = -oneIm / power;
      sd[i] = Math.sqrt(w2 / d) / power;
      change[i] =
          Math.hypot(w0 * sums[2] - w1 * sums[0], w0 * sums[3] - w1 * sums[1])
              / d
              / Math.sqrt(power);
    }
    // The field that acts on the iron grows a little less than the level does: of the change at
    // full level, about the share by which the inductance itself changes, at the lowest level.
    double[] ordered = change.clone();
    Arrays.sort(ordered);
    double bent = ordered[n / 2] * Arrays.stream(level).min().orElseThrow();
    for (int i = 0; i < n; i++) {
      sd[i] = Math.hypot(sd[i], bent * change[i] * Math.hypot(re[i], im[i]));
    }
    return new Response(like.hz(), re, im, sd);
  }

  private static Finding finding(List<CaptureReading> alike) {
    CaptureReading loud = loudest(alike);
    CaptureReading quiet = quietest(alike);
    int at = 0;
    for (int i = 0; i < loud.measured().size(); i++) {
      if (apart(loud, quiet, i) > apart(loud, quiet, at)) {
        at = i;
      }
    }
    return Finding.of(
            FindingCode.SMALL_SIGNAL,
            "The inductance of this pickup grows with the level of the sweep. The values given are"
                + " those for a very weak signal, led back from "
                + Refusal.quote(loud.entry().id())
                + " and "
                + Refusal.quote(quiet.entry().id())
                + ".",
            String.format(
                Locale.ROOT,
                "a sweep %.0f dB stronger reads up to %.2f dB differently, at %.0f Hz, and has a third"
                    + " harmonic %.0f dB below the fundamental",
                20 * Math.log10(drive(loud) / drive(quiet)),
                apart(loud, quiet, at),
                loud.measured().hz()[at],
                -loud.measurement().harmonics().level(3)),
            "Sweep every setup at two levels, or all of them weakly.")
        .in(alike.stream().map(r -> r.entry().id()).toArray(String[]::new));
  }

  private static double apart(CaptureReading a, CaptureReading b, int i) {
    return Math.abs(a.measured().level(i) - b.measured().level(i));
  }

  private static double square(double v) {
    return v * v;
  }
}

package org.trebleproof.bench.mod.predict;

import java.util.List;
import java.util.Optional;
import org.trebleproof.quantity.Estimate;
import org.trebleproof.quantity.Finding;

/**
 * What a mod would do.
 *
 * @param title the guitar
 * @param changes what is changed, in words
 * @param hz frequencies of the curves [Hz]
 * @param now levels as it is, jack voltage over induced voltage
 * @param then levels as it would be
 * @param change then over now
 * @param resonances before and after
 * @param levels change at 1, 3 and 5 kHz
 * @param audibility whether it can be heard
 * @param sure share of the draws that give the same verdict or a clearer one
 * @param worst extremes of the change, every marked part at the end of its tolerance
 * @param draws number of random guitars behind the bands
 * @param findings what a person should be told
 */
public record Prediction(
    String title,
    List<String> changes,
    double[] hz,
    Curve now,
    Curve then,
    Curve change,
    Resonances resonances,
    List<At> levels,
    Audibility audibility,
    double sure,
    Worst worst,
    int draws,
    List<Finding> findings) {

  public Prediction {
    changes = List.copyOf(changes);
    levels = List.copyOf(levels);
    findings = List.copyOf(findings);
  }

  /**
   * The same, with resonance and peak as they are now taken from elsewhere, such as from the fit of
   * the recordings: what is predicted is the change, which is added to them. Change and beginning
   * are taken to be independent, so that their half-widths add up as squares do (JCGM 100, 5.1.2).
   *
   * @param hz resonance as it is; empty where nothing better is known than the prediction
   * @param peak likewise, over 20 Hz
   */
  public Prediction startingFrom(Optional<Estimate> hz, Optional<Estimate> peak) {
    Resonances r = resonances;
    Resonances from =
        new Resonances(
            hz.isPresent() && r.hzNow().isPresent() ? hz : r.hzNow(),
            then(hz, r.hzNow(), r.hzThen(), r.shift()),
            peak.isPresent() && r.peakNow().isPresent() ? peak : r.peakNow(),
            then(peak, r.peakNow(), r.peakThen(), r.peakChange()),
            r.shift(),
            r.peakChange());
    return new Prediction(
        title,
        changes,
        this.hz,
        now,
        then,
        change,
        from,
        levels,
        audibility,
        sure,
        worst,
        draws,
        findings);
  }

  private Optional<Estimate> then(
      Optional<Estimate> begin,
      Optional<Estimate> now,
      Optional<Estimate> then,
      Optional<Estimate> by) {
    if (begin.isEmpty() || now.isEmpty() || then.isEmpty() || by.isEmpty()) {
      return then;
    }
    Estimate from = begin.get();
    if (changes.isEmpty()) {
      return begin;
    }
    double value = from.value() + by.get().value();
    double down = Math.hypot(from.value() - from.low(), by.get().value() - by.get().low());
    double up = Math.hypot(from.high() - from.value(), by.get().high() - by.get().value());
    return Optional.of(
        new Estimate(value, value - down, value + up, from.unit(), then.get().known()));
  }

  /**
   * A curve with its 95 % band.
   *
   * @param decibel level [dB]
   * @param low lower bound [dB]
   * @param high upper bound [dB]
   */
  public record Curve(double[] decibel, double[] low, double[] high) {}

  /**
   * Resonance and peak (over 20 Hz) before and after; empty where there is no peak.
   *
   * @param peakChange peak after less peak before, each over its own 20 Hz [dB]
   */
  public record Resonances(
      Optional<Estimate> hzNow,
      Optional<Estimate> hzThen,
      Optional<Estimate> peakNow,
      Optional<Estimate> peakThen,
      Optional<Estimate> shift,
      Optional<Estimate> peakChange) {}

  /**
   * A level at one frequency.
   *
   * @param hz [Hz]
   * @param change then over now
   */
  public record At(double hz, Estimate now, Estimate then, Estimate change) {}

  /**
   * Extremes over the corners of the tolerances.
   *
   * @param parts the parts whose tolerance was used up
   * @param low least change at each frequency [dB]
   * @param high greatest change at each frequency [dB]
   */
  public record Worst(List<String> parts, double[] low, double[] high) {}
}

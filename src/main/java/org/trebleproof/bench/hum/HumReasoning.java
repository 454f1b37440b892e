package org.trebleproof.bench.hum;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.trebleproof.signal.MeanPower;

/** Reasons from the readings of one visit to causes. */
final class HumReasoning {

  private static final int[] GROUPS = {1, 2, 4, 7, 13, 25};
  private static final double[] REACHING_UP = {0, 0, 0.2, 1, 1, 1};

  /** Lines weaker than the hiss by this much trouble nobody [dB]. */
  private static final double QUIET = -12;

  private static final double LIKELY = 0.8;
  private static final double POSSIBLE = 0.6;
  private static final double OPEN = 0.12;

  /** A source weaker than the loudest by more than this, plain and A-weighted, is not a cause. */
  private static final double MINOR = -28;

  private final List<StateReading> readings;
  private final Map<HumState, GainShift> shifts;

  HumReasoning(List<StateReading> readings) {
    this.readings = List.copyOf(readings);
    this.shifts = GainShift.of(readings);
  }

  /** Gain shifts by state. */
  Map<HumState, GainShift> shifts() {
    return shifts;
  }

  /** Probability of each source; empty when nothing stands above the hiss. */
  Map<NoiseSource, Double> probabilities() {
    Map<NoiseSource, Double> result = new EnumMap<>(NoiseSource.class);
    if (quiet()) {
      return result;
    }
    List<Map<HumState, Double>> choices = gainChoices();
    List<SourceMixture> mixtures = new ArrayList<>();
    double top = Double.NEGATIVE_INFINITY;
    for (Map<HumState, Double> gains : choices) {
      SourceMixture mixture = mixture(gains);
      mixtures.add(mixture);
      top = Math.max(top, mixture.evidence());
    }
    double total = 0;
    for (SourceMixture mixture : mixtures) {
      double weight = Math.exp(mixture.evidence() - top);
      total += weight;
      for (NoiseSource source : NoiseSource.values()) {
        double p = minor(mixture, source) ? 0 : mixture.probability(source);
        result.merge(source, weight * p, Double::sum);
      }
    }
    double sum = total;
    result.replaceAll((s, p) -> p / sum);
    return result;
  }

  boolean quiet() {
    for (StateReading reading : readings) {
      MeanPower lines = reading.lines();
      double hiss = reading.spectrum().hiss().value();
      if (lines.present() && 10 * Math.log10(lines.value() / hiss) > QUIET) {
        return false;
      }
    }
    return true;
  }

  private static boolean minor(SourceMixture mixture, NoiseSource source) {
    if (!mixture.best().contains(source)) {
      return false;
    }
    double all = 0;
    double high = 0;
    for (NoiseSource other : mixture.best()) {
      double[] spectrum = mixture.spectrum(other);
      for (int g = 0; g < spectrum.length; g++) {
        all += spectrum[g];
        high += g >= 2 ? spectrum[g] : 0;
      }
    }
    double own = 0;
    double ownHigh = 0;
    double[] spectrum = mixture.spectrum(source);
    for (int g = 0; g < spectrum.length; g++) {
      own += spectrum[g];
      ownHigh += g >= 2 ? spectrum[g] : 0;
    }
    double share = Math.pow(10, MINOR / 10);
    return own < share * all && ownHigh < share * high;
  }

  /** Every way of reading the uncertain shifts: as a turned gain or as hiss of its own. */
  private List<Map<HumState, Double>> gainChoices() {
    List<Map<HumState, Double>> choices = new ArrayList<>();
    choices.add(new EnumMap<>(HumState.class));
    for (GainShift shift : shifts.values()) {
      List<Map<HumState, Double>> more = new ArrayList<>();
      for (Map<HumState, Double> choice : choices) {
        if (!shift.certain()) {
          more.add(choice);
        }
        Map<HumState, Double> turned = new EnumMap<>(HumState.class);
        turned.putAll(choice);
        turned.put(shift.state(), shift.decibel());
        more.add(turned);
      }
      choices = more;
    }
    return choices;
  }

  private SourceMixture mixture(Map<HumState, Double> gains) {
    int n = readings.size();
    double[][] power = new double[n][GROUPS.length];
    double[][] sd = new double[n][GROUPS.length];
    double most = 0;
    for (int i = 0; i < n; i++) {
      StateReading reading = readings.get(i);
      double gain = Math.pow(10, Optional.ofNullable(gains.get(reading.state())).orElse(0.0) / 10);
      for (int g = 0; g < GROUPS.length; g++) {
        int to = g + 1 < GROUPS.length ? GROUPS[g + 1] - 1 : reading.spectrum().harmonics();
        MeanPower p = reading.spectrum().harmonics(GROUPS[g], to, reading.leftOut());
        power[i][g] = p.value() / gain;
        sd[i][g] = p.sd() / gain;
        most = Math.max(most, power[i][g]);
      }
    }
    for (int i = 0; i < n; i++) {
      for (int g = 0; g < GROUPS.length; g++) {
        power[i][g] /= most;
        sd[i][g] /= most;
      }
    }
    List<HumState> states = readings.stream().map(StateReading::state).toList();
    return new SourceMixture(states, power, sd, REACHING_UP);
  }
}

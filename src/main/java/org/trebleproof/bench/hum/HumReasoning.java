package org.trebleproof.bench.hum;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.EnumSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.trebleproof.bench.hum.HumCause.Code;
import org.trebleproof.bench.hum.HumCause.Strength;
import org.trebleproof.signal.MeanPower;

/** Reasons from the readings of one visit to causes. */
final class HumReasoning {

  /** Lines that are all together weaker than the hiss by this much trouble nobody [dB]. */
  private static final double QUIET = -12;

  private static final double LIKELY = 0.75;
  private static final double POSSIBLE = 0.6;
  private static final double OPEN = 0.12;

  /** Lines this much weaker than the hiss say nothing: 22 dB, as a power. */
  private static final double INAUDIBLE = 0.006;

  /** What cannot be told is held at this. */
  private static final double UNTOLD = 0.5;

  /** A source weaker than the loudest by more than this, plain and A-weighted, is not a cause. */
  private static final double MINOR = -28;

  /** Price of a gain that was turned where the hiss may have moved by itself. */
  private static final double TURNED = 2;

  /** How far a shorted hot wire may lower the hiss by itself [dB]. */
  private static final double[] HISS_FALLS = {0, 2, 4, 6};

  /** Lines weaker than this share of the loudest state's are gone. */
  private static final double GONE = 1e-3;

  private final List<StateClues> clues;
  private final Map<HumState, GainShift> shifts;
  private final boolean mainsFound;
  private final boolean mainsDoubtful;

  /**
   * Reasons from clues.
   *
   * @param mainsFound whether a series of mains lines stands out anywhere; without one, a radio's
   *     own sound is all that is heard on its harmonics
   * @param mainsDoubtful whether all of that series may be a radio's frames
   */
  HumReasoning(List<StateClues> clues, boolean mainsFound, boolean mainsDoubtful) {
    this.mainsDoubtful = mainsDoubtful;
    this.mainsFound = mainsFound;
    this.clues = List.copyOf(clues);
    this.shifts = GainShift.of(clues);
  }

  /** Reasons from the readings of a visit. */
  static HumReasoning of(List<StateReading> readings) {
    return new HumReasoning(
        readings.stream().map(StateClues::of).toList(),
        readings.stream().anyMatch(StateReading::mainsHeard),
        readings.stream().anyMatch(StateReading::mainsDoubtful)
            || readings.stream().anyMatch(StateReading::onPhoneLines)
                && readings.stream()
                    .filter(StateReading::mainsHeard)
                    .allMatch(StateReading::onPhoneLines));
  }

  /**
   * The causes, the surest first.
   *
   * @param radio radio as a cause, if there is any sign of it
   * @param changes measured differences between the states, for the evidence
   */
  List<HumCause> causes(Optional<HumCause> radio, Map<HumState, HumResult.StateChange> changes) {
    boolean strayLines = radio.isPresent() && !mainsFound;
    Map<NoiseSource, Double> probable =
        strayLines ? Map.of() : untold(probabilities(), radio.isPresent());
    List<HumCause> causes = new ArrayList<>();
    radio.filter(cause -> cause.strength() != Strength.CANNOT_TELL).ifPresent(causes::add);
    EnumSet<NoiseSource> open = EnumSet.noneOf(NoiseSource.class);
    probable.forEach(
        (source, p) -> {
          if (p >= OPEN && p < LIKELY) {
            open.add(source);
          }
        });
    probable.entrySet().stream()
        .filter(entry -> entry.getValue() >= OPEN)
        .sorted(Map.Entry.<NoiseSource, Double>comparingByValue().reversed())
        .forEach(entry -> causes.add(cause(entry.getKey(), entry.getValue(), open, changes)));
    radio.filter(cause -> cause.strength() == Strength.CANNOT_TELL).ifPresent(causes::add);
    if (causes.isEmpty()) {
      causes.add(quietCause());
    }
    return causes;
  }

  /**
   * Takes back what the recorded states cannot tell. Without the sleeve test an open string ground
   * looks like a magnetic field, however loud the touched strings are; and lines that may all be a
   * radio's point at nothing.
   */
  private Map<NoiseSource, Double> untold(Map<NoiseSource, Double> probable, boolean radio) {
    Map<NoiseSource, Double> held = new EnumMap<>(NoiseSource.class);
    held.putAll(probable);
    boolean doubtful = radio && mainsDoubtful;
    double open = held.getOrDefault(NoiseSource.OPEN_STRINGS, 0.0);
    boolean sleeve = clues.stream().anyMatch(c -> c.state() == HumState.ON_SLEEVE);
    boolean turned = clues.stream().anyMatch(c -> c.state() == HumState.TURNED);
    if (open >= OPEN && !sleeve) {
      held.merge(NoiseSource.OPEN_STRINGS, UNTOLD, Math::min);
      if (!turned) {
        held.merge(NoiseSource.FIELD, UNTOLD, (p, q) -> Math.max(p, OPEN));
      }
    }
    if (doubtful) {
      held.replaceAll((source, p) -> Math.min(p, UNTOLD));
    }
    return held;
  }

  private HumCause cause(
      NoiseSource source,
      double probability,
      EnumSet<NoiseSource> open,
      Map<HumState, HumResult.StateChange> changes) {
    Strength strength =
        probability >= LIKELY
            ? Strength.LIKELY
            : probability >= POSSIBLE ? Strength.POSSIBLE : Strength.CANNOT_TELL;
    String evidence = CauseWords.evidence(source.code(), changes);
    String mend = CauseWords.mend(source.code());
    if (strength == Strength.LIKELY) {
      return new HumCause(source.code(), strength, evidence, mend);
    }
    Optional<HumState> test = telling(source, open);
    String next =
        test.map(CauseWords::test)
            .orElse("Record all states again, one after the other, and move nothing else.");
    return new HumCause(source.code(), strength, evidence, next);
  }

  /** The state not yet recorded in which this source would look least like the other open ones. */
  private Optional<HumState> telling(NoiseSource source, EnumSet<NoiseSource> open) {
    Set<HumState> recorded = EnumSet.noneOf(HumState.class);
    clues.forEach(state -> recorded.add(state.state()));
    HumState best = null;
    double most = 0;
    for (HumState state : HumState.values()) {
      double apart = 0;
      for (NoiseSource other : open) {
        apart += Math.abs(source.usual(state) - other.usual(state));
      }
      if (!recorded.contains(state) && apart > most + 1e-9) {
        most = apart;
        best = state;
      }
    }
    return Optional.ofNullable(best);
  }

  /** Quiet is what surely stays below the hiss; what may stand above it is not called so. */
  private HumCause quietCause() {
    double strongest = Double.NEGATIVE_INFINITY;
    for (StateClues state : clues) {
      double most = Math.max(state.lines().quantile(0.975), Double.MIN_NORMAL);
      strongest = Math.max(strongest, 10 * Math.log10(most / state.hiss()));
    }
    if (strongest > 0) {
      String evidence =
          String.format(
              Locale.ROOT,
              "no line of the mains stands out for sure, but there may be hum and buzz up to %.0f dB"
                  + " above the hiss under what else is heard",
              strongest);
      return new HumCause(
          Code.QUIET,
          Strength.CANNOT_TELL,
          evidence,
          "Record the same states again where nothing else sounds.");
    }
    String evidence =
        String.format(
            Locale.ROOT,
            "hum and buzz stay at least %.0f dB below the hiss in every state",
            Math.abs(strongest));
    return new HumCause(Code.QUIET, Strength.LIKELY, evidence, CauseWords.mend(Code.QUIET));
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
    List<Gains> choices = gainChoices();
    List<SourceMixture> mixtures =
        choices.parallelStream().map(gains -> mixture(gains.decibel())).toList();
    double[] evidence = new double[choices.size()];
    double top = Double.NEGATIVE_INFINITY;
    for (int i = 0; i < evidence.length; i++) {
      evidence[i] = mixtures.get(i).evidence() - choices.get(i).price();
      top = Math.max(top, evidence[i]);
    }
    double total = 0;
    for (int i = 0; i < evidence.length; i++) {
      SourceMixture mixture = mixtures.get(i);
      double weight = Math.exp(evidence[i] - top);
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

  /**
   * Whether hiss covers everything: all lines together are far weaker than it, and none stands over
   * the hiss about it, which is all that covers a hum.
   */
  boolean quiet() {
    for (StateClues state : clues) {
      MeanPower lines = state.lines();
      boolean strong = lines.present() && 10 * Math.log10(lines.value() / state.hiss()) > QUIET;
      if (strong || state.standing() > 1) {
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
        high += g >= StateClues.FIRST_OF_BUZZ ? spectrum[g] : 0;
      }
    }
    double own = 0;
    double ownHigh = 0;
    double[] spectrum = mixture.spectrum(source);
    for (int g = 0; g < spectrum.length; g++) {
      own += spectrum[g];
      ownHigh += g >= StateClues.FIRST_OF_BUZZ ? spectrum[g] : 0;
    }
    double share = Math.pow(10, MINOR / 10);
    return own < share * all && ownHigh < share * high;
  }

  /**
   * Every way of reading the uncertain shifts: as hiss of its own, as a turned gain, or as both.
   */
  private List<Gains> gainChoices() {
    List<Gains> choices = List.of(new Gains(Map.of(), 0));
    for (GainShift shift : shifts.values()) {
      List<Gains> more = new ArrayList<>();
      for (Gains choice : choices) {
        if (shift.certain() && shift.state().pickupHeard()) {
          more.add(choice.with(shift, 0, 0));
        } else if (shift.certain()) {
          // the gain was raised for sure, by what is seen and what the hiss fell by itself
          for (double lift : heard(shift.state()) ? HISS_FALLS : new double[] {0}) {
            more.add(choice.with(shift, lift, 0));
          }
        } else {
          more.add(choice);
          boolean falls = shift.decibel() < 0 && shift.state() == HumState.VOLUME_ZERO;
          double[] lifts = falls ? HISS_FALLS : new double[] {0};
          for (double lift : heard(shift.state()) ? lifts : new double[0]) {
            if (Math.abs(shift.decibel() + lift) > 1 && lift < Math.abs(shift.decibel())) {
              more.add(choice.with(shift, lift, TURNED));
            }
          }
        }
      }
      choices = more;
    }
    return choices;
  }

  /** Whether lines remain in a state; what is gone is gone at any gain. */
  private boolean heard(HumState of) {
    double here = 0;
    double most = 0;
    for (StateClues state : clues) {
      here = state.state() == of ? state.lines().value() : here;
      most = Math.max(most, state.lines().value());
    }
    return here > GONE * most;
  }

  /**
   * One way of reading the gains.
   *
   * @param decibel gain by state [dB]; 0 where none is given
   * @param price how far-fetched it is, as a natural logarithm
   */
  private record Gains(Map<HumState, Double> decibel, double price) {

    Gains with(GainShift shift, double lift, double more) {
      Map<HumState, Double> all = new EnumMap<>(HumState.class);
      all.putAll(decibel);
      all.put(shift.state(), shift.decibel() + lift);
      return new Gains(all, price + more);
    }
  }

  private SourceMixture mixture(Map<HumState, Double> gains) {
    int n = clues.size();
    int groups = StateClues.REACHING_UP.length;
    double[][] power = new double[n][groups];
    double[][] sd = new double[n][groups];
    double most = 0;
    for (int i = 0; i < n; i++) {
      StateClues state = clues.get(i);
      double gain = Math.pow(10, gains.getOrDefault(state.state(), 0.0) / 10);
      for (int g = 0; g < groups; g++) {
        power[i][g] = state.groups()[g].value() / gain;
        sd[i][g] = Math.hypot(state.groups()[g].sd(), INAUDIBLE * state.hiss()) / gain;
        most = Math.max(most, power[i][g]);
      }
    }
    for (int i = 0; i < n; i++) {
      for (int g = 0; g < groups; g++) {
        power[i][g] /= most;
        sd[i][g] /= most;
      }
    }
    return new SourceMixture(clues.stream().map(StateClues::state).toList(), power, sd);
  }
}

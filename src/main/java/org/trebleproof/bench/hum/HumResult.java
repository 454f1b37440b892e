package org.trebleproof.bench.hum;

import java.nio.file.Path;
import java.util.Collections;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.trebleproof.quantity.Estimate;
import org.trebleproof.quantity.Finding;
import org.trebleproof.quantity.Verdict;

/**
 * What a hum check has to say.
 *
 * @param mains frequency of the mains; empty when no series of lines stands out
 * @param strike the strike as level reference
 * @param readings the states that could be used, in the order of {@link HumState}
 * @param levels their levels
 * @param changes level of each state over hands off: hum, buzz and both, recorder's gain taken out
 * @param causes what it points at, the surest first
 * @param visit what changed since an earlier visit, state by state
 * @param verdict what to know about the recordings
 */
public record HumResult(
    Optional<Estimate> mains,
    Optional<Strike> strike,
    List<StateReading> readings,
    Map<HumState, StateLevels> levels,
    Map<HumState, StateChange> changes,
    List<HumCause> causes,
    List<VisitChange> visit,
    Verdict verdict) {

  public HumResult {
    readings = List.copyOf(readings);
    levels = Collections.unmodifiableMap(new EnumMap<>(levels));
    changes = Collections.unmodifiableMap(new EnumMap<>(changes));
    causes = List.copyOf(causes);
    visit = List.copyOf(visit);
  }

  /** All findings, the gravest first. */
  public List<Finding> findings() {
    return verdict.findings();
  }

  /**
   * A strike that levels are given relative to.
   *
   * @param file its recording
   * @param level of its loudest 0.4 s [dB re full-scale sine]
   * @param weighted the same, A-weighted
   */
  public record Strike(Path file, double level, double weighted) {}

  /**
   * Level of a state over the reference state [dB].
   *
   * @param reference what it is over
   * @param hum of the hum
   * @param buzz of the buzz
   * @param lines of both together
   * @param gain of the recorder, taken out of the three; 0 where none was seen
   */
  public record StateChange(
      HumState reference, Estimate hum, Estimate buzz, Estimate lines, double gain) {}
}

package org.trebleproof.bench.hum;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.ForkJoinPool;
import java.util.concurrent.ForkJoinTask;
import org.trebleproof.audio.Recording;
import org.trebleproof.bench.hum.HumResult.StateChange;
import org.trebleproof.bench.hum.HumResult.Strike;
import org.trebleproof.fixture.RecordingPath;
import org.trebleproof.quantity.Estimate;
import org.trebleproof.quantity.Finding;
import org.trebleproof.quantity.FindingCode;
import org.trebleproof.quantity.Known;
import org.trebleproof.quantity.Refusal;
import org.trebleproof.quantity.Unit;
import org.trebleproof.quantity.Verdict;
import org.trebleproof.signal.FullScale;
import org.trebleproof.signal.MeanPower;
import org.trebleproof.signal.hum.MainsSearch;
import org.trebleproof.signal.hum.StrikeLevel;

/**
 * The hum and ground check: from recordings of silence in several states to what the noise is made
 * of, what it comes from, and what to do next.
 */
public final class HumCheck {

  /** Harmonics that are worth a line in a comparison of visits. */
  private static final int COMPARED_HARMONICS = 40;

  private final int channel;

  /** Whether the guitar may be on another channel than the one that is listened to. */
  private final boolean supposed;

  private final List<Finding> findings = new ArrayList<>();

  private HumCheck(int channel, boolean supposed) {
    this.channel = channel;
    this.supposed = supposed;
  }

  /** A check that listens to one channel of each recording; mono files have channel 1. */
  public HumCheck(int channel) {
    this(channel, false);
  }

  /** A check where nobody has said which channel holds the guitar: the first one, usually. */
  public static HumCheck ofTheFirstChannel() {
    return new HumCheck(1, true);
  }

  /**
   * Runs the check.
   *
   * @param visit sound files of the states, at least one
   * @param strike a strike as level reference
   * @param later the same states after a mod; empty when there was none
   * @throws Refusal if a file cannot be used at all, or none can
   */
  public HumResult run(
      Map<HumState, Path> visit, Optional<Path> strike, Map<HumState, Path> later) {
    findings.clear();
    SilenceFiles files = new SilenceFiles(channel, findings);
    // the strike is measured while the states are read
    ForkJoinTask<Optional<MeasuredStrike>> measured =
        ForkJoinPool.commonPool().submit(() -> strike.map(this::strike));
    Map<HumState, Recording> recordings = files.read(visit, "");
    List<StateReading> readings = readings(recordings, "");
    if (readings.isEmpty()) {
      Finding first = new Verdict(findings).errors().get(0);
      throw new Refusal("none of the recordings can be used: " + first.text() + " " + first.next());
    }
    Optional<Strike> reference = measured.join().map(this::told);
    HumReasoning reasoning = HumReasoning.of(readings);
    if (supposed && reasoning.quiet()) {
      refuseTheWrongChannel(recordings);
    }
    Map<HumState, StateChange> changes = changes(readings, reasoning.shifts());
    tellOfGain(readings, reasoning.shifts());
    tellOfAccidents(readings);
    Map<HumState, StateLevels> levels = new EnumMap<>(HumState.class);
    for (StateReading reading : readings) {
      levels.put(
          reading.state(),
          StateLevels.of(
              reading,
              reference.map(Strike::level).orElse(0.0),
              reference.map(Strike::weighted).orElse(0.0)));
    }
    List<VisitChange> visitChanges = new ArrayList<>();
    if (!later.isEmpty()) {
      List<StateReading> after = readings(files.read(later, "after "), "after ");
      if (!after.isEmpty()) {
        visitChanges = compare(readings, after);
      }
    }
    return new HumResult(
        mains(readings),
        reference,
        readings,
        levels,
        changes,
        reasoning.causes(RadioCause.of(readings), changes),
        visitChanges,
        new Verdict(findings));
  }

  /** Hiss alone where another channel holds more is no quiet guitar, but an input without one. */
  private void refuseTheWrongChannel(Map<HumState, Recording> recordings) {
    int most = recordings.values().stream().mapToInt(r -> r.channels().length).max().orElse(0);
    for (int number = 1; number <= most; number++) {
      int other = number;
      Map<HumState, Recording> having = new EnumMap<>(HumState.class);
      recordings.forEach(
          (state, recording) -> {
            if (other <= recording.channels().length && SilenceFiles.soundsOn(recording, other)) {
              having.put(state, recording);
            }
          });
      if (other != channel && !having.isEmpty() && sounds(VisitReading.read(having, other))) {
        HumState first = having.keySet().iterator().next();
        throw new Refusal(
            String.format(
                Locale.ROOT,
                "%s: channel %d holds nothing but hiss, while channel %d holds more. Say which one"
                    + " the guitar is on: --channel %d, or --channel %d if it is that quiet.",
                having.get(first).file().getFileName(),
                channel,
                other,
                other,
                channel));
      }
    }
  }

  private static boolean sounds(VisitReading visit) {
    return !visit.foreign().isEmpty() || !HumReasoning.of(visit.readings()).quiet();
  }

  /** The states taken apart; findings say which of them are no silence. */
  private List<StateReading> readings(Map<HumState, Recording> recordings, String visit) {
    VisitReading read = VisitReading.read(recordings, channel);
    read.foreign()
        .forEach(
            (state, sound) ->
                findings.add(
                    ForeignFinding.of(
                        SilenceFiles.name(recordings.get(state), visit, state), sound)));
    return read.readings();
  }

  /** A strike, and whether it was overdriven. */
  private record MeasuredStrike(Strike strike, boolean overdriven) {}

  private Strike told(MeasuredStrike measured) {
    if (measured.overdriven()) {
      findings.add(
          Finding.of(
              FindingCode.STRIKE_CLIPPED,
              measured.strike().file().getFileName() + " (the strike) is overdriven.",
              "samples stand at full scale, so it was louder than it reads",
              "Strike less hard or turn the gain down for all recordings, and record them again."));
    }
    return measured.strike();
  }

  private MeasuredStrike strike(Path file) {
    Recording recording = SilenceFiles.read(file);
    float[] samples = SilenceFiles.samples(recording, channel);
    StrikeLevel loudest = StrikeLevel.of(samples, recording.sampleRate());
    if (loudest.meanSquare() < 1e-10) {
      throw new Refusal(
          file.getFileName()
              + ": holds no strike that could serve as level reference; record one clear strike of"
              + " all strings, or leave --strike out.");
    }
    double level = FullScale.level(loudest.meanSquare());
    double weighted = FullScale.level(loudest.weighted());
    return new MeasuredStrike(new Strike(file, level, weighted), SilenceFiles.clipped(samples));
  }

  /** The mains where its series is plainest, provided that hum is heard at all. */
  private static Optional<Estimate> mains(List<StateReading> readings) {
    MainsSearch.Mains best = null;
    for (StateReading reading : readings) {
      if (reading.mainsHeard() && (best == null || reading.mains().get().score() > best.score())) {
        best = reading.mains().get();
      }
    }
    return Optional.ofNullable(best)
        .map(m -> new Estimate(m.hz(), m.low(), m.high(), Unit.HERTZ, Known.MEASURED))
        .map(RecordingPath::held);
  }

  private static Map<HumState, StateChange> changes(
      List<StateReading> readings, Map<HumState, GainShift> shifts) {
    Map<HumState, StateChange> changes = new EnumMap<>(HumState.class);
    StateReading reference = readings.get(0);
    for (StateReading reading : readings) {
      if (reading == reference) {
        continue;
      }
      double gain = certain(shifts, reading) - certain(shifts, reference);
      double factor = Math.pow(10, -gain / 10);
      changes.put(
          reading.state(),
          new StateChange(
              reference.state(),
              PowerLevel.difference(reading.hum().times(factor), reference.hum()),
              PowerLevel.difference(reading.buzz().times(factor), reference.buzz()),
              PowerLevel.difference(reading.lines().times(factor), reference.lines()),
              gain));
    }
    return changes;
  }

  private static double certain(Map<HumState, GainShift> shifts, StateReading reading) {
    GainShift shift = shifts.get(reading.state());
    return shift != null && shift.certain() ? shift.decibel() : 0;
  }

  private void tellOfGain(List<StateReading> readings, Map<HumState, GainShift> shifts) {
    for (StateReading reading : readings) {
      GainShift shift = shifts.get(reading.state());
      if (shift != null && shift.certain()) {
        findings.add(
            Finding.of(
                FindingCode.GAIN_CHANGED,
                "The recorder's gain was not the same for " + reading.state().words() + ".",
                String.format(
                    Locale.ROOT,
                    "hiss moved by %+.1f dB; the differences have it taken out",
                    shift.decibel()),
                "Leave the gain alone between the states."));
      } else if (shift != null && Math.abs(shift.decibel()) > 2.5) {
        findings.add(
            Finding.of(
                FindingCode.GAIN_UNCERTAIN,
                "The level of everything moved for "
                    + reading.state().words()
                    + "; the gain may have been changed.",
                String.format(Locale.ROOT, "hiss or bursts moved by %+.1f dB", shift.decibel()),
                "If the gain was touched, record this state again."));
      }
    }
  }

  private void tellOfAccidents(List<StateReading> readings) {
    for (StateReading reading : readings) {
      double left = (1 - reading.steadyShare()) * reading.recording().seconds();
      if (left > 0.4) {
        findings.add(
            Finding.of(
                FindingCode.UNSTEADY,
                String.format(
                    Locale.ROOT,
                    "%s: %.1f s were left out, because of a sound that did not last.",
                    reading.state().words(),
                    left),
                "a brushed string, a knock, or a passing noise",
                "Nothing, or record it again if you want the whole ten seconds."));
      }
    }
  }

  private List<VisitChange> compare(List<StateReading> before, List<StateReading> after) {
    List<VisitChange> changes = new ArrayList<>();
    for (StateReading old : before) {
      for (StateReading fresh : after) {
        if (fresh.state() == old.state()) {
          changes.add(compare(old, fresh));
          double moved =
              PowerLevel.difference(
                      fresh.spectrum().hiss(3000, 16000), old.spectrum().hiss(3000, 16000))
                  .value();
          if (Math.abs(moved) > 1) {
            findings.add(
                Finding.of(
                    FindingCode.GAIN_BETWEEN_VISITS,
                    "The hiss is not the same in the two visits, "
                        + old.state().words()
                        + ": the recorder's gain may differ.",
                    String.format(Locale.ROOT, "it moved by %+.1f dB", moved),
                    "Use one gain for both visits; the differences are as recorded."));
          }
        }
      }
    }
    if (changes.isEmpty()) {
      findings.add(
          Finding.of(
              FindingCode.NO_COMMON_STATE,
              "The two visits have no state in common, so they cannot be compared.",
              "",
              "Record the same states before and after."));
    }
    return changes;
  }

  private static VisitChange compare(StateReading old, StateReading fresh) {
    List<VisitChange.HarmonicChange> harmonics = new ArrayList<>();
    int most =
        Math.min(
            COMPARED_HARMONICS, Math.min(old.spectrum().harmonics(), fresh.spectrum().harmonics()));
    for (int k = 1; k <= most; k++) {
      MeanPower a = old.spectrum().harmonic(k);
      MeanPower b = fresh.spectrum().harmonic(k);
      boolean hidden = old.leftOut()[k - 1] || fresh.leftOut()[k - 1];
      if (!hidden && (a.present() || b.present())) {
        harmonics.add(
            new VisitChange.HarmonicChange(
                k, k * old.spectrum().fundamental(), PowerLevel.difference(b, a)));
      }
    }
    return new VisitChange(
        old.state(),
        fresh.recording(),
        PowerLevel.difference(fresh.hum(), old.hum()),
        PowerLevel.difference(fresh.buzz(), old.buzz()),
        PowerLevel.difference(fresh.lines(), old.lines()),
        PowerLevel.difference(fresh.weightedLines(), old.weightedLines()),
        harmonics);
  }
}

package org.trebleproof.bench.live;

import java.nio.file.Path;
import java.util.Locale;
import java.util.OptionalDouble;
import java.util.Set;
import org.trebleproof.audio.device.Transport;
import org.trebleproof.audio.device.TransportRun;
import org.trebleproof.bench.Stimulus;
import org.trebleproof.file.FileTurn;
import org.trebleproof.fixture.Fixture;
import org.trebleproof.quantity.Finding;
import org.trebleproof.quantity.FindingCode;
import org.trebleproof.quantity.Refusal;

/** Records one capture: finds the level, records, checks, and repeats what was disturbed. */
public final class CaptureRecorder {

  /** Takes after which a disturbed capture is given up. */
  private static final int MOST_TAKES = 3;

  /** A device channel quieter than this is worth a word [dB re full scale]. */
  private static final double QUIET = -40;

  /** What a guitar's fixture must not show and a calibration's may. */
  private static final Set<FindingCode> WIRED_OTHERWISE =
      Set.of(
          FindingCode.SAME_SIGNAL_TWICE,
          FindingCode.NO_SIGNAL,
          FindingCode.WRONG_FIXTURE,
          FindingCode.CHANNELS_SWAPPED,
          FindingCode.INVERTED);

  private final LiveBench bench;
  private final Transport transport;
  private final LiveListener listener;

  /**
   * @param transport by which it can be stopped from another thread
   */
  public CaptureRecorder(LiveBench bench, Transport transport, LiveListener listener) {
    this.bench = bench;
    this.transport = transport;
    this.listener = listener;
  }

  /** Shown before the first sound. */
  public static String caution() {
    return "Before the first sound: take headphones off, switch off or mute every loudspeaker that"
        + " is connected, unplug the instrument from any amplifier, and set phantom power off. The"
        + " sweep starts quiet and gets louder.";
  }

  /**
   * What is wanted.
   *
   * @param capture its name, for the sentences
   * @param target where the recording goes; a file there is kept under another name
   * @param stimulus what to play; its level is the highest allowed
   * @param level to play at where it is known already [dB re full scale]
   */
  public record Request(String capture, Path target, Stimulus stimulus, OptionalDouble level) {}

  /**
   * What was recorded.
   *
   * @param file the recording
   * @param level it was played at [dB re full scale]
   * @param check what was found out about it
   * @param takes how many it took
   */
  public record Recorded(Path file, double level, TakeCheck check, int takes) {}

  /**
   * Records.
   *
   * @throws Refusal if no take is sound, in one sentence; nothing is left but what was there before
   * @throws StoppedException if stopped
   */
  public Recorded record(Request request, Fixture fixture, OptionalDouble mainsHz) {
    return record(request, fixture, mainsHz, Set.of(), false);
  }

  /** Records as above, and hands over the last take also where it is refused. */
  public Recorded recordWhatever(Request request, Fixture fixture, OptionalDouble mainsHz) {
    return record(request, fixture, mainsHz, Set.of(), true);
  }

  /** Records for a calibration, where the fixture is not wired as for a guitar. */
  public Recorded recordForCalibration(Request request, Fixture fixture) {
    return record(request, fixture, OptionalDouble.empty(), WIRED_OTHERWISE, false);
  }

  private Recorded record(
      Request request,
      Fixture fixture,
      OptionalDouble mainsHz,
      Set<FindingCode> expected,
      boolean whatever) {
    FileTurn turn = FileTurn.now(request.target());
    try {
      return recordInTurn(request, fixture, mainsHz, expected, whatever);
    } finally {
      turn.close();
    }
  }

  private Recorded recordInTurn(
      Request request,
      Fixture fixture,
      OptionalDouble mainsHz,
      Set<FindingCode> expected,
      boolean whatever) {
    UnfinishedRecording place = UnfinishedRecording.of(request.target());
    place.putAside().ifPresent(s -> listener.step(s.sentence()));
    double level =
        request.level().isPresent()
            ? Math.min(request.level().getAsDouble(), request.stimulus().level())
            : level(request.stimulus());
    Stimulus stimulus = request.stimulus().at(level);
    for (int take = 1; ; take++) {
      listener.step(
          String.format(
              Locale.ROOT,
              "Recording %s: %d sweeps, %.0f s, at %.1f dB re full scale.",
              request.capture(),
              stimulus.repeats(),
              stimulus.length(),
              level));
      TransportRun run = new TakeRecorder(bench, transport, listener).record(stimulus, place);
      TakeCheck check =
          TakeCheck.of(
              request.capture(), place.file(), fixture, mainsHz, bench, stimulus, run, expected);
      if (!check.refused()) {
        check.findings().forEach(listener::finding);
        place.finish();
        return new Recorded(request.target(), level, check, take);
      }
      Finding worst = check.worst();
      boolean last = !check.worthRepeating() || take == MOST_TAKES;
      if (last && whatever) {
        place.finish();
        return new Recorded(request.target(), level, check, take);
      }
      place.drop();
      if (last) {
        throw new Refusal(
            worst.text()
                + " ("
                + worst.evidence()
                + ") "
                + worst.next()
                + (take > 1 ? " It was tried " + take + " times." : ""));
      }
      listener.finding(worst);
      listener.step("That take was disturbed; it is recorded again.");
    }
  }

  private double level(Stimulus stimulus) {
    LevelRamp.Found found =
        new LevelRamp(bench, stimulus.level(), listener).find(transport, stimulus);
    listener.step(
        String.format(
            Locale.ROOT,
            "Level set: played at %.1f dB, the device channel peaks at %.1f dB and the reference at"
                + " %.1f dB re full scale.",
            found.level(),
            found.devicePeak(),
            found.referencePeak()));
    if (found.limit() != LevelRamp.Limit.NONE && found.devicePeak() < QUIET) {
      listener.step(
          found.limit() == LevelRamp.Limit.CEILING
              ? "That is quiet: turn the device channel's input gain up, or allow a louder sweep"
                  + " with --ceiling."
              : "That is quiet: turn the device channel's input gain up; the reference channel is"
                  + " as loud as it may be.");
    }
    return found.level();
  }
}

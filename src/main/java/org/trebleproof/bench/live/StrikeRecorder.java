package org.trebleproof.bench.live;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.trebleproof.audio.GrowingWavFile;
import org.trebleproof.audio.device.BlockListener;
import org.trebleproof.audio.device.LevelMeter;
import org.trebleproof.audio.device.SoundDeviceException;
import org.trebleproof.audio.device.Transport;
import org.trebleproof.audio.device.TransportRun;
import org.trebleproof.bench.job.CaptureEntry;
import org.trebleproof.bench.job.Job;
import org.trebleproof.bench.strike.StrikeReading;
import org.trebleproof.file.FileTurn;
import org.trebleproof.quantity.Finding;
import org.trebleproof.quantity.FindingCode;
import org.trebleproof.quantity.Refusal;

/**
 * Records pick strikes: nothing is played, strikes are counted while they come, and it ends by
 * itself when there are enough or the player has stopped.
 */
public final class StrikeRecorder {

  /** Strikes of one recording where nobody says how many: six strings three times each. */
  public static final int USUAL = 18;

  /** What was there before the first strike has to be known [s]. */
  private static final double SILENCE = 1;

  /** The last strike rings for this long before the recording ends [s]. */
  private static final double RING = 2;

  /** A player who strikes nothing for this long has stopped [s]. */
  private static final double STOPPED = 15;

  /** Nobody waits longer for the first strike [s]. */
  private static final double PATIENCE = 60;

  /** No recording is longer: 200 strikes three seconds apart [s]. */
  private static final double LONGEST = 600;

  /** A strike quieter than this is worth a word [dB re full scale]. */
  private static final double QUIET = -40;

  private static final int MOST = 200;

  private final LiveInput input;
  private final Transport transport;
  private final LiveListener listener;
  private volatile boolean enough;

  /**
   * A recorder.
   *
   * @param transport by which it can be broken off from another thread
   */
  public StrikeRecorder(LiveInput input, Transport transport, LiveListener listener) {
    this.input = input;
    this.transport = transport;
    this.listener = listener;
  }

  /** Shown before the recording. */
  public static String caution() {
    return "Plug the guitar straight into the recorder, with no amplifier in between, and leave the"
        + " recorder's gain as it is for every recording of the job.";
  }

  /**
   * Refuses a number of strikes that makes no sense.
   *
   * @throws Refusal with the sentence
   */
  public static void checkCount(int strikes) {
    if (strikes < 1 || strikes > MOST) {
      throw new Refusal("The number of strikes must be 1 to " + MOST + ", not " + strikes + ".");
    }
  }

  /** What was recorded, and where it is. */
  public record Recorded(Path file, StrikeReading reading) {}

  /** Ends the recording and keeps it; may be called from another thread. */
  public void finish() {
    enough = true;
    transport.stop();
  }

  /**
   * Records.
   *
   * @param entry the capture; a file there is kept under another name
   * @param strikes to wait for
   * @throws Refusal if no strike can be used, in one sentence
   * @throws StoppedException if broken off; what was recorded stays in the unfinished file
   */
  public Recorded record(Job job, CaptureEntry entry, int strikes) {
    FileTurn turn = FileTurn.now(entry.file());
    try {
      return recordInTurn(job, entry, strikes);
    } finally {
      turn.close();
    }
  }

  private Recorded recordInTurn(Job job, CaptureEntry entry, int strikes) {
    checkCount(strikes);
    UnfinishedRecording place = UnfinishedRecording.of(entry.file());
    place.putAside().ifPresent(s -> listener.step(s.sentence()));
    enough = false;
    Optional<Heard> other = other(job, entry);
    other.ifPresent(this::propose);
    StrikeWatch watch = new StrikeWatch(input.sampleRate());
    listener.step("Recording " + entry.id() + ": hands on the strings, silence for a second.");
    TransportRun run;
    try (GrowingWavFile file = new GrowingWavFile(place.file(), channels(), input.sampleRate())) {
      run =
          transport.listen(
              input.recording().device(),
              input.recording().format(),
              whileStruck(file, watch, strikes));
    } catch (SoundDeviceException e) {
      throw new SoundDeviceException(e.getMessage() + " " + place.kept(watch.seconds()), e);
    }
    if (!enough) {
      throw new StoppedException("Stopped. " + place.kept(watch.seconds()));
    }
    if (!run.unbroken()) {
      listener.finding(LOST);
    }
    Recorded recorded = checked(job, entry, place, watch);
    other.ifPresent(o -> compare(recorded.reading(), o));
    return recorded;
  }

  /** A recording that is there already, by its name. */
  private record Heard(String id, StrikeReading reading) {}

  private static Optional<Heard> other(Job job, CaptureEntry entry) {
    return job.captures().stream()
        .filter(c -> !c.id().equals(entry.id()) && Files.exists(c.file()))
        .findFirst()
        .flatMap(
            c -> {
              try {
                return Optional.of(new Heard(c.id(), StrikeReading.of(job, c)))
                    .filter(h -> h.reading().usable() > 0);
              } catch (Refusal e) {
                return Optional.empty(); // it must not keep this one from being made
              }
            });
  }

  private static final Finding LOST =
      Finding.of(
          FindingCode.SOUND_LOST,
          "The machine did not keep up, and sound may have been lost.",
          "the recording queue ran over",
          "Close other programs and record it again.");

  private int channels() {
    return input.channel();
  }

  private BlockListener whileStruck(GrowingWavFile file, StrikeWatch watch, int strikes) {
    LevelMeter meter = new LevelMeter(channels(), input.sampleRate());
    BlockListener shown =
        new MeterShow(
            meter,
            input.sampleRate(),
            levels -> listener.levels(levels, Math.min(1, watch.usable() / (double) strikes)));
    boolean[] begun = {false};
    return (block, frames) -> {
      file.append(block, frames);
      shown.block(block, frames);
      watch.hear(block[input.channel() - 1], frames).forEach(seen -> say(seen, strikes));
      if (!begun[0] && watch.seconds() > SILENCE) {
        begun[0] = true;
        listener.step(
            String.format(
                Locale.ROOT,
                "Now strike %d single notes, one string at a time, each left to ring for a second or"
                    + " two. It ends by itself, or %.0f s after the last strike.",
                strikes,
                STOPPED));
      }
      boolean struck = watch.usable() >= strikes && watch.quiet() > RING;
      boolean given = watch.quiet() > (watch.struck() ? STOPPED : PATIENCE);
      if (struck || given || watch.seconds() > LONGEST) {
        finish();
      }
    };
  }

  private void say(StrikeWatch.Seen seen, int strikes) {
    if (seen.clipped()) {
      listener.step(
          "That strike clipped and does not count: turn the recorder's gain down and begin again.");
    } else if (seen.doubled()) {
      listener.step("That string was hit twice and does not count: strike once and let it ring.");
    } else {
      listener.step(
          String.format(
              Locale.ROOT,
              "Strike %d of %d, %.1f dB re full scale%s",
              seen.usable(),
              strikes,
              seen.peak(),
              seen.peak() < QUIET ? ": quiet, turn the gain up and begin again." : "."));
      if (seen.usable() == strikes) {
        listener.step("Enough: let the last one ring.");
      }
    }
  }

  private Recorded checked(
      Job job, CaptureEntry entry, UnfinishedRecording place, StrikeWatch watch) {
    StrikeReading reading =
        StrikeReading.of(
            job, new CaptureEntry(entry.id(), place.file(), entry.setup(), entry.across()));
    if (reading.usable() == 0) {
      Finding worst = reading.findings().get(0);
      place.drop();
      throw new Refusal(
          String.format(
              Locale.ROOT,
              "%s (%.0f s at channel %d of %s, peak %.1f dB re full scale.) %s",
              worst.text(),
              watch.seconds(),
              input.channel(),
              input.recording().device().name(),
              watch.loudest(),
              worst.next()));
    }
    place.finish();
    listener.step("Usable strikes of " + entry.id() + ": " + reading.said() + ".");
    reading.findings().forEach(listener::finding);
    return new Recorded(entry.file(), reading);
  }

  /** Tells what to strike, by a recording that is there already. */
  private void propose(Heard other) {
    listener.step(
        "Capture \"" + other.id() + "\" holds " + other.reading().said() + ": strike the same.");
  }

  /** Tells what of it was not struck in this one. */
  private void compare(StrikeReading made, Heard other) {
    List<String> lacking = made.lacking(other.reading());
    if (!lacking.isEmpty()) {
      listener.finding(
          Finding.of(
              FindingCode.STRIKES_NOTES_LACKING,
              "Capture \"" + other.id() + "\" holds notes that were not struck here.",
              String.join(", ", lacking),
              "Record it again with the same strings at the same frets, or those notes are left"
                  + " out."));
    }
  }
}

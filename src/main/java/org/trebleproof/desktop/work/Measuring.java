package org.trebleproof.desktop.work;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.concurrent.atomic.AtomicReference;
import java.util.function.Consumer;
import javafx.beans.property.ReadOnlyBooleanProperty;
import javafx.beans.property.ReadOnlyBooleanWrapper;
import javafx.beans.property.ReadOnlyObjectProperty;
import javafx.beans.property.ReadOnlyObjectWrapper;
import org.trebleproof.audio.WavWriter;
import org.trebleproof.audio.device.LevelMeter;
import org.trebleproof.audio.device.SoundDevice;
import org.trebleproof.audio.device.SoundSystem;
import org.trebleproof.audio.device.Transport;
import org.trebleproof.bench.Stimulus;
import org.trebleproof.bench.hum.HumState;
import org.trebleproof.bench.job.CaptureEntry;
import org.trebleproof.bench.job.Job;
import org.trebleproof.bench.live.CaptureRecorder;
import org.trebleproof.bench.live.LiveBench;
import org.trebleproof.bench.live.LiveInput;
import org.trebleproof.bench.live.LiveListener;
import org.trebleproof.bench.live.SilenceRecorder;
import org.trebleproof.bench.live.StrikeRecorder;
import org.trebleproof.desktop.draft.JobDraft;
import org.trebleproof.desktop.task.BenchTask;
import org.trebleproof.desktop.task.TaskBoard;
import org.trebleproof.desktop.task.Ticker;
import org.trebleproof.desktop.text.Texts;
import org.trebleproof.quantity.Finding;
import org.trebleproof.quantity.Refusal;
import org.trebleproof.report.plot.FrequencyPlot;
import org.trebleproof.report.words.Sentence;

/**
 * Measuring live: devices, levels, spectrum, and recordings that become captures of the job. What
 * the sound's thread finds out is shown at most once per frame of the screen.
 */
public final class Measuring {

  /** What a recording is made with: that of the command line's usual measurement. */
  private static final int RATE = 48000;

  private static final double SWEEP_SECONDS = 5;
  private static final double START_HZ = 20;
  private static final double END_HZ = 20000;
  private static final int REPEATS = 4;
  private static final double GAP = 1;
  private static final double CEILING = -6;

  /** Levels of the channels and whether anything comes in at all. */
  public record Levels(List<LevelMeter.Reading> channels) {
    public static final Levels NONE = new Levels(List.of());
  }

  private final Workbench bench;
  private final TaskBoard board;
  private final SoundSystem system;
  private final ReadOnlyObjectWrapper<List<SoundDevice>> devices =
      new ReadOnlyObjectWrapper<>(this, "devices", List.of());
  private final ReadOnlyObjectWrapper<Levels> levels =
      new ReadOnlyObjectWrapper<>(this, "levels", Levels.NONE);
  private final ReadOnlyObjectWrapper<Optional<FrequencyPlot>> spectrum =
      new ReadOnlyObjectWrapper<>(this, "spectrum", Optional.empty());
  private final ReadOnlyObjectWrapper<String> step = new ReadOnlyObjectWrapper<>(this, "step", "");
  private final ReadOnlyBooleanWrapper running = new ReadOnlyBooleanWrapper(this, "running");
  private final AtomicReference<Levels> latestLevels = new AtomicReference<>();
  private final AtomicReference<FrequencyPlot> latestSpectrum = new AtomicReference<>();
  private final AtomicReference<StrikeRecorder> recorder = new AtomicReference<>();
  private final ReadOnlyBooleanWrapper striking = new ReadOnlyBooleanWrapper(this, "striking");
  private Transport transport;
  private BenchTask task;

  public Measuring(Workbench bench, TaskBoard board, SoundSystem system) {
    this.bench = bench;
    this.board = board;
    this.system = system;
  }

  /** Devices there are; empty until they were looked for. */
  public ReadOnlyObjectProperty<List<SoundDevice>> devicesProperty() {
    return devices.getReadOnlyProperty();
  }

  public ReadOnlyObjectProperty<Levels> levelsProperty() {
    return levels.getReadOnlyProperty();
  }

  public ReadOnlyObjectProperty<Optional<FrequencyPlot>> spectrumProperty() {
    return spectrum.getReadOnlyProperty();
  }

  /** What goes on, in one sentence. */
  public ReadOnlyObjectProperty<String> stepProperty() {
    return step.getReadOnlyProperty();
  }

  /** Whether a device is in use. */
  public ReadOnlyBooleanProperty runningProperty() {
    return running.getReadOnlyProperty();
  }

  /** Whether strikes are being recorded, so that {@link #finish()} ends it. */
  public ReadOnlyBooleanProperty strikingProperty() {
    return striking.getReadOnlyProperty();
  }

  /** Looks for devices. */
  public void look() {
    board.start(
        Texts.of("task.devices"),
        ticker -> system.devices(),
        found -> {
          devices.set(List.copyOf(found));
          if (found.isEmpty()) {
            step.set(Texts.of("measure.no.device"));
          }
        },
        step::set);
  }

  /**
   * What is wanted of a recording.
   *
   * @param playback name of the device that plays
   * @param recording name of the device that records
   * @param id of the capture
   * @param setup that is recorded
   * @param across parts clipped across the jack
   */
  public record Wanted(
      String playback, String recording, String id, String setup, List<String> across) {
    public Wanted {
      across = List.copyOf(across);
    }
  }

  /** Shows the level of what comes in, until stopped. */
  public void listen(String recording) {
    start(
        Texts.of("task.listen"),
        (tapped, mover, ticker) -> {
          LiveInput live = LiveInput.choose(tapped, Optional.of(recording), RATE, channel());
          LevelMeter meter =
              new LevelMeter(live.recording().format().channels(), live.sampleRate());
          mover.listen(
              live.recording().device(),
              live.recording().format(),
              (block, frames) -> {
                meter.hear(block, frames);
                show(new Levels(meter.read()));
              });
          return Optional.empty();
        },
        nothing -> {});
  }

  /** Records a capture into the job. */
  public void record(Wanted wanted) {
    JobDraft draft = bench.draftProperty().get().orElse(null);
    if (draft == null) {
      return;
    }
    start(
        Texts.of("task.record", wanted.id()),
        (tapped, mover, ticker) -> Optional.of(recorded(tapped, mover, ticker, draft, wanted)),
        made -> add(made, wanted.id(), wanted.setup(), wanted.across()));
  }

  private Path recorded(
      SoundSystem tapped, Transport mover, Ticker ticker, JobDraft draft, Wanted wanted)
      throws Exception {
    Job job = draft.jobBeforeRecording();
    Path target = target(draft, wanted.id());
    Files.createDirectories(target.getParent());
    LiveBench live =
        bench(
            tapped,
            Optional.of(wanted.playback()),
            Optional.of(wanted.recording()),
            job.fixture().referenceChannel(),
            job.fixture().deviceChannel());
    Stimulus stimulus = sweep();
    return new CaptureRecorder(live, mover, listener(ticker))
        .record(
            new CaptureRecorder.Request(wanted.id(), target, stimulus, OptionalDouble.empty()),
            job.fixture(),
            job.mainsHz())
        .file();
  }

  private LiveListener listener(Ticker ticker) {
    return new LiveListener() {
      @Override
      public void step(String sentence) {
        tell(sentence);
      }

      @Override
      public void levels(List<LevelMeter.Reading> now, double share) {
        show(new Levels(now));
        ticker.at(Double.isNaN(share) ? -1 : share);
      }

      @Override
      public void finding(Finding finding) {
        tell(Sentence.of(finding.text()) + " " + Sentence.of(finding.next()));
      }
    };
  }

  /**
   * What is wanted of a recording of strikes.
   *
   * @param recording name of the device that records
   * @param id of the capture
   * @param setup that is recorded
   * @param across parts clipped across the jack
   * @param strikes to wait for
   */
  public record WantedStrikes(
      String recording, String id, String setup, List<String> across, int strikes) {
    public WantedStrikes {
      across = List.copyOf(across);
    }
  }

  /** Records strikes into the job, until there are enough or {@link #finish()}. */
  public void record(WantedStrikes wanted) {
    JobDraft begun = bench.draftProperty().get().orElse(null);
    if (begun == null) {
      return;
    }
    JobDraft draft = withSetup(begun, wanted.setup());
    start(
        Texts.of("task.record", wanted.id()),
        (tapped, mover, ticker) -> {
          Job job = draft.jobBeforeRecording();
          Path target = target(draft, wanted.id());
          Files.createDirectories(target.getParent());
          StrikeRecorder mine =
              new StrikeRecorder(
                  LiveInput.choose(
                      tapped, Optional.of(wanted.recording()), RATE, job.fixture().deviceChannel()),
                  mover,
                  listener(ticker));
          recorder.set(mine);
          return Optional.of(
              mine.record(
                      job,
                      new CaptureEntry(wanted.id(), target, wanted.setup(), wanted.across()),
                      wanted.strikes())
                  .file());
        },
        made -> add(made, wanted.id(), wanted.setup(), wanted.across()));
    striking.set(running.get());
  }

  /**
   * Records silence for the hum check beside the job.
   *
   * @param recording name of the device that records
   * @param later whether it is after a mod
   * @param done takes the recording
   */
  public void recordSilence(String recording, HumState state, boolean later, Consumer<Path> done) {
    JobDraft draft = bench.draftProperty().get().orElseThrow();
    start(
        Texts.of("task.record", state.words()),
        (tapped, mover, ticker) -> {
          Path target = target(draft, (later ? "hum after " : "hum ") + state.key());
          Files.createDirectories(target.getParent());
          return new SilenceRecorder(
                  LiveInput.choose(tapped, Optional.of(recording), RATE, channel()),
                  mover,
                  listener(ticker))
              .record(state, target);
        },
        done);
  }

  /** Ends a recording of strikes and keeps it. */
  public void finish() {
    StrikeRecorder mine = recorder.get();
    if (mine != null) {
      mine.finish();
    }
  }

  /** The setup that a job lacks yet is added with its first recording, and not before. */
  private static JobDraft withSetup(JobDraft draft, String setup) {
    return draft.setups().contains(setup) ? draft : draft.withNewSetup(setup);
  }

  private void add(Optional<Path> made, String id, String setup, List<String> across) {
    made.ifPresent(
        file ->
            bench.edit(
                Texts.of("edit.recorded", id),
                d -> withSetup(d, setup).withCapture(id, file, setup, across)));
  }

  /** A free file name beside the job. */
  private static Path target(JobDraft draft, String id) {
    Path folder = draft.source().toAbsolutePath().getParent();
    String plain =
        id.toLowerCase(Locale.ROOT).replaceAll("[^\\p{L}\\p{N}]+", "-").replaceAll("^-+|-+$", "");
    String name = plain.isEmpty() ? "capture" : plain;
    Path file = folder.resolve(name + ".wav");
    for (int n = 2; Files.exists(file); n++) {
      file = folder.resolve(name + "-" + n + ".wav");
    }
    return file;
  }

  private static LiveBench bench(
      SoundSystem tapped,
      Optional<String> playback,
      Optional<String> recording,
      int referenceChannel,
      int deviceChannel) {
    return LiveBench.choose(tapped, playback, recording, RATE, referenceChannel, deviceChannel);
  }

  /** Work on the sound devices. */
  private interface SoundWork<T> {
    T run(SoundSystem tapped, Transport mover, Ticker ticker) throws Exception;
  }

  private <T> void start(String title, SoundWork<T> work, Consumer<T> done) {
    stop();
    RunningSpectrum running = new RunningSpectrum(channel(), RATE);
    SoundSystem tapped =
        new TappedSound(
            system, (block, frames) -> running.hear(block, frames).ifPresent(this::show));
    Transport mover = new Transport(tapped);
    transport = mover;
    this.running.set(true);
    step.set("");
    BenchTask mine =
        board.start(
            title,
            ticker -> work.run(tapped, mover, ticker),
            found -> {
              ended(mover);
              done.accept(found);
            },
            sentence -> {
              ended(mover);
              step.set(sentence);
            });
    task = mine;
    mine.stateProperty()
        .addListener(
            (o, old, now) -> {
              if (now.over()) {
                mover.stop();
                ended(mover);
              }
            });
  }

  private int channel() {
    return bench.draftProperty().get().flatMap(Measuring::fixtureChannel).orElse(1);
  }

  private static Optional<Integer> fixtureChannel(JobDraft draft) {
    try {
      return Optional.of(draft.jobBeforeRecording().fixture().deviceChannel());
    } catch (Refusal e) {
      return Optional.empty(); // nobody has said yet what is connected where
    }
  }

  private void ended(Transport which) {
    if (transport == which) {
      transport = null;
      recorder.set(null);
      striking.set(false);
      running.set(false);
      levels.set(Levels.NONE);
    }
  }

  /** Ends what goes on; a sound fades out. */
  public void stop() {
    if (transport != null) {
      transport.stop();
      BenchTask mine = task;
      mine.cancel();
    }
  }

  private void tell(String sentence) {
    board.screen().execute(() -> step.set(sentence));
  }

  /** Hands levels to the screen unless the last ones still wait there. */
  private void show(Levels now) {
    if (latestLevels.getAndSet(now) == null) {
      board
          .screen()
          .execute(
              () -> {
                Levels shown = latestLevels.getAndSet(null);
                if (running.get()) {
                  levels.set(shown);
                }
              });
    }
  }

  private void show(FrequencyPlot plot) {
    if (latestSpectrum.getAndSet(plot) == null) {
      board
          .screen()
          .execute(() -> spectrum.set(Optional.ofNullable(latestSpectrum.getAndSet(null))));
    }
  }

  /** Names for the next recording that the job does not have yet. */
  public static String freeName(JobDraft draft, String setup, List<String> across) {
    String base = across.isEmpty() ? setup : setup + " " + String.join(" ", across);
    List<String> taken = new ArrayList<>();
    draft.captures().forEach(c -> taken.add(c.id()));
    String name = base;
    for (int n = 2; taken.contains(name); n++) {
      name = base + " " + n;
    }
    return name;
  }

  /** The sweep that is played, for whoever records with something else. */
  public static Stimulus sweep() {
    return new Stimulus(
        RATE,
        WavWriter.Encoding.PCM24,
        SWEEP_SECONDS,
        START_HZ,
        END_HZ,
        REPEATS,
        GAP,
        CEILING,
        false);
  }
}

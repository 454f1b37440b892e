package org.trebleproof.bench.live;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;
import org.trebleproof.audio.SoundFile;
import org.trebleproof.bench.Stimulus;
import org.trebleproof.bench.job.CaptureAddition;
import org.trebleproof.bench.job.CaptureEntry;
import org.trebleproof.bench.job.Job;
import org.trebleproof.bench.job.JobReader;
import org.trebleproof.bench.strike.StrikeReading;
import org.trebleproof.file.FileTurn;
import org.trebleproof.file.GivenFile;
import org.trebleproof.file.WholeFile;
import org.trebleproof.fixture.Fixture;
import org.trebleproof.quantity.Refusal;

/** Records captures into a job: beside its file, and named in it. */
public final class JobRecording {

  private final Path file;
  private final Job job;

  private JobRecording(Path file, Job job) {
    this.file = file;
    this.job = job;
  }

  /**
   * Opens a job for recording.
   *
   * @throws Refusal if it cannot be used
   */
  public static JobRecording open(Path file) {
    Job job = JobReader.readBeforeRecording(file);
    if (!(job.fixture() instanceof Fixture.Strike) && job.fixture().referenceChannel() == 0) {
      throw new Refusal(
          file.getFileName()
              + ": a sweep is recorded live with two channels only, and fixture names one; record"
              + " the capture yourself and take it in with --use.");
    }
    return new JobRecording(file, job);
  }

  public Job job() {
    return job;
  }

  /**
   * A capture to record, planned in the job or new to it.
   *
   * @param id of the capture
   * @param target its sound file
   * @param setup that is recorded
   * @param across parts clipped across the jack
   * @param planned whether the job names it already
   */
  public record Wanted(String id, Path target, String setup, List<String> across, boolean planned) {
    public Wanted {
      across = List.copyOf(across);
    }

    private Wanted endingLike(Path recording) {
      String name = String.valueOf(target.getFileName()).replaceFirst("\\.wav$", "");
      return new Wanted(
          id, target.resolveSibling(name + ending(recording)), setup, across, planned);
    }
  }

  /**
   * Finds or plans a capture.
   *
   * @param setup for a capture the job does not name; may be empty where it has one setup, or one
   *     of the capture's name
   * @param again whether a capture that is recorded already is recorded anew
   * @throws Refusal if it cannot be recorded so
   */
  public Wanted want(String id, Optional<String> setup, List<String> across, boolean again) {
    Optional<CaptureEntry> entry = job.captures().stream().filter(c -> c.id().equals(id)).findAny();
    if (entry.isPresent()) {
      CaptureEntry e = entry.get();
      if (setup.filter(s -> !s.equals(e.setup())).isPresent()
          || !across.isEmpty() && !across.equals(e.across())) {
        throw new Refusal(
            file.getFileName()
                + ": capture \""
                + id
                + "\" is planned there with setup \""
                + e.setup()
                + "\": leave --setup and --across out, or give another capture id.");
      }
      if (Files.exists(e.file()) && !again) {
        throw new Refusal(
            e.file()
                + " is recorded already: add --again to record it anew (the old one is kept"
                + " beside it), or give another capture id.");
      }
      return new Wanted(id, e.file(), e.setup(), e.across(), true);
    }
    String chosen =
        setup.orElseGet(
            () -> {
              if (job.setups().size() == 1) {
                return job.setups().keySet().iterator().next();
              }
              if (job.setups().containsKey(id) && across.isEmpty()) {
                return id; // "record job.json after" is of the setup "after"
              }
              throw new Refusal(
                  file.getFileName()
                      + ": capture \""
                      + id
                      + "\" is new to the job: say with --setup which of its setups is plugged in ("
                      + String.join(", ", job.setups().keySet())
                      + ").");
            });
    if (!job.setups().containsKey(chosen)) {
      throw new Refusal(
          file.getFileName()
              + ": there is no setup "
              + Refusal.quote(chosen)
              + ": its setups are "
              + String.join(", ", job.setups().keySet())
              + ".");
    }
    for (String part : across) {
      if (!job.parts().containsKey(part)) {
        throw new Refusal(
            file.getFileName()
                + ": there is no part "
                + Refusal.quote(part)
                + " to clip across the jack: add it to parts first.");
      }
    }
    Path target = folder().resolve(fileName(id));
    if (Files.exists(target) && !again) {
      throw new Refusal(
          target + " is there already and no capture of the job: move it, or give another id.");
    }
    return new Wanted(id, target, chosen, across, false);
  }

  /** The next capture of a series: {@code before}, {@code before 2}, {@code before 3}, ... */
  Wanted next(Wanted first, int number) {
    for (int k = number; ; k++) {
      String id = first.id() + " " + k;
      Path target = folder().resolve(fileName(id));
      if (job.captures().stream().noneMatch(c -> c.id().equals(id)) && !Files.exists(target)) {
        return new Wanted(id, target, first.setup(), first.across(), false);
      }
    }
  }

  /**
   * Records a capture and names it in the job.
   *
   * @param level to play at where it is known already [dB re full scale]
   * @throws Refusal if it fails; the job is as it was then
   */
  public CaptureRecorder.Recorded record(
      CaptureRecorder recorder, Wanted wanted, Stimulus stimulus, OptionalDouble level) {
    WholeFile.checkPlace(wanted.target());
    CaptureRecorder.Recorded recorded =
        recorder.record(
            new CaptureRecorder.Request(wanted.id(), wanted.target(), stimulus, level),
            job.fixture(),
            job.mainsHz());
    name(wanted);
    return recorded;
  }

  /** Whether strikes are recorded, and nothing is played. */
  public boolean ofStrikes() {
    return job.fixture() instanceof Fixture.Strike;
  }

  /**
   * Records strikes and names the capture in the job.
   *
   * @param strikes to wait for
   * @throws Refusal if it fails; the job is as it was then
   */
  public StrikeRecorder.Recorded record(StrikeRecorder recorder, Wanted wanted, int strikes) {
    WholeFile.checkPlace(wanted.target());
    CaptureEntry entry =
        new CaptureEntry(wanted.id(), wanted.target(), wanted.setup(), wanted.across());
    StrikeRecorder.Recorded recorded = recorder.record(job, entry, strikes);
    name(wanted);
    return recorded;
  }

  /**
   * Takes a recording that is there already into the job; it is copied beside the job file.
   *
   * <p>A new capture keeps the ending of its name.
   *
   * @return where it is now
   * @throws Refusal if it cannot be, or is no recording
   */
  public Path use(Path recording, Wanted asked) {
    SoundFile.read(recording); // what cannot be read would bring the whole job down
    Wanted wanted = asked.planned() ? asked : asked.endingLike(recording);
    if (!ending(recording).equals(ending(wanted.target()))) {
      throw new Refusal(
          file.getFileName()
              + " plans "
              + wanted.target().getFileName()
              + " for capture \""
              + wanted.id()
              + "\", which "
              + recording.getFileName()
              + " is not by its ending: correct file there, or save the recording so.");
    }
    if (!wanted.target().equals(asked.target()) && Files.exists(wanted.target())) {
      throw new Refusal(
          wanted.target()
              + " is there already and no capture of the job: move it, or give another id.");
    }
    try {
      if (!Files.exists(wanted.target()) || !Files.isSameFile(recording, wanted.target())) {
        Path from = GivenFile.readable(recording, words -> new Refusal(recording + " " + words));
        UnfinishedRecording.of(wanted.target()).keepFormer();
        WholeFile.write(wanted.target(), out -> Files.copy(from, out));
      }
    } catch (IOException e) {
      throw new Refusal(recording + " cannot be read: check the name and the folder.", e);
    }
    name(wanted);
    return wanted.target();
  }

  /** What a recording of strikes that is in the job now holds. */
  public StrikeReading reading(Wanted wanted, Path recording) {
    return StrikeReading.of(
        job, new CaptureEntry(wanted.id(), recording, wanted.setup(), wanted.across()));
  }

  /** Ending of a file name, lower case; WAV has two. */
  private static String ending(Path file) {
    String name = String.valueOf(file.getFileName()).toLowerCase(Locale.ROOT);
    int dot = name.lastIndexOf('.');
    String ending = dot < 0 ? "" : name.substring(dot);
    return switch (ending) {
      case ".wave", "" -> ".wav";
      case ".aiff", ".aifc" -> ".aif";
      default -> ending;
    };
  }

  private void name(Wanted wanted) {
    if (wanted.planned()) {
      return;
    }
    String sound = folder().toAbsolutePath().relativize(wanted.target().toAbsolutePath()) + "";
    FileTurn.during(
        file,
        () -> {
          // Another process may have named one so while this one was recording.
          if (JobReader.readBeforeRecording(file).captures().stream()
              .anyMatch(c -> c.id().equals(wanted.id()))) {
            throw new Refusal(
                file.getFileName()
                    + " has got a capture "
                    + Refusal.quote(wanted.id())
                    + " from elsewhere meanwhile; yours is in "
                    + wanted.target()
                    + ": take it in under another id with --use.");
          }
          CaptureAddition.add(file, wanted.id(), sound, wanted.setup(), wanted.across());
          return wanted;
        });
  }

  /** The job as it stands now, without captures that are not recorded yet. */
  public Job recordedSoFar() {
    Job now = JobReader.readBeforeRecording(file);
    return new Job(
        now.title(),
        now.source(),
        now.fixture(),
        now.mainsHz(),
        now.parts(),
        now.setups(),
        now.captures().stream().filter(c -> Files.exists(c.file())).toList(),
        now.notes(),
        now.calibration(),
        now.plans());
  }

  private Path folder() {
    Path parent = file.getParent();
    return parent == null ? Path.of("") : parent;
  }

  /** The capture's name in letters every file system takes. */
  private static String fileName(String id) {
    String plain = id.toLowerCase(Locale.ROOT).replaceAll("[^\\p{L}\\p{N}]+", "-");
    String name = plain.replaceAll("^-+|-+$", "");
    return (name.isEmpty() ? "capture" : name) + ".wav";
  }
}

package org.trebleproof.shelf.evening;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.trebleproof.audio.SoundFile;
import org.trebleproof.bench.job.CaptureEntry;
import org.trebleproof.bench.job.Job;
import org.trebleproof.bench.job.JobReader;
import org.trebleproof.file.KnownContent;
import org.trebleproof.fixture.PlayedSweep;
import org.trebleproof.json.JsonWriter;
import org.trebleproof.quantity.Refusal;
import org.trebleproof.shelf.item.Circumstances;
import org.trebleproof.shelf.item.NewCoil;
import org.trebleproof.shelf.item.NewCoil.KeptFile;
import org.trebleproof.shelf.item.NewCoil.Role;
import org.trebleproof.shelf.item.PlainName;

/**
 * A job and its files made ready to be kept: every file under a plain name of its own, by which the
 * kept job calls it, wherever it lay before.
 */
final class NewMeasurement {

  private static final List<String> OF_FIXTURE = List.of("calibration", "sweep", "loopback");

  private final Job job;
  private final Map<String, Object> content;
  private final Map<Path, String> names = new LinkedHashMap<>();
  private final Map<String, KeptFile> files = new LinkedHashMap<>();

  private NewMeasurement(Job job, Map<String, Object> content) {
    this.job = job;
    this.content = content;
  }

  /**
   * Reads a job and the hashes of its files.
   *
   * @param file where the job is, or would be
   * @param content as its file holds it
   */
  static NewMeasurement of(Path file, Map<String, Object> content) {
    NewMeasurement m = new NewMeasurement(JobReader.of(file, content), content);
    for (CaptureEntry capture : m.job.captures()) {
      m.keep(capture.file(), Role.RECORDING);
    }
    m.job.calibration().ifPresent(c -> m.keep(c.file(), Role.BENCH));
    m.job.fixture().played().map(PlayedSweep::file).ifPresent(f -> m.keep(f, Role.BENCH));
    m.job.fixture().played().flatMap(PlayedSweep::loopback).ifPresent(f -> m.keep(f, Role.BENCH));
    return m;
  }

  private void keep(Path file, Role role) {
    Path whole = file.toAbsolutePath().normalize();
    if (names.containsKey(whole)) {
      return;
    }
    if (Files.exists(file) && !Files.isRegularFile(file)) {
      throw new Refusal(file + " is no file, so it cannot be kept: save it as one first.");
    }
    if (role == Role.RECORDING && KnownContent.ofGiven(file).isEmpty()) {
      // Said before it gets a name, so that it leaves no gap in the row.
      throw new Refusal(
          file.getFileName()
              + ": is no WAV, AIFF or FLAC file: export the recording as WAV, 24 bits.");
    }
    String name =
        PlainName.free(
            PlainName.ofFile(String.valueOf(whole.getFileName())), Set.copyOf(files.keySet()));
    names.put(whole, name);
    files.put(name, new KeptFile(role, SoundFile.sha256(file), file));
  }

  Job job() {
    return job;
  }

  NewCoil coil(
      String name,
      boolean again,
      String recipe,
      List<String> tags,
      String notes,
      Circumstances circumstances) {
    return new NewCoil(name, again, recipe, tags, notes, circumstances, renamed(), files);
  }

  /** The job, its files called by their new names. */
  private String renamed() {
    Map<String, Object> copy = new LinkedHashMap<>(content);
    Path folder =
        Optional.ofNullable(job.source().toAbsolutePath().getParent()).orElse(Path.of("/"));
    List<Object> captures = new ArrayList<>();
    for (Object capture : (List<?>) content.get("captures")) {
      Map<String, Object> entry = copied((Map<?, ?>) capture);
      rename(entry, "file", folder);
      captures.add(entry);
    }
    copy.put("captures", captures);
    Map<String, Object> fixture = copied((Map<?, ?>) content.get("fixture"));
    OF_FIXTURE.forEach(key -> rename(fixture, key, folder));
    copy.put("fixture", fixture);
    return JsonWriter.file(json -> json.content(copy));
  }

  private static Map<String, Object> copied(Map<?, ?> map) {
    Map<String, Object> copy = new LinkedHashMap<>();
    map.forEach((key, value) -> copy.put(String.valueOf(key), value));
    return copy;
  }

  private void rename(Map<String, Object> entry, String key, Path folder) {
    if (entry.get(key) instanceof String text) {
      String name = names.get(folder.resolve(text).toAbsolutePath().normalize());
      if (name != null) {
        entry.put(key, name);
      }
    }
  }
}

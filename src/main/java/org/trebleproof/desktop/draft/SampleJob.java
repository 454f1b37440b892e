package org.trebleproof.desktop.draft;

import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import org.trebleproof.desktop.text.Texts;
import org.trebleproof.quantity.Refusal;

/** A job that is carried in the program, to be tried without a guitar at hand. */
public final class SampleJob {

  private static final String JOB = "job.json";

  private SampleJob() {}

  /**
   * The sample's job file in a folder; what is there already stays as it is.
   *
   * @throws Refusal if it cannot be put there, in one sentence
   */
  public static Path in(Path folder) {
    StateFolder.made(folder);
    Path job = folder.resolve(JOB);
    put(JOB, job);
    JobDraft draft = JobDraft.read(job);
    draft.captures().forEach(c -> put(c.file(), draft.file(c)));
    return job;
  }

  private static void put(String name, Path file) {
    if (Files.exists(file)) {
      return;
    }
    try (InputStream in = SampleJob.class.getResourceAsStream("sample/" + name)) {
      if (in == null) {
        throw new Refusal(Texts.of("sample.missing", name));
      }
      Path part = file.resolveSibling(file.getFileName() + ".part");
      Files.copy(in, part, StandardCopyOption.REPLACE_EXISTING);
      Files.move(part, file, StandardCopyOption.ATOMIC_MOVE);
    } catch (IOException e) {
      throw new Refusal(Texts.of("sample.unwritten", file.getParent()), e);
    }
  }
}

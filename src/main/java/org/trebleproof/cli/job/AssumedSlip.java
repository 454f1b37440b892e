package org.trebleproof.cli.job;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.trebleproof.bench.answer.FitResult;
import org.trebleproof.bench.answer.Slip;
import org.trebleproof.bench.job.Job;
import org.trebleproof.bench.job.JobContent;
import org.trebleproof.bench.job.JobFileException;
import org.trebleproof.cli.command.WrongUsage;
import org.trebleproof.file.FilesInUse;
import org.trebleproof.json.JsonFile;
import org.trebleproof.json.JsonWriter;
import org.trebleproof.quantity.Finding;
import org.trebleproof.quantity.FindingCode;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Model.OptionSpec;
import picocli.CommandLine.ParseResult;

/** A slip that a user says was made: the job is taken that way, and written so to a new file. */
final class AssumedSlip {

  private static final String OPTION = "--assume-slip";

  /** So many files a name is tried for. */
  private static final int MOST_FILES = 99;

  private final Job job;
  private final Slip slip;

  private AssumedSlip(Job job, Slip slip) {
    this.job = job;
    this.slip = slip;
  }

  static void addTo(CommandSpec spec) {
    spec.addOption(
        OptionSpec.builder(OPTION)
            .paramLabel("N")
            .type(Integer.class)
            .description(
                "Where a slip looks likely: assume the N-th one named (1 for the first), and"
                    + " write the corrected job beside the job file.")
            .build());
  }

  /** The slip that was asked for; empty where none was, or none is likely. */
  static Optional<AssumedSlip> asked(ParseResult given, FitResult result) {
    if (!given.hasMatchedOption(OPTION)) {
      return Optional.empty();
    }
    int number = given.matchedOptionValue(OPTION, 1);
    if (number < 1 || !result.slips().isEmpty() && number > result.slips().size()) {
      throw new WrongUsage(
          OPTION
              + " must be "
              + (result.slips().size() > 1 ? "1 to " + result.slips().size() : "1")
              + ", the number of a slip that was named");
    }
    return result.slips().isEmpty()
        ? Optional.empty()
        : Optional.of(new AssumedSlip(result.job(), result.slips().get(number - 1)));
  }

  /** The job with the slip put right, and a word that it is. */
  Job corrected() {
    Job corrected = slip.corrected(job);
    List<Finding> notes = new ArrayList<>(corrected.notes());
    notes.add(
        Finding.of(
            FindingCode.SLIP_ASSUMED,
            "Taken on your word that " + slip.what() + ".",
            slip.text(),
            "Check it at the bench; the numbers hold only if it is so."));
    return corrected.withNotes(notes);
  }

  /** Writes the corrected job to a new file and says so. */
  String write() {
    Path source = job.source();
    String name = String.valueOf(source.getFileName());
    if (!name.endsWith(".json") || !Files.isRegularFile(source)) {
      return "There is no job file to correct: say it with options next time.";
    }
    Map<String, Object> content =
        JsonFile.read(source, "job file", JobFileException::new).content();
    Path target = fresh(source, name.substring(0, name.length() - ".json".length()));
    FilesInUse files = new FilesInUse();
    files.reads(job.files());
    files.writes("", target);
    files.write("", JsonWriter.file(json -> json.content(JobContent.with(content, slip.edits()))));
    return "The corrected job is written to " + target + ".";
  }

  /** A name beside the job file that no file has. */
  private static Path fresh(Path source, String stem) {
    for (int n = 1; n < MOST_FILES; n++) {
      Path target = source.resolveSibling(stem + "-corrected" + (n == 1 ? "" : "-" + n) + ".json");
      if (!Files.exists(target)) {
        return target;
      }
    }
    throw new JobFileException(
        source.getFileName() + ": has been corrected often enough: delete some of those files.");
  }
}

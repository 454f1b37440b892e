package org.trebleproof.cli.mod;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.trebleproof.bench.job.Job;
import org.trebleproof.bench.job.JobReader;
import org.trebleproof.bench.mod.guitar.ChainFile;
import org.trebleproof.bench.mod.guitar.SignalChain;
import org.trebleproof.cli.command.OutputFiles;
import org.trebleproof.cli.command.WrongUsage;
import org.trebleproof.cli.job.FormerFit;
import org.trebleproof.quantity.Refusal;
import picocli.CommandLine.ParseResult;

/**
 * The other coil of a set, from the same guitar, another job or another kept guitar.
 *
 * @param guitar both coils
 * @param name of the other coil among them; empty where none was asked for
 */
record CoilMate(SignalChain guitar, Optional<String> name) {

  static CoilMate of(
      ParseResult given, SignalChain guitar, Optional<Path> source, OutputFiles files) {
    String wanted = given.matchedOptionValue("--match", null);
    if (wanted == null) {
      return new CoilMate(guitar, Optional.empty());
    }
    if (guitar.coils().containsKey(wanted)) {
      return new CoilMate(guitar, Optional.of(wanted));
    }
    Path file = Path.of(wanted);
    if (!Files.exists(file)) {
      throw new WrongUsage(
          "there is no pickup "
              + wanted
              + " and no file of that name: there is "
              + String.join(", ", guitar.coils().keySet()));
    }
    files.reads(file);
    source.ifPresent(own -> refuseSame(own, file));
    SignalChain other = FormerFit.chain(file, files);
    if (other.coils().size() > 1) {
      throw new WrongUsage(
          file.getFileName()
              + " has "
              + String.join(", ", other.coils().keySet())
              + ": give the file of one pickup, or identify that file and match it with this one.");
    }
    String pickup = other.coils().keySet().iterator().next();
    String name = file.getFileName().toString();
    return new CoilMate(guitar.beside(other, pickup, name), Optional.of(name));
  }

  /** One file, or two of which all recordings are the same, would make a perfect set. */
  private static void refuseSame(Path own, Path other) {
    try {
      if (Files.mismatch(own, other) == -1L || sameRecordings(own, other)) {
        throw new Refusal(
            own.getFileName()
                + " and "
                + other.getFileName()
                + " hold the same recordings: one coil makes no set with itself; give the other"
                + " coil's file.");
      }
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  private static boolean sameRecordings(Path own, Path other) throws IOException {
    List<Path> ours = recordings(own);
    List<Path> theirs = recordings(other);
    boolean same = !ours.isEmpty() && ours.size() == theirs.size();
    for (int i = 0; same && i < ours.size(); i++) {
      same = Files.mismatch(ours.get(i), theirs.get(i)) == -1L;
    }
    return same;
  }

  /** What a job was recorded in; a kept guitar does not say. */
  private static List<Path> recordings(Path file) {
    if (FormerFit.isRecording(file)) {
      return List.of(file);
    }
    if (ChainFile.isOne(file)) {
      return List.of();
    }
    Job job = JobReader.read(file);
    List<Path> recordings = new ArrayList<>();
    job.captures().forEach(c -> recordings.add(c.file()));
    return recordings;
  }
}

package org.trebleproof.cli.job;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.trebleproof.bench.FitJob;
import org.trebleproof.bench.answer.FitResult;
import org.trebleproof.bench.job.Job;
import org.trebleproof.bench.job.JobReader;
import org.trebleproof.bench.mod.guitar.ChainFile;
import org.trebleproof.bench.mod.guitar.SignalChain;
import org.trebleproof.bench.model.FittedParts;
import org.trebleproof.bench.model.KnownPickup;
import org.trebleproof.cli.command.OutputFiles;
import org.trebleproof.cli.command.WrongUsage;
import org.trebleproof.fixture.Fixture;
import org.trebleproof.quantity.Finding;
import org.trebleproof.quantity.Refusal;
import picocli.CommandLine.ParseResult;

/** What was fitted earlier and is taken up again: a whole guitar, or its pickup alone. */
public final class FormerFit {

  private FormerFit() {}

  /**
   * The pickup of a job of strikes as it was fitted before.
   *
   * @throws Refusal when the file does not hold it
   */
  static Optional<KnownPickup> pickup(ParseResult given, Job job, OutputFiles files) {
    Path file = given.matchedOptionValue("--pickup", null);
    if (file == null) {
      return Optional.empty();
    }
    if (!(job.fixture() instanceof Fixture.Strike)) {
      throw new WrongUsage(
          "--pickup is for a job of pick strikes: sweeps measure the pickup themselves");
    }
    if (file.toAbsolutePath().normalize().equals(job.source().toAbsolutePath().normalize())) {
      throw new WrongUsage(
          "--pickup names the job itself, whose strikes would count twice: give the job or guitar"
              + " in which the pickup was fitted before.");
    }
    SignalChain chain = chain(file, files);
    String wanted = job.setups().values().iterator().next().pickup();
    String name =
        chain.coils().containsKey(wanted) || chain.coils().size() != 1
            ? wanted
            : chain.coils().keySet().iterator().next();
    if (!chain.coils().containsKey(name)) {
      throw new Refusal(
          file.getFileName()
              + " has no pickup "
              + Refusal.quote(wanted)
              + ", only "
              + String.join(", ", chain.coils().keySet())
              + ": give the job's pickup the name it has there.");
    }
    return Optional.of(
        KnownPickup.of(
            chain.coils().get(name),
            name,
            chain.knowledge().names(),
            chain.knowledge().logMean(),
            chain.knowledge().logCovariance()));
  }

  /**
   * The guitar that a file holds: one kept with {@code --save}, or a job, which is fitted.
   *
   * @param files to which all that is read is added
   * @throws Refusal when it holds none
   */
  public static SignalChain chain(Path source, OutputFiles files) {
    if (JobOptions.isSound(source)) {
      throw new WrongUsage(
          source.getFileName()
              + " is a recording: keep what it tells first (trebleproof explain "
              + source
              + " --fixture ... --save guitar.json) and give that, or a job that names it.");
    }
    return ChainFile.isOne(source) ? ChainFile.read(source) : fitted(source, files);
  }

  /** Whether a file is a recording, not a job or a guitar. */
  public static boolean isRecording(Path file) {
    return JobOptions.isSound(file);
  }

  /** The guitar of one recording that needs no job file. */
  public static SignalChain recorded(Job job, OutputFiles files) {
    return fitted(job, job.source(), files);
  }

  private static SignalChain fitted(Path source, OutputFiles files) {
    return fitted(JobReader.read(source), source, files);
  }

  private static SignalChain fitted(Job job, Path source, OutputFiles files) {
    files.reads(job.files());
    List<FittedParts> kept = new ArrayList<>();
    FitResult result = FitJob.keepingDoubted().run(job, kept::add);
    Optional<String> error = result.verdict().cause().map(Finding::text);
    boolean bare =
        job.setups().values().stream()
            .allMatch(setup -> setup.volume().isEmpty() && setup.tone().isEmpty());
    boolean doubted = kept.isEmpty() || !result.verdict().stands();
    if (result.verdict().refused() || doubted && error.isPresent()) {
      throw new RefusedJob(
          source.getFileName()
              + " was refused, so nothing can be said: "
              + error.orElse("see trebleproof fit."),
          job.title(),
          result.verdict(),
          bare && !kept.isEmpty()
              ? Optional.of(SignalChain.of(kept.get(0), result.verdict().errors()))
              : Optional.empty());
    }
    if (kept.isEmpty()) {
      throw new Refusal(
          source.getFileName()
              + ": its pick strikes do not tell the values of the parts, which this needs: record the"
              + " same notes "
              + (job.setups().size() == 1 ? "in a second setup, or " : "")
              + "once more with 1 nF clipped across the jack, sweep the guitar, or type its numbers.");
    }
    return SignalChain.of(kept.get(0), result.verdict().errors());
  }
}

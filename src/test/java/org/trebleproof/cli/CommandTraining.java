package org.trebleproof.cli;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;
import org.trebleproof.cli.command.Terminal;

/**
 * Compares a pot swap, by sweeps and by strikes, and checks a hum, with all files written: the run
 * whose classes are archived for a fast start.
 */
final class CommandTraining {

  private CommandTraining() {}

  /** Takes the folder of the samples and one for what is written. */
  public static void main(String[] arguments) throws Exception {
    Path samples = Path.of(arguments[0]);
    Path out = Path.of(arguments[1]);
    List<String> compare =
        List.of("compare", samples.resolve("pot-swap").resolve("job.json").toString());
    List<String> strikes =
        List.of("compare", samples.resolve("strikes-pot-swap").resolve("job.json").toString());
    List<String> hum = new ArrayList<>(List.of("hum"));
    try (Stream<Path> files = Files.list(samples.resolve("hum-bench-lamp"))) {
      for (Path file : files.filter(f -> f.toString().endsWith(".flac")).sorted().toList()) {
        hum.add("--" + file.getFileName().toString().replaceFirst("\\..*", ""));
        hum.add(file.toString());
      }
    }
    CommandLineFace face = new CommandLineFace(Terminal.ofProcess(System.getenv()));
    for (List<String> command : List.of(compare, strikes, hum)) {
      List<String> all = new ArrayList<>(command);
      all.addAll(List.of("--json", out.resolve("result.json").toString()));
      all.addAll(List.of("--csv", out.resolve("curves.csv").toString()));
      all.addAll(List.of("--page", out.resolve("page.html").toString()));
      face.run(all.toArray(new String[0]));
    }
  }
}

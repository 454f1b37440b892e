package org.trebleproof.file;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Optional;
import java.util.regex.Pattern;

/** What a person recorded, measured or wrote, and no command can make again. */
public enum Irreplaceable {
  RECORDING("a recording"),
  JOB("a job"),
  CALIBRATION("a calibration"),
  HISTORY("a bench history"),
  GUITAR("a kept guitar"),
  SHELF("a shelf");

  private static final int LOOK = 1 << 16;
  private static final Pattern OURS = Pattern.compile("^\\s*\\{\\s*\"trebleproof\"");
  private static final Pattern KIND =
      Pattern.compile("\\A[^{]*\\{[^{\\[]*\"kind\"\\s*:\\s*\"(calibration|guitar)\"");
  private static final Pattern FIXTURE = Pattern.compile("\"(fixture|setups)\"\\s*:\\s*\\{");

  /** How a file of SQLite begins; whoever's it is, it is no output of this program. */
  private static final String STORE_HEAD = "SQLite format 3";

  /** First line of a bench history. */
  public static final String HISTORY_HEAD = "date,occasion,quantity,value,repeatability";

  private final String words;

  Irreplaceable(String words) {
    this.words = words;
  }

  String words() {
    return words;
  }

  /** What a file is by its content; empty for anything that may be replaced. */
  public static Optional<Irreplaceable> what(Path file) {
    if (!Files.isRegularFile(file)) {
      return Optional.empty();
    }
    if (KnownContent.of(file).isPresent()) {
      return Optional.of(RECORDING);
    }
    String text;
    try (InputStream in = Files.newInputStream(file)) {
      text = new String(in.readNBytes(LOOK), StandardCharsets.UTF_8).replaceFirst("^\ufeff", "");
    } catch (IOException e) {
      return Optional.empty();
    }
    if (text.startsWith(STORE_HEAD)) {
      return Optional.of(SHELF);
    }
    if (text.startsWith(HISTORY_HEAD)) {
      return Optional.of(HISTORY);
    }
    if (!OURS.matcher(text).find()) {
      return Optional.empty();
    }
    var kind = KIND.matcher(text);
    if (kind.find()) {
      return Optional.of(kind.group(1).equals("guitar") ? GUITAR : CALIBRATION);
    }
    return FIXTURE.matcher(text).find() ? Optional.of(JOB) : Optional.empty();
  }
}

package org.trebleproof.desktop.look;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Locale;
import org.trebleproof.file.WholeFile;
import org.trebleproof.json.JsonFile;
import org.trebleproof.json.JsonSection;
import org.trebleproof.json.JsonWriter;
import org.trebleproof.quantity.Refusal;

/** Keeps the look between two starts. */
public final class LookFile {

  private final Path file;

  /**
   * The file.
   *
   * @param state where the program keeps what it remembers
   */
  public LookFile(Path state) {
    file = state.resolve("look.json");
  }

  /** The look kept last; the usual one where nothing can be read. */
  public Look read() {
    if (!Files.isRegularFile(file)) {
      return Look.USUAL;
    }
    try {
      JsonSection top = JsonFile.read(file, "look", Refusal::new);
      return new Look(
          Scheme.valueOf(top.text("scheme").toUpperCase(Locale.ROOT)),
          top.flag("highContrast", false),
          top.whole("scale", Look.SMALLEST, Look.SMALLEST, Look.LARGEST));
    } catch (RuntimeException e) {
      return Look.USUAL; // a look that cannot be read is no reason not to start
    }
  }

  /** Keeps a look. */
  public void write(Look look) {
    try {
      Files.createDirectories(file.getParent());
    } catch (IOException e) {
      throw new Refusal(file.getParent() + " cannot be made: check that it may be written to.", e);
    }
    WholeFile.writeText(
        file,
        JsonWriter.file(
            json -> {
              json.object();
              json.number(JsonFile.VERSION_KEY, 1);
              json.text("scheme", look.scheme().name().toLowerCase(Locale.ROOT));
              json.flag("highContrast", look.highContrast());
              json.number("scale", look.scale());
              json.end();
            }));
  }
}

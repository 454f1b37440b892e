package org.trebleproof.desktop.look;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Optional;
import org.trebleproof.file.WholeFile;
import org.trebleproof.json.JsonFile;
import org.trebleproof.json.JsonSection;
import org.trebleproof.json.JsonWriter;
import org.trebleproof.quantity.Refusal;

/** Keeps the size of the window between two starts. */
public final class WindowFile {

  private static final int LEAST = 300;
  private static final int MOST = 20000;

  private final Path file;

  /** How large the window was [px]. */
  public record Size(int width, int height, boolean maximised) {}

  /**
   * The file.
   *
   * @param state where the program keeps what it remembers
   */
  public WindowFile(Path state) {
    file = state.resolve("window.json");
  }

  /** The size kept last; empty where nothing can be read. */
  public Optional<Size> read() {
    if (!Files.isRegularFile(file)) {
      return Optional.empty();
    }
    try {
      JsonSection top = JsonFile.read(file, "window", Refusal::new);
      return Optional.of(
          new Size(
              top.whole("width", LEAST, LEAST, MOST),
              top.whole("height", LEAST, LEAST, MOST),
              top.flag("maximised", false)));
    } catch (RuntimeException e) {
      return Optional.empty(); // a size that cannot be read is no reason not to start
    }
  }

  /** Keeps a size; where it cannot be written, the next start has the usual one. */
  public void write(Size size) {
    try {
      WholeFile.writeText(
          file,
          JsonWriter.file(
              json -> {
                json.object();
                json.number(JsonFile.VERSION_KEY, 1);
                json.number("width", size.width());
                json.number("height", size.height());
                json.flag("maximised", size.maximised());
                json.end();
              }));
    } catch (Refusal e) {
      return;
    }
  }
}

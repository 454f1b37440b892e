package org.trebleproof.desktop.ask;

import java.io.File;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import javafx.stage.FileChooser;
import javafx.stage.Window;
import org.trebleproof.desktop.text.Texts;

/** Asks the person for files. */
public interface FileAsker {

  /** Files to open: recordings or a job file; none when the person thinks better of it. */
  List<Path> toOpen(String title);

  /**
   * Where something is to be written.
   *
   * @param name proposed
   * @param kind of file, in words
   * @param ending such as {@code .html}
   */
  Optional<Path> toWrite(String title, Path folder, String name, String kind, String ending);

  /**
   * A file whose name has an ending; some dialogs leave it to the program to add the usual one.
   * What begins with a figure, as in {@code coil 4.7}, is none.
   */
  static Path withEnding(Path file, String ending) {
    String name = String.valueOf(file.getFileName());
    return name.matches(".*\\.\\p{L}[\\p{L}\\d]*") ? file : file.resolveSibling(name + ending);
  }

  /** The system's own dialogs over a window. */
  static FileAsker of(Window window) {
    return new FileAsker() {
      @Override
      public List<Path> toOpen(String title) {
        FileChooser chooser = new FileChooser();
        chooser.setTitle(title);
        chooser
            .getExtensionFilters()
            .addAll(
                new FileChooser.ExtensionFilter(
                    Texts.of("files.usable"),
                    "*.json",
                    "*.trebleproof",
                    "*.wav",
                    "*.WAV",
                    "*.flac",
                    "*.FLAC",
                    "*.aif",
                    "*.aiff"),
                new FileChooser.ExtensionFilter(Texts.of("files.all"), "*.*"));
        List<File> chosen = chooser.showOpenMultipleDialog(window);
        return chosen == null ? List.of() : chosen.stream().map(File::toPath).toList();
      }

      @Override
      public Optional<Path> toWrite(
          String title, Path folder, String name, String kind, String ending) {
        FileChooser chooser = new FileChooser();
        chooser.setTitle(title);
        Path there = folder.toAbsolutePath();
        while (there != null && !there.toFile().isDirectory()) {
          there = there.getParent(); // the folder of a new job is made when something is written
        }
        if (there != null) {
          chooser.setInitialDirectory(there.toFile());
        }
        chooser.setInitialFileName(name);
        chooser.getExtensionFilters().add(new FileChooser.ExtensionFilter(kind, "*" + ending));
        return Optional.ofNullable(chooser.showSaveDialog(window))
            .map(File::toPath)
            .map(file -> withEnding(file, ending));
      }
    };
  }
}

package org.trebleproof.cli.shelf;

import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.trebleproof.cli.command.OutputFiles;
import org.trebleproof.cli.command.WrongUsage;
import org.trebleproof.shelf.item.NewCoil;
import org.trebleproof.shelf.item.Photo;
import org.trebleproof.shelf.item.PlainName;
import org.trebleproof.shelf.store.ShelfAddress;
import org.trebleproof.shelf.store.ShelfStore;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Model.OptionSpec;
import picocli.CommandLine.Model.PositionalParamSpec;
import picocli.CommandLine.ParseResult;

/** Which shelf, and other options that several of its commands have. */
public final class ShelfOptions {

  private ShelfOptions() {}

  /** Adds which shelf. */
  public static void addTo(CommandSpec spec) {
    spec.addOption(
        text(
                "--shelf",
                "FILE|JDBC",
                "The shelf: a file, or jdbc:postgresql://server/name for one that several benches"
                    + " share. Else "
                    + ShelfAddress.VARIABLE
                    + " says it, else it lies in this user's own folder.")
            .build());
  }

  static void addPhotos(CommandSpec spec) {
    spec.addOption(
        OptionSpec.builder("--photo")
            .paramLabel("FILE")
            .type(List.class)
            .auxiliaryTypes(Path.class)
            .arity("1")
            .description(
                "A photo of it, kept with it (JPEG, PNG, WebP, HEIC, TIFF); once for each.")
            .build());
  }

  /** The photos that were given, looked at once. */
  static Map<String, NewCoil.KeptFile> photos(ParseResult given) {
    Map<String, NewCoil.KeptFile> photos = new LinkedHashMap<>();
    for (Path file : given.matchedOptionValue("--photo", List.<Path>of())) {
      photos.put(
          PlainName.free(String.valueOf(file.getFileName()), Set.copyOf(photos.keySet())),
          Photo.of(file));
    }
    return photos;
  }

  static void addThreads(CommandSpec spec) {
    spec.addOption(
        OptionSpec.builder("--threads")
            .paramLabel("N")
            .type(Integer.class)
            .description("How many are worked out at once. Else one for each core.")
            .build());
  }

  static int threads(ParseResult given) {
    int threads = given.matchedOptionValue("--threads", Runtime.getRuntime().availableProcessors());
    if (threads < 1 || threads > 256) {
      throw new WrongUsage("--threads lies between 1 and 256, not " + threads);
    }
    return threads;
  }

  /** An option that takes words. */
  public static OptionSpec.Builder text(String name, String label, String description) {
    return OptionSpec.builder(name).paramLabel(label).type(String.class).description(description);
  }

  /** An option that may be given several times. */
  static OptionSpec texts(String name, String label, String description) {
    return OptionSpec.builder(name)
        .paramLabel(label)
        .type(List.class)
        .auxiliaryTypes(String.class)
        .arity("1")
        .description(description)
        .build();
  }

  static PositionalParamSpec word(String label, int index, boolean needed, String description) {
    return PositionalParamSpec.builder()
        .paramLabel(label)
        .index(String.valueOf(index))
        .arity(needed ? "1" : "0..1")
        .required(needed)
        .type(String.class)
        .description(description)
        .build();
  }

  /** Which shelf is meant. */
  public static ShelfAddress address(ParseResult given) {
    String text = given.matchedOptionValue("--shelf", null);
    return text != null
        ? ShelfAddress.of(text)
        : ShelfAddress.usual(System.getenv(), System.getProperty("os.name", ""));
  }

  /** The shelf that is there; no output may replace it. */
  static ShelfStore existing(ParseResult given, OutputFiles files) {
    ShelfAddress address = address(given);
    address.file().ifPresent(files::reads);
    return ShelfStore.existing(address);
  }

  /** A text that was given. */
  public static Optional<String> value(ParseResult given, String option) {
    return Optional.ofNullable(given.matchedOptionValue(option, null));
  }

  static List<String> values(ParseResult given, String option) {
    return given.matchedOptionValue(option, List.of());
  }
}

package org.trebleproof.report.file;

import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.trebleproof.bench.hum.HumCheck;
import org.trebleproof.bench.hum.HumState;

/** What the samples give follows the published schema. */
class HumSchemaTest {

  private static final Path SAMPLES = Path.of("sample-captures");

  static List<Path> samples() throws IOException {
    try (Stream<Path> folders = Files.list(SAMPLES)) {
      return folders.filter(f -> f.getFileName().toString().startsWith("hum-")).sorted().toList();
    }
  }

  private static Map<HumState, Path> states(Path folder, String prefix) {
    Map<HumState, Path> files = new EnumMap<>(HumState.class);
    for (HumState state : HumState.values()) {
      Path file = folder.resolve(prefix + state.key() + ".flac");
      if (Files.exists(file)) {
        files.put(state, file);
      }
    }
    return files;
  }

  private static void hold(String text) throws IOException {
    ObjectMapper mapper = new ObjectMapper();
    try (InputStream in =
        HumSchemaTest.class.getResourceAsStream("/org/trebleproof/hum.schema.json")) {
      new SchemaCheck(mapper.readTree(in)).check(mapper.readTree(text), "result");
    }
  }

  private static String resultOf(Path folder) {
    return HumJson.of(
        new HumCheck(1).run(states(folder, ""), Optional.empty(), states(folder, "after-")));
  }

  @ParameterizedTest
  @MethodSource("samples")
  void resultsFollowTheSchema(Path folder) throws IOException {
    hold(resultOf(folder));
  }

  /** With a strike as reference; any recording serves as one here. */
  @Test
  void resultsRelativeToAStrikeFollowTheSchema() throws IOException {
    Path file = SAMPLES.resolve("hum-foil").resolve("hands-off.flac");
    String text =
        HumJson.of(
            new HumCheck(1).run(Map.of(HumState.HANDS_OFF, file), Optional.of(file), Map.of()));
    assertTrue(text.contains("\"strike\""));
    hold(text);
  }

  @Test
  void anUnknownCodeWouldBeSeen() throws IOException {
    assertFalse(samples().isEmpty());
    String text = resultOf(samples().get(0)).replaceFirst("\"likely\"", "\"certain\"");
    assertThrows(AssertionError.class, () -> hold(text));
  }
}

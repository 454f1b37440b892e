package org.trebleproof.report.page;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.ByteArrayInputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.EnumMap;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import javax.xml.parsers.DocumentBuilderFactory;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.trebleproof.bench.hum.HumCheck;
import org.trebleproof.bench.hum.HumResult;
import org.trebleproof.bench.hum.HumState;
import org.trebleproof.bench.hum.SafetyNote;
import org.trebleproof.report.file.HumJson;
import org.trebleproof.report.words.HumText;
import org.trebleproof.report.words.TextStyle;

/** The shipped bench-lamp sample, whose true causes its generator states. */
class HumPageTest {

  private static HumResult result;

  @BeforeAll
  static void check() {
    Path folder = Path.of("sample-captures", "hum-bench-lamp");
    Map<HumState, Path> files = new EnumMap<>(HumState.class);
    for (HumState state : HumState.values()) {
      Path file = folder.resolve(state.key() + ".flac");
      if (java.nio.file.Files.exists(file)) {
        files.put(state, file);
      }
    }
    result = new HumCheck(1).run(files, Optional.empty(), Map.of());
  }

  @Test
  void theSamplesCausesAreFound() throws Exception {
    JsonNode json = new ObjectMapper().readTree(HumJson.of(result));
    JsonNode truth =
        new ObjectMapper()
            .readTree(Path.of("sample-captures", "hum-bench-lamp", "truth.json").toFile());
    assertEquals(truth.get("mainsHz").asDouble(), json.get("mainsHz").asDouble(), 0.01);
    assertEquals(truth.get("causes").size(), json.get("causes").size());
    for (JsonNode cause : json.get("causes")) {
      assertTrue(truth.get("causes").toString().contains(cause.get("code").asText()));
      assertEquals("likely", cause.get("strength").asText());
      assertFalse(cause.get("evidence").asText().isBlank());
      assertFalse(cause.get("next").asText().isBlank());
    }
    for (JsonNode state : json.get("states")) {
      for (String level : new String[] {"humDb", "buzzDb", "hissDb", "aWeightedDb"}) {
        assertTrue(
            state.get(level).get("low").asDouble() <= state.get(level).get("value").asDouble());
        assertTrue(
            state.get(level).get("high").asDouble() >= state.get(level).get("value").asDouble());
      }
    }
  }

  @Test
  void thePageIsWellFormedAndSaysWhatItCannotKnow() throws Exception {
    String html = HumPage.of(result, "0", "2026-11-25");
    String xml = html.replace("<!DOCTYPE html>", "");
    DocumentBuilderFactory.newInstance()
        .newDocumentBuilder()
        .parse(new ByteArrayInputStream(xml.getBytes(StandardCharsets.UTF_8)));
    for (String sentence : SafetyNote.full()) {
      assertTrue(html.contains(Html.text(sentence)), sentence);
    }
    assertFalse(html.contains("NaN"));
  }

  @Test
  void noTextEverCallsAGroundSafe() {
    String all =
        HumJson.of(result)
            + HumPage.of(result, "0", "2026-11-25")
            + String.join("\n", HumText.of(result, TextStyle.PLAIN));
    assertFalse(all.toLowerCase(Locale.ROOT).matches("(?s).*\\b(is|are|be) safe\\b.*"));
    assertTrue(String.join(" ", HumText.of(result, TextStyle.PLAIN)).contains("unplug"));
  }

  @Test
  void theTerminalKeepsToItsWidth() {
    for (String line : HumText.of(result, TextStyle.PLAIN)) {
      assertTrue(line.length() <= 100, line);
    }
  }
}

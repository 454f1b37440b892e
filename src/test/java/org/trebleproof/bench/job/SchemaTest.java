package org.trebleproof.bench.job;

import static org.junit.jupiter.api.Assertions.assertEquals;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.io.InputStream;
import java.util.Arrays;
import java.util.Collection;
import java.util.Set;
import java.util.TreeSet;
import org.junit.jupiter.api.Test;
import org.trebleproof.bench.hum.HumState;
import org.trebleproof.fixture.CalibrationFile;

/** The published schemas and the readers know the same keys. */
class SchemaTest {

  private static JsonNode schema(String name) throws IOException {
    try (InputStream in = SchemaTest.class.getResourceAsStream("/org/trebleproof/" + name)) {
      return new ObjectMapper().readTree(in);
    }
  }

  private static void assertKeys(Collection<String> reader, JsonNode object) {
    Set<String> keys = new TreeSet<>();
    object.get("properties").fieldNames().forEachRemaining(keys::add);
    assertEquals(new TreeSet<>(reader), keys);
    assertEquals(false, object.get("additionalProperties").asBoolean(true));
  }

  @Test
  void ofJobs() throws IOException {
    JsonNode schema = schema("job.schema.json");
    JsonNode parts = schema.get("$defs");
    assertKeys(JobReader.KEYS, schema);
    for (String kind : FixtureReader.KINDS) {
      assertKeys(FixtureReader.keysOf(kind), parts.get(kind));
    }
    for (String kind : PartReader.KINDS) {
      assertKeys(PartReader.keysOf(kind), parts.get(kind));
    }
    assertKeys(CalibrationFile.INPUT_KEYS, parts.get("input"));
    assertKeys(CalibrationFile.CHANNEL_KEYS, parts.get("channels"));
    assertKeys(SetupReader.KEYS, parts.get("setup"));
    assertKeys(SetupReader.POT_KEYS, parts.get("potUse").get("oneOf").get(2));
    assertKeys(JobReader.CAPTURE_KEYS, parts.get("capture"));
    assertKeys(PlanSection.keys(), parts.get("plan"));
    assertKeys(JobReader.HUM_KEYS, schema.get("properties").get("hum"));
    assertKeys(JobReader.HUM_STATES, parts.get("silence"));
    assertEquals(
        Arrays.stream(HumState.values()).map(HumState::key).toList(), JobReader.HUM_STATES);
  }

  @Test
  void ofCalibrations() throws IOException {
    JsonNode schema = schema("calibration.schema.json");
    assertKeys(CalibrationFile.KEYS, schema);
    assertKeys(CalibrationFile.INPUT_KEYS, schema.get("properties").get("input"));
    assertKeys(CalibrationFile.CHANNEL_KEYS, schema.get("properties").get("channels"));
  }
}

package org.trebleproof.bench.job;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.trebleproof.circuit.Harness;

/** Plans of a job file. */
class PlanReaderTest {
  @TempDir Path folder;

  private Job job(String plans) throws IOException {
    Files.write(folder.resolve("a.wav"), new byte[] {0});
    return JobReader.read(
        Files.writeString(
            folder.resolve("job.json"),
            """
            {"trebleproof": 1,
             "fixture": {"kind": "exciter", "input": {"resistance": "1M 1%", "capacitance": "80p 3%"}},
             "parts": {
               "bridge": {"kind": "pickup"}, "middle": {"kind": "pickup"}, "neck": {"kind": "pickup"},
               "volume": {"kind": "pot", "value": "250k", "centreRatio": 0.15},
               "tone": {"kind": "pot", "value": "250k"},
               "cap": {"kind": "capacitor", "value": "22n"},
               "lead": {"kind": "cable", "capacitance": "480p"}},
             "setups": {"now": {"pickup": "bridge", "volume": {"part": "volume", "rotation": 0.5},
               "tone": "tone", "toneCapacitor": "cap", "cable": "lead"}},
             "captures": [{"id": "a", "file": "a.wav", "setup": "now"}],
             "plans": PLANS}
            """
                .replace("PLANS", plans)));
  }

  @Test
  void changesASetup() throws IOException {
    Job job =
        job(
            """
            {"bleed": {"from": "now", "volume": "500k 10%", "bleedCapacitor": "1n", "bleedResistor": "150k"},
             "series": {"from": "bleed", "pickups": ["bridge", "neck"], "joint": "series", "cable": null},
             "second position": {"from": "now", "pickups": "bridge+middle+neck", "selector": 2}}
            """);
    assertEquals(List.of("bleed", "series", "second position"), List.copyOf(job.plans().keySet()));
    Plan bleed = job.plans().get("bleed");
    assertEquals(3, bleed.parts().size());
    assertEquals(0.5, bleed.layout().turned(Slot.VOLUME).rotation());
    assertEquals(0.15, bleed.layout().turned(Slot.VOLUME).centreRatio(), "the old pot's place");
    assertEquals(Optional.of("cap"), bleed.layout().part(Slot.TONE_CAPACITOR));
    Layout series = job.plans().get("series").layout();
    assertEquals(Harness.Joint.SERIES, series.joint());
    assertEquals(List.of("bridge", "neck"), series.pickups());
    assertTrue(series.part(Slot.CABLE).isEmpty());
    assertTrue(series.part(Slot.BLEED_CAPACITOR).isPresent(), "a plan goes on from a plan");
    Layout selector = job.plans().get("second position").layout();
    Harness harness = selector.harness(p -> org.trebleproof.circuit.CoilModel.IDEAL);
    assertEquals(2, harness.branches().size());
    assertEquals("middle", harness.branches().get(1).coils().get(0).name());
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "{\"a\": {\"volume\": \"500k\"}}|from",
        "{\"a\": {\"from\": \"then\"}}|no setup and no plan",
        "{\"now\": {\"from\": \"now\"}}|name of a setup",
        "{\"a\": {\"from\": \"now\", \"volum\": \"500k\"}}|did you mean",
        "{\"a\": {\"from\": \"now\", \"volume\": \"lead\"}}|no volume pot",
        "{\"a\": {\"from\": \"now\", \"volume\": \"22 nF\"}}|neither a value",
        "{\"a\": {\"from\": \"now\", \"volumeRotation\": 2}}|from 0.0 to 1.0",
        "{\"a\": {\"from\": \"now\", \"joint\": true}}|neither a text nor a number"
      })
  void refusesWithTheKey(String plans, String words) {
    RuntimeException e = assertThrows(RuntimeException.class, () -> job(plans));
    assertTrue(e.getMessage().contains(words), e.getMessage());
    assertTrue(e instanceof org.trebleproof.quantity.Refusal, e.toString());
  }
}

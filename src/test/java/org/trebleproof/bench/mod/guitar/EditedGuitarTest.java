package org.trebleproof.bench.mod.guitar;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.trebleproof.quantity.Marking;
import org.trebleproof.quantity.Refusal;

/** A kept guitar that someone edited is used or refused with its key, never half believed. */
class EditedGuitarTest {

  @TempDir Path folder;

  private static String kept() {
    Map<String, TypedCoil> coils = new LinkedHashMap<>();
    coils.put(
        "pickup",
        new TypedCoil(
            new Marking(2.4, 0.05, true),
            new Marking(5700, 0.05, true),
            new Marking(120e-12, 0.05, true),
            Optional.of(new Marking(8e5, 0.2, true))));
    return ChainFile.text(
        TypedCoil.guitar(coils, Map.of("volume", "250k", "cable", "500p", "input", "1M")));
  }

  @Test
  void whatWasKeptIsRead() throws IOException {
    Path file = Files.writeString(folder.resolve("g.json"), kept());
    assertEquals(List.of("pickup"), List.copyOf(ChainFile.read(file).coils().keySet()));
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "\"pickups\" : \\[ \"pickup\" \\] | \"pickups\" : [ ] | pickups",
        "\"pickups\" : \\[ \"pickup\" \\] | \"pickups\" : [ \"neck\" ] | neck",
        "\"volume\" : \"[^\"]*\" | \"volume\" : \"nothing\" | nothing",
        "\"value\" : [0-9.E+-]+ | \"value\" : 1e30 | value",
        "\"value\" : [0-9.E+-]+ | \"value\" : 0 | value",
        "\"logCovariance\" : \\[ \\[ [0-9.E+-]+ | \"logCovariance\" : [ [ 1e6 | logCovariance",
        "\"logCovariance\" : \\[ \\[ [0-9.E+-]+ | \"logCovariance\" : [ [ -1 | logCovariance",
        "\"title\" : \"[^\"]*\" | \"title\" : \"a\\\\u001b[2J\" | title",
        "\"current\" : \"[^\"]*\" | \"current\" : \"nowhere\" | current",
      })
  void anEditThatMakesNoGuitarIsNamed(String place, String edit, String key) throws IOException {
    String edited = kept().replaceFirst(place.strip(), edit.strip());
    Path file = Files.writeString(folder.resolve("g.json"), edited);
    String said = assertThrows(Refusal.class, () -> ChainFile.read(file), edited).getMessage();
    assertTrue(said.startsWith("g.json: ") && said.contains(key.strip()), said);
  }

  /** Names with line breaks would be lines of a netlist. */
  @Test
  void namesAreOrdinaryCharactersOnOneLine() throws IOException {
    String kept = kept();
    for (String name : List.of("pickup", "pickup.inductance")) {
      for (String bad : List.of("\\n", "\\r", "\\u0000", "\\u2028", "\\u001b", "\\u202e")) {
        Path file =
            Files.writeString(
                folder.resolve("g.json"),
                kept.replace('"' + name + '"', '"' + name + bad + ".control\""));
        assertThrows(Refusal.class, () -> ChainFile.read(file), name + bad);
      }
    }
  }
}

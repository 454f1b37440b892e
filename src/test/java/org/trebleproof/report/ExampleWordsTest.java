package org.trebleproof.report;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.trebleproof.bench.answer.FitResult;
import org.trebleproof.quantity.Finding;

/** What the made-up results of the tests say, the program says in just these words. */
class ExampleWordsTest {

  /** What changes from one job to the next: quoted names, file names, dates, values, captures. */
  private static final String OF_THE_JOB =
      "\"[^\"]*\"|[a-z-]+\\.json|\\d+-\\d+-\\d+|[\\d.]+[a-zA-Z]?(?![a-z])|reference|device|the recorder";

  /** Fewer letters than this say nothing. */
  private static final int SHORT = 4;

  @Test
  void theProgramSaysWhatTheExamplesSay() throws IOException {
    String program = literals();
    List<String> foreign = new ArrayList<>();
    int phrases = 0;
    for (FitResult result :
        List.of(ExampleResults.potSwap(), ExampleResults.bareCoil(), ExampleResults.refused())) {
      List<String> sentences = new ArrayList<>();
      for (Finding finding : result.verdict().findings()) {
        sentences.addAll(List.of(finding.text(), finding.next()));
      }
      result.advice().forEach(advice -> sentences.add(advice.text()));
      result
          .model()
          .ifPresent(
              model -> {
                sentences.add(model.name());
                model.alternatives().forEach(other -> sentences.add(other.name()));
              });
      for (String sentence : sentences) {
        for (String phrase : sentence.split(OF_THE_JOB)) {
          String words = phrase.strip().replaceAll("^[.,;:]\\s*|\\s*[.,;:]$", "");
          if (words.length() >= SHORT) {
            phrases++;
            if (!program.contains(words)) {
              foreign.add(words + " | " + sentence);
            }
          }
        }
      }
    }
    assertEquals(List.of(), foreign);
    assertTrue(phrases > 10, "only " + phrases + " phrases were held to the program");
  }

  /** All the program's texts, those that are joined over several lines as one. */
  private static String literals() throws IOException {
    try (Stream<Path> files = Files.walk(Path.of("src/main/java"))) {
      StringBuilder all = new StringBuilder();
      for (Path file :
          files.filter(f -> f.toString().endsWith(".java")).sorted().collect(Collectors.toList())) {
        all.append(Files.readString(file).replaceAll("\"\\s*\\+\\s*\"", "").replace("\\\"", "\""));
      }
      return all.toString();
    }
  }
}

package org.trebleproof.cli.job;

import java.io.BufferedReader;
import java.io.IOException;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.trebleproof.bench.job.Slot;
import org.trebleproof.cli.command.Terminal;
import org.trebleproof.cli.command.WrongUsage;
import org.trebleproof.quantity.MarkedQuantity;

/**
 * Asks a person at a terminal, one thing at a time. Enter alone passes over what nobody knows; an
 * answer that cannot be read is asked for again.
 */
final class Questions {

  private final Terminal terminal;
  private final BufferedReader keys;

  Questions(Terminal terminal, BufferedReader keys) {
    this.terminal = terminal;
    this.keys = keys;
  }

  /** What turns an answer into a value, or says by {@link WrongUsage} why it cannot. */
  private interface Reader<T> {
    T read(String answer);
  }

  private <T> Optional<T> ask(String question, String usual, Reader<T> reader) throws IOException {
    while (true) {
      terminal.say(
          question
              + (usual.isEmpty() ? " (Enter: none or not known):" : " (Enter: " + usual + "):"));
      String answer = keys.readLine();
      String given = answer == null || answer.isBlank() ? usual : answer.strip();
      if (given.isEmpty()) {
        return Optional.empty();
      }
      try {
        return Optional.of(reader.read(given));
      } catch (WrongUsage e) {
        if (answer == null) {
          throw e; // nobody is there any more
        }
        terminal.say(e.getMessage());
      }
    }
  }

  /** One of several words; the first one by Enter alone. */
  String choice(String question, List<String> words) throws IOException {
    return ask(
            question,
            words.get(0),
            answer -> {
              if (!words.contains(answer)) {
                throw new WrongUsage("Please answer " + String.join(", ", words) + ".");
              }
              return answer;
            })
        .orElseThrow();
  }

  /** A part's marking. */
  Optional<String> marking(String question, MarkedQuantity quantity, String usual)
      throws IOException {
    return ask(
        question,
        usual,
        answer -> {
          SketchOptions.check("That cannot be read", answer, quantity);
          return answer;
        });
  }

  /** Any words. */
  Optional<String> line(String question) throws IOException {
    return ask(question, "", answer -> answer);
  }

  /** What is wired. */
  Map<Slot, String> wired() throws IOException {
    Map<Slot, String> wired = new LinkedHashMap<>();
    slot(wired, Slot.VOLUME, "Volume pot as marked, such as 250k");
    slot(wired, Slot.TONE, "Tone pot as marked, such as 250k");
    if (wired.containsKey(Slot.TONE)) {
      wired.put(
          Slot.TONE_CAPACITOR,
          marking("Tone capacitor as marked, such as 22n", MarkedQuantity.TONE_CAPACITOR, "22n")
              .orElseThrow());
    }
    slot(wired, Slot.CABLE, "Lead to the recorder, by length such as 3 m or as 480p");
    return wired;
  }

  private void slot(Map<Slot, String> wired, Slot slot, String question) throws IOException {
    ask(
            question,
            "",
            answer ->
                SketchOptions.wired("That cannot be read", List.of(slot.key() + "=" + answer)))
        .ifPresent(wired::putAll);
  }

  /** What is changed. */
  Map<Slot, String> changes() throws IOException {
    return ask(
            "What is changed, such as volume=500k",
            "",
            answer -> SketchOptions.wired("That cannot be read", List.of(answer)))
        .orElse(Map.of());
  }
}

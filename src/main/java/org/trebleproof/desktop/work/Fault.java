package org.trebleproof.desktop.work;

import java.util.Comparator;
import java.util.List;
import java.util.MissingResourceException;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.trebleproof.desktop.draft.JobDraft;
import org.trebleproof.desktop.text.Texts;

/**
 * Where in the job a fault lies, and what it is, in the words of the window.
 *
 * @param sentence to be read
 * @param section of the job: fixture, parts, setups, captures; empty for none of them
 * @param of which part, setup or capture; empty for the section as a whole
 * @param key of it, such as {@code volume}; may be empty
 */
public record Fault(String sentence, String section, String of, String key) {

  /** Words that are keys and nothing else. */
  private static final Pattern INNER =
      Pattern.compile(
          "\\b(toneCapacitor|bleedCapacitor|bleedResistor|bassCapacitor|bassPot|loadCapacitor"
              + "|loadResistor|tapResistor|secondPickup|secondVolume|secondTone"
              + "|secondToneCapacitor|tonePosition|bleedStyle|volumeWiring|dcResistance)\\b");

  private static final Pattern KEY =
      Pattern.compile("key \"([^\"]+)\"(?: in (fixture|parts|setups|captures))?");

  /** What a job's reader refused. */
  public static Fault of(String refusal, JobDraft job) {
    Fault found = found(refusal, job);
    return new Fault(
        quoted(capital(inWords(found.sentence()))), found.section(), found.of(), found.key());
  }

  /** Keys of a setup that stand in a sentence, by their names in the window. */
  private static String inWords(String sentence) {
    Matcher inner = INNER.matcher(sentence);
    return inner.replaceAll(
        m ->
            Matcher.quoteReplacement(
                known("setups", m.group()).toLowerCase(java.util.Locale.ROOT)));
  }

  /** Names in one kind of quotation marks. */
  private static String quoted(String sentence) {
    return sentence.replaceAll("\"([^\"]*)\"", "“$1”");
  }

  private static Fault found(String refusal, JobDraft job) {
    String name = String.valueOf(job.source().getFileName()) + ": ";
    // There is one job on the bench: its file need not be named, whether it is there or not.
    String words = refusal.startsWith(name) ? refusal.substring(name.length()) : refusal;
    Matcher found = KEY.matcher(words);
    if (!found.find() || found.group(2) == null) {
      return new Fault(words, "", "", "");
    }
    String key = found.group(1);
    String section = found.group(2);
    String rest = words.substring(found.end());
    Optional<String> of =
        names(job, section).stream()
            .filter(n -> rest.startsWith("." + n) || rest.startsWith(".\"" + n + "\""))
            .max(Comparator.comparingInt(String::length));
    if (of.isEmpty()) {
      boolean named = names(job, section).contains(key);
      String said = named ? "“" + key + "”" : known(section, key);
      return new Fault(
          words.substring(0, found.start()) + said + rest,
          section,
          named ? key : "",
          named ? "" : key);
    }
    int quoted = rest.startsWith(".\"") ? 2 : 0;
    String after = rest.substring(1 + of.get().length() + quoted);
    String said = Texts.of("fault.of", known(section, key), of.get());
    return new Fault(words.substring(0, found.start()) + said + after, section, of.get(), key);
  }

  private static List<String> names(JobDraft job, String section) {
    return switch (section) {
      case "parts" -> job.parts().stream().map(JobDraft.PartLine::name).toList();
      case "setups" -> job.setups();
      case "captures" -> job.captures().stream().map(JobDraft.CaptureLine::id).toList();
      default -> List.of();
    };
  }

  /** A key by its name in the window, where it has one. */
  private static String known(String section, String key) {
    try {
      return section.equals("setups")
          ? Texts.of("setups." + key)
          : section.equals("parts") ? Texts.of("fault.value") : "“" + key + "”";
    } catch (MissingResourceException e) {
      return "“" + key + "”";
    }
  }

  /** With a capital, unless it begins with a file's name. */
  private static String capital(String words) {
    return words.isEmpty() || words.split("\\s", 2)[0].matches(".+\\.[\\p{L}\\d]+:?")
        ? words
        : Character.toUpperCase(words.charAt(0)) + words.substring(1);
  }
}

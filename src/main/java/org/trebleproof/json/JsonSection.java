package org.trebleproof.json;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.function.Function;
import org.trebleproof.quantity.MarkedQuantity;
import org.trebleproof.quantity.Marking;
import org.trebleproof.quantity.Refusal;
import org.trebleproof.quantity.Temperature;
import org.trebleproof.quantity.TradeNotation;
import org.trebleproof.quantity.TradeNotationException;

/**
 * One object of a JSON file, read strictly: every key is known, every value has its type. What is
 * wrong is said with the file, the key and where it stands.
 */
public final class JsonSection {

  private static final int LONGEST_NAME = 80;

  /** What is shorter than this may begin anything. */
  private static final int SHORTEST = 3;

  private final String where;
  private final Map<String, Object> values;
  private final Function<String, ? extends Refusal> refusal;

  JsonSection(
      String where, Map<String, Object> values, Function<String, ? extends Refusal> refusal) {
    this.where = where;
    this.values = values;
    this.refusal = refusal;
  }

  /** The same place with other content. */
  public JsonSection with(Map<String, Object> content) {
    return new JsonSection(where, content, refusal);
  }

  /** A copy of the content, in file order. */
  public Map<String, Object> content() {
    return new LinkedHashMap<>(values);
  }

  /** Keys in file order. */
  public Set<String> keys() {
    return values.keySet();
  }

  public boolean has(String key) {
    return values.containsKey(key);
  }

  /** Refuses any key that is not one of these, naming the nearest. */
  public JsonSection only(List<String> known) {
    for (String key : values.keySet()) {
      if (!known.contains(key)) {
        Optional<String> near = nearest(key, known);
        throw refuse(
            "unknown key "
                + Refusal.quote(key)
                + place()
                + near.map(n -> ": did you mean \"" + n + "\"?")
                    .orElse(": the keys here are " + String.join(", ", known) + "."));
      }
    }
    return this;
  }

  /**
   * The known word that one was cut short from, or nearest to a mistyped one if not all are far.
   */
  public static Optional<String> nearest(String word, Iterable<String> known) {
    String begun = word.toLowerCase(java.util.Locale.ROOT);
    for (String candidate : known) {
      if (begun.length() >= SHORTEST
          && candidate.toLowerCase(java.util.Locale.ROOT).startsWith(begun)) {
        return Optional.of(candidate);
      }
    }
    String best = null;
    int least = Integer.MAX_VALUE;
    for (String candidate : known) {
      int distance =
          word.length() > LONGEST_NAME
              ? word.length()
              : editDistance(
                  word.toLowerCase(java.util.Locale.ROOT),
                  candidate.toLowerCase(java.util.Locale.ROOT));
      if (distance < least) {
        least = distance;
        best = candidate;
      }
    }
    return best != null && least <= Math.max(1, Math.max(word.length(), best.length()) / 2)
        ? Optional.of(best)
        : Optional.empty();
  }

  /** Insertions, deletions, replacements and swaps of neighbours that turn one into the other. */
  private static int editDistance(String a, String b) {
    int[][] d = new int[a.length() + 1][b.length() + 1];
    for (int i = 0; i <= a.length(); i++) {
      for (int j = 0; j <= b.length(); j++) {
        if (i == 0 || j == 0) {
          d[i][j] = i + j;
          continue;
        }
        int replaced = d[i - 1][j - 1] + (a.charAt(i - 1) == b.charAt(j - 1) ? 0 : 1);
        d[i][j] = Math.min(replaced, 1 + Math.min(d[i - 1][j], d[i][j - 1]));
        if (i > 1
            && j > 1
            && a.charAt(i - 1) == b.charAt(j - 2)
            && a.charAt(i - 2) == b.charAt(j - 1)) {
          d[i][j] = Math.min(d[i][j], d[i - 2][j - 2] + 1);
        }
      }
    }
    return d[a.length()][b.length()];
  }

  public String text(String key) {
    if (need(key) instanceof String text) {
      if (text.isBlank()) {
        throw wrong(key, "is empty: give it a value or delete it.");
      }
      return text;
    }
    throw wrong(key, "must be text in quotation marks.");
  }

  public Optional<String> optionalText(String key) {
    return has(key) ? Optional.of(text(key)) : Optional.empty();
  }

  /** A number in a range. */
  public double number(String key, double least, double most) {
    if (need(key) instanceof Double number) {
      if (number >= least && number <= most) {
        return number;
      }
      throw wrong(key, "must lie between " + plain(least) + " and " + plain(most) + ".");
    }
    throw wrong(key, "must be a number without quotation marks.");
  }

  /** A whole number in a range; {@code absent} when the key is not there. */
  public int whole(String key, int absent, int least, int most) {
    if (!has(key)) {
      return absent;
    }
    double number = number(key, least, most);
    if (number != Math.rint(number)) {
      throw wrong(key, "must be a whole number.");
    }
    return (int) number;
  }

  public boolean flag(String key, boolean absent) {
    if (!has(key)) {
      return absent;
    }
    if (need(key) instanceof Boolean flag) {
      return flag;
    }
    throw wrong(key, "must be true or false.");
  }

  /** One word out of several. */
  public String oneOf(String key, List<String> words) {
    String word = text(key);
    if (words.contains(word)) {
      return word;
    }
    throw wrong(
        key,
        "is "
            + Refusal.quote(word)
            + nearest(word, words)
                .map(n -> ": did you mean \"" + n + "\"?")
                .orElse(": it must be one of " + String.join(", ", words) + "."));
  }

  public Marking marking(String key, MarkedQuantity quantity) {
    Object value = need(key);
    if (value instanceof Double) {
      throw wrong(
          key, "must be text in trade notation, in quotation marks, such as \"250k\" or \"22n\".");
    }
    String text = text(key);
    try {
      return TradeNotation.marking(text, quantity);
    } catch (TradeNotationException e) {
      throw wrong(key, e);
    }
  }

  public Optional<Marking> optionalMarking(String key, MarkedQuantity quantity) {
    return has(key) ? Optional.of(marking(key, quantity)) : Optional.empty();
  }

  public Optional<Temperature> optionalTemperature(String key) {
    if (!has(key)) {
      return Optional.empty();
    }
    try {
      return Optional.of(Temperature.read(text(key)));
    } catch (TradeNotationException e) {
      throw wrong(key, e);
    }
  }

  public JsonSection section(String key) {
    if (need(key) instanceof Map<?, ?> map) {
      return new JsonSection(inside(key), content(map), refusal);
    }
    throw wrong(key, "must be an object in braces { }.");
  }

  public Optional<JsonSection> optionalSection(String key) {
    return has(key) ? Optional.of(section(key)) : Optional.empty();
  }

  /** A list of objects. */
  public List<JsonSection> sections(String key) {
    List<?> list = list(key);
    java.util.ArrayList<JsonSection> sections = new java.util.ArrayList<>();
    for (Object each : list) {
      String name = inside(key) + "[" + sections.size() + "]";
      if (!(each instanceof Map<?, ?> map)) {
        throw wrong(key, "must be a list of objects in braces { }.");
      }
      sections.add(new JsonSection(name, content(map), refusal));
    }
    return sections;
  }

  /** A list of texts; empty when the key is not there. */
  public List<String> texts(String key) {
    if (!has(key)) {
      return List.of();
    }
    java.util.ArrayList<String> texts = new java.util.ArrayList<>();
    for (Object each : list(key)) {
      if (!(each instanceof String text)) {
        throw wrong(key, "must be a list of names in quotation marks.");
      }
      texts.add(text);
    }
    return texts;
  }

  /** Whether a value is text, rather than an object or anything else. */
  public boolean isText(String key) {
    return need(key) instanceof String;
  }

  /** Refuses names that would make messages or result keys unreadable. */
  public void checkNames(Iterable<String> names) {
    for (String name : names) {
      if (name.isBlank()
          || name.length() > LONGEST_NAME
          || !name.equals(name.strip())
          || name.codePoints().anyMatch(JsonSection::isNoSign)) {
        throw refuse(
            "the name "
                + Refusal.quote(name)
                + place()
                + " must be 1 to "
                + LONGEST_NAME
                + " ordinary characters without spaces at its ends.");
      }
    }
  }

  /** Controls, ends of lines, halves of signs, and what turns the direction of writing (UAX 9). */
  private static boolean isNoSign(int sign) {
    int type = Character.getType(sign);
    return Character.isISOControl(sign)
        || type == Character.LINE_SEPARATOR
        || type == Character.PARAGRAPH_SEPARATOR
        || type == Character.SURROGATE
        || sign >= 0x202a && sign <= 0x202e
        || sign >= 0x2066 && sign <= 0x2069;
  }

  /** A text for people, of any length but on one line: such as a title. */
  public Optional<String> optionalLine(String key) {
    Optional<String> text = optionalText(key);
    if (text.isPresent() && text.get().codePoints().anyMatch(JsonSection::isNoSign)) {
      throw wrong(key, "must be ordinary characters on one line.");
    }
    return text;
  }

  /** A refusal about one key of this section; the words follow the key's name. */
  public Refusal wrong(String key, String words) {
    return refuse("key \"" + key + "\"" + place() + " " + words);
  }

  /** A refusal of a value that could not be read. */
  public Refusal wrong(String key, TradeNotationException cause) {
    return refuse("key \"" + key + "\"" + place() + ": " + cause.getMessage());
  }

  /** A refusal about the whole file. */
  public Refusal refuse(String words) {
    return refusal.apply(words);
  }

  private Object need(String key) {
    if (!values.containsKey(key)) {
      throw refuse("key \"" + key + "\" is missing" + place() + ": add it.");
    }
    Object value = values.get(key);
    if (value == null) {
      throw wrong(key, "is null: give it a value or delete it.");
    }
    return value;
  }

  private List<?> list(String key) {
    if (need(key) instanceof List<?> list) {
      return list;
    }
    throw wrong(key, "must be a list in brackets [ ].");
  }

  private String place() {
    return where.isEmpty() ? "" : " in " + where;
  }

  private String inside(String key) {
    String shown = key.matches("[A-Za-z0-9_]{1,80}") ? key : Refusal.quote(key);
    return where.isEmpty() ? shown : where + "." + shown;
  }

  private static Map<String, Object> content(Map<?, ?> map) {
    Map<String, Object> content = new LinkedHashMap<>();
    map.forEach((key, value) -> content.put((String) key, value));
    return content;
  }

  private static String plain(double number) {
    return number == Math.rint(number) ? Long.toString((long) number) : Double.toString(number);
  }
}

package org.trebleproof.desktop.text;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Properties;
import java.util.Set;
import java.util.TreeSet;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;

/** The bundle and the sources that use it, held against each other. */
final class TextsTest {

  private static final Path SOURCES = Path.of("src/main/java/org/trebleproof/desktop");

  /** Any text in the sources that looks like a key or the beginning of one. */
  private static final Pattern LITERAL =
      Pattern.compile("\"([a-z][A-Za-z0-9_-]*(?:\\.[A-Za-z0-9_-]*)+)\"");

  private static final Pattern USE = Pattern.compile("Texts\\s*\\.of\\(\\s*\"([^\"]+)\"(\\s*\\+)?");
  private static final Pattern GAP = Pattern.compile("\\{\\d");

  private static Properties bundle() {
    Properties texts = new Properties();
    try (InputStream in =
        TextsTest.class.getResourceAsStream("/org/trebleproof/desktop/texts.properties")) {
      texts.load(new java.io.InputStreamReader(in, StandardCharsets.UTF_8));
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    return texts;
  }

  private static String sources() {
    StringBuilder all = new StringBuilder();
    try (Stream<Path> files = Files.walk(SOURCES)) {
      for (Path file : files.filter(f -> f.toString().endsWith(".java")).toList()) {
        all.append(Files.readString(file)).append('\n');
      }
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    return all.toString();
  }

  @Test
  void everyKeyThatIsUsedIsThere() {
    Set<String> keys = bundle().stringPropertyNames();
    Set<String> missing = new TreeSet<>();
    Matcher use = USE.matcher(sources());
    int uses = 0;
    while (use.find()) {
      uses++;
      String key = use.group(1);
      boolean family = use.group(2) != null;
      boolean there = family ? keys.stream().anyMatch(k -> k.startsWith(key)) : keys.contains(key);
      if (!there) {
        missing.add(key);
      }
    }
    assertTrue(uses > 100, "the pattern finds the uses: " + uses);
    assertEquals(Set.of(), missing);
  }

  @Test
  void everyKeyThatIsThereIsUsed() {
    Set<String> literals = new TreeSet<>();
    Matcher literal = LITERAL.matcher(sources());
    while (literal.find()) {
      literals.add(literal.group(1));
    }
    Set<String> unused = new TreeSet<>();
    for (String key : bundle().stringPropertyNames()) {
      boolean used =
          literals.contains(key)
              || literals.stream().anyMatch(l -> l.endsWith(".") && key.startsWith(l));
      if (!used) {
        unused.add(key);
      }
    }
    assertEquals(Set.of(), unused);
  }

  /** A single quote in a pattern would swallow what follows it. */
  @Test
  void patternsHoldNoSingleQuote() {
    bundle()
        .forEach(
            (key, text) -> {
              if (GAP.matcher((String) text).find()) {
                assertFalse(((String) text).replace("''", "").contains("'"), key + ": " + text);
              }
            });
  }

  @Test
  void noTextIsEmptyOrUntrimmed() {
    bundle()
        .forEach(
            (key, text) -> {
              assertFalse(((String) text).isBlank(), key.toString());
              assertEquals(((String) text).strip(), text, key.toString());
            });
  }

  @Test
  void gapsAreFilled() {
    assertEquals("undone: value of lead", Texts.of("edit.undone", "value of lead"));
    assertEquals("one recording added", Texts.of("edit.recordings", 1));
    assertEquals("3 recordings added", Texts.of("edit.recordings", 3));
  }
}

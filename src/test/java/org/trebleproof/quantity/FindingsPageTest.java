package org.trebleproof.quantity;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.junit.jupiter.api.Assertions.fail;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.EnumSet;
import java.util.Set;
import java.util.TreeSet;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;

/** The registry of findings, the sources that use it and the guide page made from it. */
class FindingsPageTest {

  private static final Path SOURCES = Path.of("src/main/java/org/trebleproof");
  private static final Path GUIDE = Path.of("src/site/markdown");
  private static final Path PAGE = GUIDE.resolve("findings.md");

  private static final Pattern USE = Pattern.compile("FindingCode\\s*\\.([A-Z][A-Z_]+)");
  private static final Pattern IN_A_PAGE = Pattern.compile("`([a-z]+(?:-[a-z]+)+)` *\\|");

  /** Words of software and statistics that no finding speaks in. */
  private static final Pattern JARGON =
      Pattern.compile(
          "standard deviation|chi-square|error bar|prior\\b|residual|sigma|null|parameter"
              + "|[a-z]+\\.(inductance|capacitance|resistance)|fellow",
          Pattern.CASE_INSENSITIVE);

  @Test
  void thePageIsMadeFromTheRegistry() throws IOException {
    String page = FindingsPage.text();
    if (!Files.exists(PAGE) || !Files.readString(PAGE).equals(page)) {
      Files.writeString(PAGE, page);
      fail(PAGE + " was not what the registry says and has been written anew: commit it");
    }
  }

  @Test
  void everyFindingIsMadeSomewhere() throws IOException {
    Set<FindingCode> used = EnumSet.noneOf(FindingCode.class);
    try (Stream<Path> files = Files.walk(SOURCES)) {
      for (Path file : files.filter(f -> f.toString().endsWith(".java")).toList()) {
        if (file.endsWith("quantity/FindingCode.java")) {
          continue;
        }
        Matcher use = USE.matcher(Files.readString(file));
        while (use.find()) {
          used.add(FindingCode.valueOf(use.group(1)));
        }
      }
    }
    assertEquals(EnumSet.allOf(FindingCode.class), used);
  }

  /** The tables of other pages name only findings that exist. */
  @Test
  void noOtherPageNamesAFindingThatIsNone() throws IOException {
    Set<String> unknown = new TreeSet<>();
    int seen = 0;
    for (String name : Set.of("limits.md", "strikes.md")) {
      Matcher code = IN_A_PAGE.matcher(Files.readString(GUIDE.resolve(name)));
      while (code.find()) {
        seen++;
        if (FindingCode.of(code.group(1)).isEmpty()) {
          unknown.add(code.group(1));
        }
      }
    }
    assertTrue(seen > 30, "the pattern finds them: " + seen);
    assertEquals(Set.of(), unknown);
  }

  @Test
  void theGuideSpeaksAsTheTradeDoes() {
    for (FindingCode code : FindingCode.values()) {
      assertTrue(code.guide().endsWith("."), code.key());
      assertFalse(JARGON.matcher(code.guide()).find(), code.key() + ": " + code.guide());
    }
  }

  @Test
  void onlyAnErrorWithdraws() {
    for (FindingCode code : FindingCode.values()) {
      boolean error = code.grade().severities().contains(Finding.Severity.ERROR);
      assertEquals(error, code.withdraws() != FindingCode.Withdraws.NOTHING, code.key());
      assertEquals(code, FindingCode.of(code.key()).orElseThrow());
    }
  }
}

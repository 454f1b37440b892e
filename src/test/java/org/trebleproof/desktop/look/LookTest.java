package org.trebleproof.desktop.look;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Map;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

final class LookTest {

  @TempDir Path state;

  @Test
  void aLookIsKept() {
    Look look = new Look(Scheme.DARK, true, 150);
    new LookFile(state).write(look);
    assertEquals(look, new LookFile(state).read());
  }

  @Test
  void withoutALookThereIsTheUsualOne() throws IOException {
    assertEquals(Look.USUAL, new LookFile(state).read());
    Files.writeString(state.resolve("look.json"), "{ nonsense");
    assertEquals(Look.USUAL, new LookFile(state).read());
  }

  @Test
  void typeStaysBetweenOneAndTwoHundred() {
    assertEquals(200, Look.USUAL.withScale(900).scale());
    assertEquals(100, Look.USUAL.withScale(3).scale());
  }

  @Test
  void eachSystemIsAskedItsOwnWay() {
    assertTrue(dark("Linux", Map.of(), "color-scheme", "'prefer-dark'"));
    assertTrue(dark("Linux", Map.of(), "gtk-theme", "'Adwaita-dark'"));
    assertFalse(dark("Linux", Map.of(), "color-scheme", "'default'"));
    assertTrue(dark("Linux", Map.of("GTK_THEME", "Adwaita:dark"), "none", ""));
    assertFalse(dark("Linux", Map.of("GTK_THEME", "Adwaita"), "color-scheme", "prefer-dark"));
    assertTrue(dark("Mac OS X", Map.of(), "AppleInterfaceStyle", "Dark"));
    assertFalse(dark("Mac OS X", Map.of(), "none", ""));
    assertTrue(dark("Windows 11", Map.of(), "AppsUseLightTheme", "REG_DWORD    0x0"));
    assertFalse(dark("Windows 11", Map.of(), "AppsUseLightTheme", "REG_DWORD    0x1"));
  }

  private static boolean dark(
      String system, Map<String, String> environment, String asked, String answer) {
    return SystemScheme.isDark(
        system,
        environment,
        command -> command.contains(asked) ? Optional.of(answer) : Optional.empty());
  }
}

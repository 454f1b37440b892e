package org.trebleproof.desktop;

import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Map;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;

final class DesktopStartTest {

  private final String platform = System.getProperty("glass.platform");

  /** The tests run without a display on purpose, which the question takes into account. */
  @BeforeEach
  void asOutsideTests() {
    System.clearProperty("glass.platform");
  }

  @AfterEach
  void asBefore() {
    if (platform != null) {
      System.setProperty("glass.platform", platform);
    }
  }

  @Test
  void withoutADisplayNothingIsTried() {
    assertTrue(DesktopStart.displayMissing("Linux", Map.of()));
    assertTrue(DesktopStart.displayMissing("Linux", Map.of("DISPLAY", "")));
    assertTrue(DesktopStart.displayMissing("Linux", Map.of("DISPLAY", ":64321")));
    assertFalse(DesktopStart.displayMissing("Windows 11", Map.of()));
    assertFalse(DesktopStart.displayMissing("Mac OS X", Map.of()));
    assertFalse(DesktopStart.displayMissing("Linux", Map.of("DISPLAY", "bench.example:10.0")));
  }
}

package org.trebleproof.desktop.guide;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.util.List;
import org.trebleproof.desktop.text.Texts;
import org.trebleproof.quantity.Refusal;

/** The pages of the guide as they are carried in the program, in the order of reading. */
final class GuidePages {

  static final List<String> ALL =
      List.of(
          "desktop",
          "guide",
          "plots-and-circuit",
          "fixtures",
          "strikes",
          "live",
          "before-soldering",
          "hum",
          "demonstration",
          "job-file",
          "findings",
          "limits",
          "method",
          "CHANGELOG");

  private GuidePages() {}

  /** A page as it is written. */
  static String text(String page) {
    return read(page + ".md");
  }

  /** The licence of the program. */
  static String licence() {
    return read("LICENSE");
  }

  /** The page's title. */
  static String title(String page) {
    return text(page)
        .lines()
        .filter(l -> l.startsWith("# "))
        .findFirst()
        .map(l -> l.substring(2))
        .orElse(page);
  }

  private static String read(String name) {
    try (InputStream in = GuidePages.class.getResourceAsStream(name)) {
      if (in == null) {
        throw new Refusal(Texts.of("guide.missing", name));
      }
      return new String(in.readAllBytes(), StandardCharsets.UTF_8);
    } catch (IOException e) {
      throw new Refusal(Texts.of("guide.missing", name), e);
    }
  }
}

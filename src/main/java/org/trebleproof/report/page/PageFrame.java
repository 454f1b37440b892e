package org.trebleproof.report.page;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;

/** What stands around every page: one file with its style inside, nothing loaded from elsewhere. */
final class PageFrame {
  /** The end of every page. */
  static final String CLOSE = "</body>\n</html>\n";

  private PageFrame() {}

  /** Everything up to the body. */
  static String open(String title) {
    return open(title, "");
  }

  /**
   * Everything up to the body.
   *
   * @param style of the body; empty for the usual one
   */
  static String open(String title, String style) {
    return """
        <!DOCTYPE html>
        <html lang="en" xmlns="http://www.w3.org/1999/xhtml">
        <head>
        <meta charset="utf-8"/>
        <meta name="viewport" content="width=device-width, initial-scale=1"/>
        """
        + Html.element("title", title + " · Trebleproof")
        + "\n<style>\n"
        + style()
        + "</style>\n</head>\n<body"
        + (style.isEmpty() ? "" : " class=\"" + style + "\"")
        + ">\n";
  }

  private static String style() {
    try (InputStream in = PageFrame.class.getResourceAsStream("page.css")) {
      return new String(in.readAllBytes(), StandardCharsets.UTF_8);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}

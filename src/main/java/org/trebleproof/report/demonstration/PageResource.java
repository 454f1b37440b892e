package org.trebleproof.report.demonstration;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.Base64;
import java.util.List;
import java.util.stream.Collectors;

/** What the page is made of, and the fingerprints by which a browser lets nothing else run. */
final class PageResource {
  private static final List<String> SCRIPTS =
      List.of(
          "arithmetic.js", "circuit.js", "guitar.js", "plot.js", "sound.js", "blind.js", "page.js");

  private PageResource() {}

  /** The body with places to be filled. */
  static String body() {
    return read("page.html");
  }

  static String style() {
    return "\n" + read("page.css");
  }

  /** All scripts as one, with nothing in it that XML would read as markup. */
  static String script() {
    return "/*<![CDATA[*/\n\"use strict\";\n(() => {\n"
        + SCRIPTS.stream().map(PageResource::read).collect(Collectors.joining("\n"))
        + "})();\n/*]]>*/";
  }

  /** The source of a text as a content security policy names it. */
  static String fingerprint(String text) {
    try {
      byte[] hash =
          MessageDigest.getInstance("SHA-256").digest(text.getBytes(StandardCharsets.UTF_8));
      return "'sha256-" + Base64.getEncoder().encodeToString(hash) + "'";
    } catch (NoSuchAlgorithmException impossible) {
      throw new IllegalStateException("every Java has SHA-256", impossible);
    }
  }

  private static String read(String name) {
    try (InputStream in = PageResource.class.getResourceAsStream(name)) {
      return new String(in.readAllBytes(), StandardCharsets.UTF_8);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}

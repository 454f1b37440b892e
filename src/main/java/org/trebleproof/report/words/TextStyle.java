package org.trebleproof.report.words;

/** How a terminal sets off what matters: ANSI weights for a person, nothing for a pipe. */
public enum TextStyle {
  /** Letters only. */
  PLAIN,
  /** ECMA-48 select graphic rendition: bold, faint, underline. */
  ANSI;

  private static final char ESCAPE = 27;

  String strong(String text) {
    return rendered("1", text);
  }

  String faint(String text) {
    return rendered("2", text);
  }

  private String rendered(String code, String text) {
    return this == PLAIN ? text : ESCAPE + "[" + code + "m" + text + ESCAPE + "[0m";
  }
}

package org.trebleproof.report.words;

/** How a terminal sets off what matters: ANSI weights for a person, nothing for a pipe. */
public enum TextStyle {
  /** Letters only. */
  PLAIN,
  /** ECMA-48 select graphic rendition: bold, faint, underline. */
  ANSI;

  private static final char ESCAPE = 27;
  private static final int RENDITION = 4;

  String strong(String text) {
    return rendered("1", text);
  }

  String faint(String text) {
    return rendered("2", text);
  }

  /** Length of one of these renditions at a place in a text; 0 where there is none. */
  public static int lengthOfRendition(String text, int at) {
    boolean own =
        at + RENDITION <= text.length()
            && text.charAt(at) == ESCAPE
            && text.charAt(at + 1) == '['
            && "012".indexOf(text.charAt(at + 2)) >= 0
            && text.charAt(at + 3) == 'm';
    return own ? RENDITION : 0;
  }

  private String rendered(String code, String text) {
    return this == PLAIN ? text : ESCAPE + "[" + code + "m" + text + ESCAPE + "[0m";
  }
}

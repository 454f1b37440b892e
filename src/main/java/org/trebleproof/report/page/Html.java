package org.trebleproof.report.page;

import org.trebleproof.report.plot.Xml;

/** Words for a page: escaped, with true minus signs. */
final class Html {

  private Html() {}

  /** Text content. */
  static String text(String words) {
    return Xml.escaped(words.replaceAll("(^|[\\s(])-(?=\\d)", "$1−"));
  }

  /** An element with text content and a class. */
  static String element(String tag, String style, String words) {
    String attribute = style.isEmpty() ? "" : " class=\"" + style + "\"";
    return "<" + tag + attribute + ">" + text(words) + "</" + tag + ">";
  }

  /** An element with text content. */
  static String element(String tag, String words) {
    return element(tag, "", words);
  }
}

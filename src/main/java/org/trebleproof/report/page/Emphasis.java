package org.trebleproof.report.page;

import java.util.ArrayList;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** Sets off the numbers of a sentence. */
public final class Emphasis {

  /** A value with its interval and unit, as estimates are written; no marking's tolerance. */
  private static final Pattern NUMBER =
      Pattern.compile(
          "(?<about>about )?[-+−]?\\d[\\d.]*[kM]?(?: (?:pF|nF|µF|µH|mH|kHz|Hz|H|nS|µS|mS|dB|Ω))?"
              + " (?:±[\\d.]++[kM]?+|\\([^)]*? to [^)]*\\))(?! %)(?: (?:pF|nF|µF|µH|mH|kHz|Hz|H|nS|µS|mS|dB|Ω))?(?<guess> assumed)?");

  /** A number keeps its unit on its line. */
  private static final Pattern UNIT = Pattern.compile("(\\d) (k?Hz|dB|%)");

  private Emphasis() {}

  /** What a stretch of a sentence is. */
  public enum Kind {
    WORDS,
    NUMBER,
    ASSUMED_NUMBER
  }

  /** A stretch of a sentence. */
  public record Span(String text, Kind kind) {}

  /** The sentence in stretches, each number with its interval by itself. */
  public static List<Span> spans(String sentence) {
    List<Span> spans = new ArrayList<>();
    Matcher matcher = NUMBER.matcher(sentence);
    int end = 0;
    while (matcher.find()) {
      if (matcher.start() > end) {
        spans.add(new Span(sentence.substring(end, matcher.start()), Kind.WORDS));
      }
      boolean guess = matcher.group("guess") != null || matcher.group("about") != null;
      spans.add(new Span(matcher.group(), guess ? Kind.ASSUMED_NUMBER : Kind.NUMBER));
      end = matcher.end();
    }
    if (end < sentence.length()) {
      spans.add(new Span(sentence.substring(end), Kind.WORDS));
    }
    return spans;
  }

  /**
   * The sentence as HTML, each number with its interval in bold and unbroken, or lighter if
   * assumed.
   */
  static String onNumbers(String sentence) {
    StringBuilder html = new StringBuilder();
    for (Span span : spans(sentence)) {
      html.append(
          switch (span.kind()) {
            case WORDS -> Html.text(UNIT.matcher(span.text()).replaceAll("$1\u00a0$2"));
            case NUMBER -> Html.element("b", "", span.text());
            case ASSUMED_NUMBER -> Html.element("span", "assumed", span.text());
          });
    }
    return html.toString();
  }
}

package org.trebleproof.report.demonstration;

import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import org.trebleproof.bench.mod.predict.Audibility;
import org.trebleproof.bench.mod.predict.Prediction;
import org.trebleproof.bench.mod.turn.TurnableGuitar;
import org.trebleproof.quantity.Finding;
import org.trebleproof.quantity.Verdict;
import org.trebleproof.report.page.PredictionPlots;
import org.trebleproof.report.plot.SvgPlot;
import org.trebleproof.report.plot.Xml;
import org.trebleproof.report.words.PredictionText;
import org.trebleproof.report.words.Sentence;

/**
 * The page in which a listener turns the guitar and hears it: one file, nothing loaded from
 * elsewhere, nothing sent. A browser runs only the script whose fingerprint stands in its head.
 * Where no script runs, and until it does, the curves are those of the prediction. Well-formed as
 * XML.
 */
public final class DemonstrationPage {
  private static final int WIDTH = 700;
  private static final int LEVELS_HEIGHT = 344;
  private static final int DIFFERENCE_HEIGHT = 208;

  private DemonstrationPage() {}

  /**
   * The page.
   *
   * @param guitar what can be turned
   * @param prediction of what is set up at first
   * @param strike recorded strikes of the guitar as it is before; without it, computed ones
   * @param date on which the page is written
   */
  public static String of(
      TurnableGuitar guitar, Prediction prediction, Optional<CarriedStrike> strike, String date) {
    String style = PageResource.style();
    String script = PageResource.script();
    String policy =
        "default-src 'none'; script-src "
            + PageResource.fingerprint(script)
            + "; style-src "
            + PageResource.fingerprint(style)
            + "; base-uri 'none'; form-action 'none'";
    return """
        <!DOCTYPE html>
        <html lang="en" xmlns="http://www.w3.org/1999/xhtml">
        <head>
        <meta charset="utf-8"/>
        <meta http-equiv="Content-Security-Policy" content="POLICY"/>
        <meta name="viewport" content="width=device-width, initial-scale=1"/>
        """
            .replace("POLICY", policy)
        + "<title>"
        + Xml.escaped(guitar.title())
        + " \u00b7 Trebleproof</title>\n<style>"
        + style
        + "</style>\n</head>\n<body>\n"
        + body(guitar, prediction, strike.isPresent(), date)
        + "<script type=\"application/json\" id=\"guitar\">"
        + TurnableJson.text(guitar, strike)
        + "</script>\n<script>"
        + script
        + "</script>\n</body>\n</html>\n";
  }

  private static String body(
      TurnableGuitar guitar, Prediction prediction, boolean recorded, String date) {
    Map<String, String> places =
        Map.of(
            "@DATE@", Xml.escaped(date),
            "@TITLE@", Xml.escaped(guitar.title()),
            "@HEADLINE@", Xml.escaped(headline(prediction)),
            "@LEVELS@", SvgPlot.of(PredictionPlots.levels(prediction), WIDTH, LEVELS_HEIGHT, "l"),
            "@DIFFERENCE@",
                SvgPlot.of(PredictionPlots.difference(prediction), WIDTH, DIFFERENCE_HEIGHT, "d"),
            "@BAND@", Xml.escaped(band(guitar)),
            "@JND@", Xml.escaped(JUST_NOTICEABLE),
            "@NOTES@", notes(prediction, recorded));
    StringBuilder body = new StringBuilder();
    // Filled in one pass, so that a name that looks like a place stays a name.
    java.util.regex.Matcher place =
        java.util.regex.Pattern.compile("@[A-Z]+@").matcher(PageResource.body());
    while (place.find()) {
      place.appendReplacement(
          body, java.util.regex.Matcher.quoteReplacement(places.get(place.group())));
    }
    return place.appendTail(body).toString();
  }

  private static String headline(Prediction prediction) {
    return prediction.changes().isEmpty()
        ? "Before and after are the same: turn something, or take a saying from below."
        : PredictionText.headline(prediction);
  }

  private static String band(TurnableGuitar guitar) {
    int draws = guitar.models().stream().mapToInt(m -> m.draws().length).sum();
    return "The bands hold 95 % of "
        + draws
        + " random guitars, drawn from what was measured and from the tolerances of what was not.";
  }

  /** What counts as heard. */
  private static final String JUST_NOTICEABLE =
      String.format(
          Locale.ROOT,
          "Just noticeable is %.0f dB in a third octave (tones in quiet: 0.5 to 0.9 dB; Jesteadt,"
              + " Wier and Green, JASA 61, 1977), and for a resonance a shift of %.3f F/\u221aQ"
              + " (Gagn\u00e9 and Zurek, JASA 1988, measured up to %.0f kHz).",
          Audibility.JUST_NOTICEABLE,
          Audibility.RESONANCE_LIMIT,
          Audibility.RESONANCE_MEASURED_TO / 1000);

  private static String notes(Prediction prediction, boolean recorded) {
    StringBuilder notes = new StringBuilder();
    paragraph(
        notes,
        "The curves are the level at the jack over the coil's own voltage, worked out in this page"
            + " from the guitar's circuit; the verdict is never firmer than the band. "
            + JUST_NOTICEABLE
            + " A band, a room and an amplifier hide more than a quiet room does.");
    paragraph(
        notes,
        recorded
            ? "The strikes are a recording of the guitar as it was before; what is heard is that"
                + " recording through the ratio of the two responses."
            : "The strikes are computed, six open strings one after the other, and go through the"
                + " circuit as it stands.");
    paragraph(
        notes,
        "Equal loudness follows ITU-R BS.1770. A knob counts from 0 to 10; a lead is taken at 100p"
            + " a metre (common practice, no source). A value that no shop sells is that part of"
            + " this guitar as measured; the others are parts to buy, with the usual tolerance of"
            + " their kind.");
    for (Finding finding : new Verdict(prediction.findings()).toMind()) {
      paragraph(notes, "Mind: " + Sentence.of(finding.text()) + " " + Sentence.of(finding.next()));
    }
    return notes.toString();
  }

  private static void paragraph(StringBuilder notes, String words) {
    notes.append("<p>").append(Xml.escaped(words)).append("</p>\n");
  }
}

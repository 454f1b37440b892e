package org.trebleproof.report.page;

import java.util.Optional;
import org.trebleproof.bench.answer.FitResult;
import org.trebleproof.bench.job.Job;
import org.trebleproof.bench.job.WiringChange;
import org.trebleproof.bench.mod.predict.HeardChange;
import org.trebleproof.quantity.EstimateText;
import org.trebleproof.report.words.Headline;
import org.trebleproof.report.words.RecordedWords;

/**
 * The first sheet, for the customer: whose guitar, measured where and when, what was done, what it
 * reads, what is heard, before and after as curves, and a line to sign.
 */
final class CustomerSheet {

  private static final int WIDTH = 880;
  private static final int LEVELS_HEIGHT = 280;
  private static final int DIFFERENCE_HEIGHT = 180;

  private final FitResult result;
  private final String sounds;
  private final StringBuilder html = new StringBuilder();

  /**
   * @param sounds a piece of HTML that lets before and after be heard; empty for none
   */
  CustomerSheet(FitResult result, String sounds) {
    this.result = result;
    this.sounds = sounds;
  }

  String html() {
    html.append("<section class=\"sheet\">\n");
    writeHeading();
    html.append("<p class=\"verdict\">" + Emphasis.onNumbers(Headline.of(result)) + "</p>\n");
    if (result.verdict().refused()) {
      html.append(new Refused(result).box());
    } else {
      html.append(sounds);
      html.append(FindingList.of(result.verdict().errors()));
      writeNumbers();
      writePairs();
      html.append(
          "<p class=\"sign\"><span>Place and date</span><span>Name and signature</span></p>\n");
    }
    return html.append("</section>\n").toString();
  }

  private void writeHeading() {
    Job.Heading heading = result.job().heading();
    html.append("<div class=\"masthead\">");
    html.append(Html.element("span", heading.bench().orElse("Bench note")));
    html.append(Html.element("span", "Measured with Trebleproof")).append("</div>\n");
    html.append(Html.element("h1", result.job().title())).append('\n');
    StringBuilder list = new StringBuilder();
    item(list, "Customer", heading.customer());
    item(list, "Instrument", heading.instrument());
    item(list, "Recorded", RecordedWords.of(result.recorded().values()));
    if (list.length() > 0) {
      html.append("<dl class=\"heading\">\n" + list + "</dl>\n");
    }
  }

  private static void item(StringBuilder list, String term, Optional<String> words) {
    words.ifPresent(
        w -> list.append(Html.element("dt", term)).append(Html.element("dd", w)).append('\n'));
  }

  private void writeNumbers() {
    PartsRead parts = new PartsRead(result);
    String table = parts.table();
    if (!table.isEmpty()) {
      String what =
          parts.changes().isEmpty() ? "What the parts read" : "What was done, and what it reads";
      html.append(Html.element("h2", "part", what)).append('\n').append(table);
    }
    // Where the pickup itself was exchanged, or nothing was, the coils are what is measured.
    boolean heard =
        !parts.changes().isEmpty()
            && parts.changes().stream().noneMatch(c -> c.thing() == WiringChange.Thing.PICKUP);
    EstimateTable numbers = new EstimateTable(result);
    String key = heard ? numbers.heard(heard()) : numbers.key();
    if (!key.isEmpty()) {
      html.append(Html.element("h2", "part", heard ? "What is heard" : "What was measured"))
          .append('\n')
          .append(key);
    }
  }

  /** The change of level where it is surest, that the other way, and whether it is heard. */
  private Optional<String> heard() {
    return HeardChange.of(result)
        .map(
            h ->
                at(h.most())
                    + h.contrary().map(p -> ", " + at(p)).orElse("")
                    + ", "
                    + h.audibility().verdict().words());
  }

  private static String at(HeardChange.Point point) {
    return (point.change().value() > 0 ? "+" : "")
        + EstimateText.full(point.change()).replace('-', '−')
        + " at "
        + Sentences.frequency(point.hz());
  }

  /** A pair of plots for each setup that is held against another, and how to read them. */
  private void writePairs() {
    boolean levels = false;
    boolean differences = false;
    for (FitResult each : result.pairs()) {
      PairOfPlots pair = new PairOfPlots(each);
      pair.levels().ifPresent(plot -> html.append(Figure.of(plot, WIDTH, LEVELS_HEIGHT, "levels")));
      pair.difference()
          .ifPresent(plot -> html.append(Figure.of(plot, WIDTH, DIFFERENCE_HEIGHT, "difference")));
      levels |= pair.levels().isPresent();
      differences |= pair.difference().isPresent();
    }
    if (levels) {
      html.append(
          Html.element(
              "p",
              "caption",
              result.strikes().isPresent()
                  ? "Lines are modelled; bands hold 95 %."
                  : "Lines are modelled, points are measured with the fixture taken out; bands hold 95 %."
                      + (differences
                          ? " Solid is before, dashed and hollow is after, on every plot."
                          : "")));
      html.append('\n');
    }
  }
}

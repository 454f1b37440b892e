package org.trebleproof.report.page;

import java.util.List;
import java.util.Optional;
import org.trebleproof.bench.answer.FitResult;
import org.trebleproof.bench.answer.StrikeEvidence;
import org.trebleproof.bench.job.CaptureEntry;
import org.trebleproof.bench.job.Setup;
import org.trebleproof.report.plot.FrequencyPlot;
import org.trebleproof.report.plot.SvgPlot;
import org.trebleproof.report.words.AdviceText;
import org.trebleproof.report.words.Headline;

/**
 * The page that a customer keeps: one file, nothing loaded from elsewhere, light or dark as the
 * reader's system is set. The verdict and the pair of plots fill the first printed sheet, the
 * evidence follows on the next. Well-formed as XML.
 */
public final class HtmlPage {

  private static final int WIDTH = 880;
  private static final int LEVELS_HEIGHT = 350;
  private static final int DIFFERENCE_HEIGHT = 220;
  private static final int SMALL_WIDTH = 430;
  private static final int SMALL_HEIGHT = 250;

  private final FitResult result;
  private final String version;
  private final String date;
  private final String sounds;
  private final Refused refused;
  private final StringBuilder html = new StringBuilder(1 << 17);

  private HtmlPage(FitResult result, String version, String date, String sounds) {
    this.result = result;
    this.version = version;
    this.date = date;
    this.sounds = sounds;
    this.refused = new Refused(result);
  }

  /**
   * The page's text.
   *
   * @param version of the program
   * @param date on which the page is written, for its masthead
   */
  public static String of(FitResult result, String version, String date) {
    return of(result, version, date, "");
  }

  /**
   * The same with something to be heard under the verdict.
   *
   * @param sounds a piece of HTML, well-formed as XML; empty for none
   */
  public static String of(FitResult result, String version, String date, String sounds) {
    return new HtmlPage(result, version, date, sounds).write();
  }

  private String write() {
    html.append(PageFrame.open(result.job().title()));
    writeFirstSheet();
    writeFindings();
    writeTreble();
    writeEstimates();
    writeCircuits();
    writeCaptures();
    writeAdvice();
    writeCautions();
    html.append(Html.element("h2", "To repeat this measurement")).append('\n');
    html.append(new RepeatSheet(result, version).html());
    html.append(PageFrame.CLOSE);
    return html.toString();
  }

  private void writeFirstSheet() {
    html.append("<section class=\"sheet\">\n<div class=\"masthead\">");
    html.append(Html.element("span", "Trebleproof bench note"));
    html.append(Html.element("span", date)).append("</div>\n");
    html.append(Html.element("h1", result.job().title())).append('\n');
    html.append("<p class=\"verdict\">" + Emphasis.onNumbers(Headline.of(result)) + "</p>\n");
    if (result.verdict().refused()) {
      html.append(refused.box());
    } else {
      html.append(sounds);
      html.append(FindingList.of(result.verdict().errors()));
      html.append(new EstimateTable(result).key());
      writePair();
    }
    html.append("</section>\n");
  }

  private void writePair() {
    PairOfPlots pair = new PairOfPlots(result);
    Optional<FrequencyPlot> levels = pair.levels();
    Optional<FrequencyPlot> difference = pair.difference();
    levels.ifPresent(plot -> writePlot(plot, WIDTH, LEVELS_HEIGHT, "levels"));
    difference.ifPresent(plot -> writePlot(plot, WIDTH, DIFFERENCE_HEIGHT, "difference"));
    if (levels.isPresent()) {
      html.append(
          Html.element(
              "p",
              "caption",
              result.strikes().isPresent()
                  ? "Lines are modelled; bands hold 95 %."
                  : "Lines are modelled, points are measured with the fixture taken out; bands hold 95 %."
                      + (difference.isPresent()
                          ? " Solid is before, dashed and hollow is after, on every plot."
                          : "")));
      html.append('\n');
    }
  }

  private void writePlot(FrequencyPlot plot, int width, int height, String id) {
    writePlot(plot, width, height, id, "");
  }

  private void writePlot(FrequencyPlot plot, int width, int height, String id, String below) {
    html.append("<div class=\"figure\">\n");
    html.append(SvgPlot.of(plot, width, height, id));
    html.append(Html.element("p", "caption", plot.reading())).append(below).append("</div>\n");
  }

  private void writeFindings() {
    if (!result.findings().isEmpty()) {
      // all of them, also those on the first sheet: the evidence stands on its own
      html.append(Html.element("h2", "Findings")).append('\n');
      html.append(FindingList.of(result.findings()));
    }
  }

  private void writeTreble() {
    if (!result.treble().isEmpty()) {
      html.append(Html.element("h2", "What takes the treble")).append('\n');
      String words = TrebleSplit.words(result.treble().get(0));
      html.append(Html.element("p", "caption", Sentences.capitalised(words)));
      html.append(TrebleSplit.of(result.treble()));
    }
  }

  private void writeEstimates() {
    if (result.rows().stream().anyMatch(row -> row.estimate().isPresent())) {
      html.append(Html.element("h2", "Estimates")).append('\n');
      html.append(
          Html.element(
              "p",
              "caption",
              "Measured: the recordings at least halve the interval that was assumed. Assumed:"
                  + " mostly what a marking or a usual tolerance says. Derived: follows from other"
                  + " rows."));
      html.append('\n').append(new EstimateTable(result).all());
    }
  }

  private void writeCircuits() {
    html.append(
            Html.element(
                "h2",
                result.verdict().refused() || result.rows().isEmpty()
                    ? "The circuit as described"
                    : "The circuit as measured"))
        .append('\n');
    int number = 0;
    for (Setup setup : result.job().setups().values()) {
      html.append("<div class=\"figure wide\">\n");
      html.append(Html.element("h3", Sentences.capitalised(setup.name()))).append('\n');
      html.append(CircuitDrawing.of(result, setup, "circuit-" + ++number)).append("</div>\n");
    }
  }

  private void writeCaptures() {
    if (result.strikes().isPresent()) {
      writeStrikes(result.strikes().get());
      return;
    }
    html.append(Html.element("h2", "Evidence, capture by capture")).append('\n');
    CapturePlots plots = new CapturePlots(result);
    int number = 0;
    for (CaptureEntry entry : result.job().captures()) {
      number++;
      if (refused.covers(entry)) {
        html.append(refused.box(entry));
        continue;
      }
      FitResult.CaptureFit capture =
          result.captures().stream()
              .filter(c -> c.id().equals(entry.id()))
              .findFirst()
              .orElseThrow();
      html.append("<div class=\"plots\">\n");
      writePlot(plots.level(capture), SMALL_WIDTH, SMALL_HEIGHT, "capture-" + number);
      String id = "residual-" + number;
      plots.residual(capture).ifPresent(p -> writePlot(p, SMALL_WIDTH, SMALL_HEIGHT, id));
      html.append("</div>\n");
    }
  }

  private void writeStrikes(StrikeEvidence evidence) {
    html.append(Html.element("h2", "Evidence, note by note")).append('\n');
    html.append(StrikeTable.of(evidence));
    StrikePlots plots = new StrikePlots(result);
    if (plots.notes().isEmpty()) {
      return;
    }
    html.append(
        Html.element(
            "p",
            "caption",
            "Levels of partials against full scale; "
                + plots.legend()
                + ". What each strike had of its own (strength, colour, place along the string) is"
                + " taken out; 95 % of what scatter remains lies within the bars."));
    html.append("<div class=\"plots\">\n");
    int number = 0;
    for (double note : plots.notes()) {
      writePlot(plots.note(note), SMALL_WIDTH, SMALL_HEIGHT, "note-" + ++number, plots.table(note));
    }
    html.append("</div>\n");
  }

  private void writeAdvice() {
    if (!result.advice().isEmpty()) {
      html.append(Html.element("h2", "What to measure next")).append("\n<ul>\n");
      result.advice().forEach(a -> html.append(Html.element("li", AdviceText.of(a))).append('\n'));
      html.append("</ul>\n");
    }
  }

  private void writeCautions() {
    List<String> cautions = Cautions.of(result);
    html.append(Html.element("h2", "Take care")).append("\n<ul class=\"cautions\">\n");
    cautions.forEach(c -> html.append(Html.element("li", c)).append('\n'));
    html.append("</ul>\n");
  }
}

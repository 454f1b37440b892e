package org.trebleproof.report.page;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.trebleproof.bench.answer.TrebleLoss;
import org.trebleproof.bench.job.Layout;
import org.trebleproof.bench.mod.explain.Explanation;
import org.trebleproof.bench.mod.guitar.SignalChain;
import org.trebleproof.bench.mod.identify.CoilIdentity;
import org.trebleproof.bench.mod.listen.BlindTest;
import org.trebleproof.bench.mod.listen.CurvePair;
import org.trebleproof.bench.mod.listen.Rendering;
import org.trebleproof.bench.mod.predict.Audibility;
import org.trebleproof.bench.mod.predict.Prediction;
import org.trebleproof.bench.mod.search.FoundParts;
import org.trebleproof.quantity.Estimate;
import org.trebleproof.quantity.EstimateText;
import org.trebleproof.quantity.Finding;
import org.trebleproof.report.plot.FrequencyPlot;
import org.trebleproof.report.plot.SvgPlot;
import org.trebleproof.report.plot.ValueAxis;
import org.trebleproof.report.schematic.Draughtsman;
import org.trebleproof.report.schematic.KnownInscriptions;
import org.trebleproof.report.schematic.Schematic;
import org.trebleproof.report.schematic.SvgSchematic;
import org.trebleproof.report.words.ExplanationText;
import org.trebleproof.report.words.FoundPartsText;
import org.trebleproof.report.words.IdentityText;
import org.trebleproof.report.words.ListeningText;
import org.trebleproof.report.words.PredictionText;
import org.trebleproof.report.words.TrebleText;

/**
 * The page about a mod that is not soldered yet: the verdict, the pair of plots, the numbers. One
 * file, nothing loaded from elsewhere. Well-formed as XML.
 */
public final class ModPage {
  private static final int WIDTH = 880;
  private static final double LOW_HZ = 80;
  private static final double HIGH_HZ = 14000;
  private static final double DEEPEST = 18;
  private static final int LEVELS_HEIGHT = 350;
  private static final int DIFFERENCE_HEIGHT = 220;

  private final StringBuilder html = new StringBuilder(1 << 16);

  private ModPage() {}

  /**
   * A prediction as a page.
   *
   * @param circuits the wirings as they are and as they would be
   * @param date on which the page is written
   */
  public static String of(Prediction prediction, List<Schematic> circuits, String date) {
    ModPage page = new ModPage();
    page.open(prediction.title(), List.of(PredictionText.headline(prediction)), date);
    page.plots(prediction);
    page.html.append("</section>\n");
    page.numbers(prediction);
    page.heard(prediction);
    page.circuits(circuits);
    return page.close(prediction.findings());
  }

  /**
   * An explanation as a page.
   *
   * @param date on which the page is written
   */
  public static String of(Explanation explanation, String date) {
    ModPage page = new ModPage();
    page.open(explanation.title(), ExplanationText.headline(explanation), date);
    page.pair(explanation.curves(), "What lies between the two is what is shared out below.");
    page.shares(explanation);
    page.html.append("</section>\n");
    page.sayings(explanation);
    return page.close(explanation.findings());
  }

  /**
   * Found parts as a page.
   *
   * @param date on which the page is written
   */
  public static String of(FoundParts found, String date) {
    ModPage page = new ModPage();
    page.open(found.title(), List.of(FoundPartsText.headline(found)), date);
    found
        .curves()
        .ifPresent(c -> page.pair(c, "Solid is the first of the two, dashed the second."));
    page.html.append("</section>\n");
    page.options(found);
    found.rewired().ifPresent(r -> page.circuits(circuits(r.chain(), r.now(), r.then())));
    return page.close(found.findings());
  }

  /**
   * An identified coil as a page.
   *
   * @param date on which the page is written
   */
  public static String of(CoilIdentity coil, String date) {
    ModPage page = new ModPage();
    page.open(coil.title(), List.of(IdentityText.headline(coil)), date);
    page.pair(coil.curves().get(), "Modelled from what was measured or typed in.");
    page.html.append("</section>\n");
    page.likelihoods(coil);
    return page.close(coil.findings());
  }

  /**
   * The same under what the change does.
   *
   * @param change in a sentence
   */
  public static String of(
      String title, String change, Rendering sounds, Optional<BlindTest.Score> score, String date) {
    List<String> verdict = new ArrayList<>(List.of(change));
    score.map(ListeningText::score).ifPresent(verdict::add);
    return heard(title, verdict, sounds, date);
  }

  private static String heard(String title, List<String> verdict, Rendering sounds, String date) {
    ModPage page = new ModPage();
    page.open(title, verdict, date);
    page.pair(sounds.curves(), "What the two sounds differ by.");
    page.html.append("</section>\n");
    page.html.append(Html.element("h2", "How it was heard")).append('\n');
    ListeningText.remarks(sounds).forEach(r -> page.html.append(Html.element("p", r)).append('\n'));
    return page.close(List.of());
  }

  private void pair(CurvePair curves, String reading) {
    List<FrequencyPlot.Series> lines = new ArrayList<>();
    lines.add(line(curves.first(), FrequencyPlot.Side.BEFORE, curves.hz()));
    curves.second().ifPresent(c -> lines.add(line(c, FrequencyPlot.Side.AFTER, curves.hz())));
    plot(
        new FrequencyPlot(
            curves.title(),
            reading,
            LOW_HZ,
            HIGH_HZ,
            ValueAxis.decibel(lines, LOW_HZ, HIGH_HZ, DEEPEST),
            lines,
            List.of()),
        LEVELS_HEIGHT,
        "levels");
  }

  private static FrequencyPlot.Series line(
      CurvePair.Curve curve, FrequencyPlot.Side side, double[] hz) {
    return new FrequencyPlot.Series(
        curve.name(),
        FrequencyPlot.Shape.LINE,
        side,
        hz,
        curve.decibel(),
        curve.low(),
        curve.high());
  }

  private void options(FoundParts found) {
    html.append(Html.element("h2", "What each number of changes buys")).append('\n');
    html.append(
        Html.element(
            "p",
            "caption",
            "Distance in just noticeable differences: 1 is hardly heard. Nine in ten guitars built"
                + " so, with parts as good as their tolerances, stay within the column beside it. "
                + found.tried()
                + " combinations were tried."));
    html.append("\n<div class=\"scroll\"><table class=\"estimates\"><tbody>\n");
    row("th", "changes", "what", "distance", "nine in ten within", "resonance", "peak over 20 Hz");
    for (FoundParts.Option o : found.options()) {
      html.append("<tr>")
          .append(Html.element("td", Integer.toString(o.changes())))
          .append(Html.element("td", FoundPartsText.words(o)));
      for (String figure :
          List.of(
              String.format(Locale.ROOT, "%.2f", o.distance()),
              String.format(Locale.ROOT, "%.2f", o.unlucky()),
              o.resonance().map(EstimateText::full).orElse("none"),
              o.peak().map(EstimateText::full).orElse(""))) {
        html.append(Html.element("td", "number", figure));
      }
      html.append("</tr>\n");
    }
    html.append("</tbody></table></div>\n");
  }

  private void likelihoods(CoilIdentity coil) {
    html.append(Html.element("h2", "What it may be"))
        .append("\n<div class=\"scroll\"><table class=\"estimates chances\"><tbody>\n");
    for (CoilIdentity.Likely l : coil.families()) {
      row("td", l.family().words(), IdentityText.chance(l.probability()));
    }
    html.append("</tbody></table></div>\n");
    html.append(Html.element("h3", "Whatever its family"))
        .append("\n<div class=\"scroll\"><table class=\"estimates chances\"><tbody>\n");
    row("td", "under a metal cover or on a metal plate", IdentityText.chance(coil.covered()));
    row("td", "turns are shorted", IdentityText.chance(coil.shortedTurns()));
    html.append("</tbody></table></div>\n");
    html.append(Html.element("h2", "Values"))
        .append("\n<div class=\"scroll\"><table class=\"estimates\"><tbody>\n");
    row("td", "inductance", EstimateText.full(coil.inductance()));
    row("td", "resistance at 20 °C", EstimateText.full(coil.resistance()));
    row("td", "winding capacitance", EstimateText.full(coil.capacitance()));
    for (CoilIdentity.Build b : coil.windings()) {
      row("td", "if wound so", IdentityText.build(b));
    }
    html.append("</tbody></table></div>\n");
    html.append(Html.element("h2", "What that rests on")).append("\n<ul>\n");
    coil.facts()
        .forEach(f -> html.append(Html.element("li", Sentences.capitalised(f) + ".")).append('\n'));
    html.append("</ul>\n");
  }

  /** The wirings before and after as drawings; what differs is set off. */
  public static List<Schematic> circuits(SignalChain chain, Layout now, Layout then) {
    KnownInscriptions words = new KnownInscriptions(chain);
    return List.of(
        Draughtsman.of(now, Optional.of(then), words, "Now"),
        Draughtsman.of(then, Optional.of(now), words, "Then"));
  }

  private void open(String title, List<String> verdict, String date) {
    html.append(PageFrame.open(title));
    html.append("<section class=\"sheet\">\n<div class=\"masthead\">");
    html.append(Html.element("span", "Trebleproof bench note, before soldering"));
    html.append(Html.element("span", date)).append("</div>\n");
    html.append(Html.element("h1", title)).append('\n');
    for (String sentence : verdict) {
      html.append("<p class=\"verdict\">" + Emphasis.onNumbers(sentence) + "</p>\n");
    }
  }

  private String close(List<Finding> findings) {
    if (!findings.isEmpty()) {
      html.append(Html.element("h2", "Findings")).append('\n').append(FindingList.of(findings));
    }
    html.append(Html.element("h2", "Take care")).append('\n');
    html.append(
        Html.element(
            "p",
            "Unplug the instrument before you solder. Work on the instrument only: an amplifier"
                + " holds dangerous voltage after the plug is out."));
    return html.append("\n</body>\n</html>\n").toString();
  }

  private void plots(Prediction p) {
    plot(PredictionPlots.levels(p), LEVELS_HEIGHT, "levels");
    plot(PredictionPlots.difference(p), DIFFERENCE_HEIGHT, "difference");
    html.append(
        Html.element(
            "p",
            "caption",
            String.format(
                Locale.ROOT,
                "Solid is now, dashed is then. Bands hold 95 %% of %d random guitars.",
                p.draws())));
    html.append('\n');
  }

  private void plot(FrequencyPlot plot, int height, String id) {
    html.append("<div class=\"figure\">\n").append(SvgPlot.of(plot, WIDTH, height, id));
    html.append(Html.element("p", "caption", plot.reading())).append("</div>\n");
  }

  private void circuits(List<Schematic> circuits) {
    html.append(Html.element("h2", circuits.size() > 1 ? "The circuits" : "The circuit"))
        .append('\n');
    int number = 0;
    for (Schematic circuit : circuits) {
      html.append("<div class=\"figure wide\">\n").append(Html.element("h3", circuit.title()));
      html.append('\n').append(SvgSchematic.of(circuit, "circuit-" + ++number)).append("</div>\n");
    }
    html.append(
            Html.element(
                "p",
                "caption",
                "Each value with its 95 % interval; where it is slanted, the tolerance is the usual one"
                    + " of its kind and assumed. What differs is set off."))
        .append('\n');
  }

  private void numbers(Prediction p) {
    html.append(Html.element("h2", "Numbers"))
        .append("\n<div class=\"scroll\"><table class=\"estimates\"><tbody>\n");
    row("th", "", "now", "then", "change");
    row("Resonance", p.resonances().hzNow(), p.resonances().hzThen(), p.resonances().shift());
    row(
        "Peak over 20 Hz",
        p.resonances().peakNow(),
        p.resonances().peakThen(),
        p.resonances().peakChange());
    for (Prediction.At at : p.levels()) {
      row(
          String.format(Locale.ROOT, "Level at %.0f kHz", at.hz() / 1000),
          Optional.of(at.now()),
          Optional.of(at.then()),
          Optional.of(at.change()));
    }
    html.append("</tbody></table></div>\n");
  }

  private void heard(Prediction p) {
    html.append(Html.element("h2", "Whether it is heard")).append('\n');
    html.append(
        Html.element(
            "p",
            "caption",
            "Held against 1 dB in a third octave (Jesteadt, Wier and Green 1977: 0.5 to 0.9 dB for"
                + " tones in quiet) and 0.079 F/sqrt(Q) for a resonance (Gagné and Zurek 1988, up to"
                + " 2 kHz)."));
    html.append("\n<div class=\"scroll\"><table class=\"estimates\"><tbody>\n");
    row("th", "third octave", "change", "95 % interval", "");
    for (Audibility.Band band : p.audibility().bands()) {
      row(
          "td",
          Sentences.frequency(band.centreHz()),
          String.format(Locale.ROOT, "%+.1f dB", band.change()),
          String.format(Locale.ROOT, "%+.1f to %+.1f dB", band.low(), band.high()),
          band.grade().words());
    }
    html.append("</tbody></table></div>\n");
  }

  private void shares(Explanation e) {
    html.append(Html.element("h2", "What takes it"))
        .append("\n<div class=\"scroll\"><table class=\"estimates\"><tbody>\n");
    row("th", "", "at " + TrebleText.place(e.treble()), e.single() ? "" : "as heard", "");
    for (TrebleLoss.Share share : e.shares()) {
      if (TrebleText.counts(share)) {
        share(share.name(), share.there(), share.heard(), e.single());
      }
    }
    share("all together", e.treble().there(), e.treble().heard(), e.single());
    html.append("</tbody></table></div>\n");
    html.append(Html.element("p", "caption", Sentences.capitalised(TrebleSplit.words(e.treble()))));
    html.append(Html.element("h2", "What gives it back"))
        .append("\n<div class=\"scroll\"><table class=\"estimates\"><tbody>\n");
    for (Explanation.Remedy r : e.remedies()) {
      row("td", r.change(), EstimateText.full(r.gain()), r.words(), "");
    }
    html.append("</tbody></table></div>\n");
  }

  private void share(String name, Estimate there, Estimate heard, boolean single) {
    row("td", name, EstimateText.full(there), single ? "" : EstimateText.full(heard), "");
  }

  private void sayings(Explanation e) {
    html.append(Html.element("h2", "What is said, and what this guitar says")).append('\n');
    for (Explanation.Saying s : e.sayings()) {
      html.append(Html.element("h3", s.saying()));
      html.append(Html.element("p", (s.holds() ? "True here. " : "Not quite. ") + s.answer()));
      html.append('\n');
    }
    html.append(Html.element("p", "caption", "The sayings are common practice, without a source."));
    html.append('\n');
  }

  private void row(
      String label, Optional<Estimate> now, Optional<Estimate> then, Optional<Estimate> change) {
    row(
        "td",
        label,
        now.map(EstimateText::full).orElse("none"),
        then.map(EstimateText::full).orElse("none"),
        change.map(EstimateText::full).orElse(""));
  }

  private void row(String tag, String... cells) {
    html.append("<tr>");
    for (String cell : cells) {
      html.append(Html.element(tag, cell));
    }
    html.append("</tr>\n");
  }
}

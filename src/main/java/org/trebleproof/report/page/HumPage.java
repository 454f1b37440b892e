package org.trebleproof.report.page;

import java.util.List;
import java.util.Locale;
import org.trebleproof.audio.Recording;
import org.trebleproof.audio.SoundFile;
import org.trebleproof.bench.hum.HumCause;
import org.trebleproof.bench.hum.HumResult;
import org.trebleproof.bench.hum.SafetyNote;
import org.trebleproof.bench.hum.StateLevels;
import org.trebleproof.bench.hum.StateReading;
import org.trebleproof.bench.hum.VisitChange;
import org.trebleproof.quantity.Estimate;
import org.trebleproof.report.plot.FrequencyPlot;
import org.trebleproof.report.plot.SvgPlot;
import org.trebleproof.report.words.HumHeadline;
import org.trebleproof.report.words.HumText;
import org.trebleproof.report.words.RadioWords;

/** The page of a hum check: verdict, reasons and levels first, then the spectra, then how. */
public final class HumPage {

  private static final int WIDTH = 880;
  private static final int HEIGHT = 300;
  private static final int SMALL_WIDTH = 430;
  private static final int SMALL_HEIGHT = 240;

  private final HumResult result;
  private final String version;
  private final String date;
  private final HumPlots plots;
  private final StringBuilder html = new StringBuilder(1 << 17);
  private int figures;

  private HumPage(HumResult result, String version, String date) {
    this.result = result;
    this.version = version;
    this.date = date;
    this.plots = new HumPlots(result);
  }

  /**
   * The page's text.
   *
   * @param version of the program
   * @param date on which the page is written
   */
  public static String of(HumResult result, String version, String date) {
    return new HumPage(result, version, date).write();
  }

  private String write() {
    html.append(PageFrame.open("Hum and ground check"));
    writeFirstSheet();
    writeVisit();
    writeSpectra();
    if (!result.findings().isEmpty()) {
      html.append(Html.element("h2", "About the recordings")).append('\n');
      html.append(FindingList.of(result.findings()));
    }
    writeRepeat();
    html.append(PageFrame.CLOSE);
    return html.toString();
  }

  private void writeFirstSheet() {
    html.append("<section class=\"sheet\">\n<div class=\"masthead\">");
    html.append(Html.element("span", "Trebleproof bench note"));
    html.append(Html.element("span", date)).append("</div>\n");
    html.append(Html.element("h1", "Hum and ground check")).append('\n');
    html.append("<p class=\"verdict\">" + Html.text(HumHeadline.of(result)) + "</p>\n");
    for (HumCause cause : told()) {
      html.append("<div class=\"finding\">\n<p>");
      html.append(
          Html.element("span", "word", Sentences.capitalised(cause.strength().words()) + ":"));
      html.append(' ').append(Html.text(cause.code().words() + ".")).append("</p>\n");
      html.append(Html.element("p", "evidence", "Heard: " + cause.heard() + ".")).append('\n');
      html.append(Html.element("p", "Next: " + cause.next())).append("</div>\n");
    }
    writeLevels();
    figure(plots.spectrum(result.readings().get(0)), WIDTH, HEIGHT);
    html.append(Html.element("h2", "What this check cannot know")).append('\n');
    html.append("<ul class=\"cautions\">\n");
    SafetyNote.full().forEach(s -> html.append(Html.element("li", s)).append('\n'));
    html.append("</ul>\n</section>\n");
  }

  /** After a mod one open question is enough: what it did is told. */
  private List<HumCause> told() {
    boolean open =
        result.causes().stream().allMatch(c -> c.strength() == HumCause.Strength.CANNOT_TELL);
    return open && !result.visit().isEmpty() ? result.causes().subList(0, 1) : result.causes();
  }

  private void writeLevels() {
    html.append("<div class=\"scroll\"><table class=\"key\"><thead><tr><td></td>");
    boolean bursts = result.levels().values().stream().anyMatch(l -> l.bursts().isPresent());
    List<String> heads =
        List.of("Hum", "Buzz", "Hiss", "All, A-weighted", RadioWords.of(result.readings()));
    for (String head : heads.subList(0, bursts ? 5 : 4)) {
      html.append("<th scope=\"col\">" + head + "</th>");
    }
    html.append("</tr></thead><tbody>\n");
    for (StateReading reading : result.readings()) {
      StateLevels levels = result.levels().get(reading.state());
      html.append("<tr><th scope=\"row\">");
      html.append(Html.text(Sentences.capitalised(reading.state().words()))).append("</th>");
      cell(level(levels.hum()));
      cell(level(levels.buzz()));
      cell(level(levels.hiss()));
      cell(level(levels.totalWeighted()));
      if (bursts) {
        cell(levels.bursts().map(HumPage::level).orElse("none"));
      }
      html.append("</tr>\n");
    }
    html.append("</tbody></table></div>\n");
    String mains =
        result
            .mains()
            .map(m -> "The mains runs at " + HumText.mains(m) + ". ")
            .orElse("No series of mains lines stands out. ");
    html.append(
        Html.element(
            "p",
            "caption",
            mains
                + "Levels in dB "
                + (result.strike().isPresent()
                    ? "relative to the strike's loudest 0.4 s"
                    : "relative to a full-scale sine")
                + ", with 95 % intervals. Hum: the fundamental and the next three harmonics. Buzz:"
                + " the harmonics above, up to 5 kHz. Hiss: what lies between, 20 Hz to 20 kHz."
                + (bursts
                    ? " " + RadioWords.of(result.readings()) + ": over the whole recording."
                    : "")));
  }

  private void cell(String words) {
    html.append("<td class=\"number\">" + Html.text(words) + "</td>");
  }

  private static String level(Estimate level) {
    double half = Math.max(level.high() - level.value(), level.value() - level.low());
    return half > 6
        ? String.format(Locale.ROOT, "under %.0f", level.high()).replace("-", "−")
        : String.format(Locale.ROOT, "%.1f ±%.1f", level.value(), Math.max(0.1, half));
  }

  private void writeVisit() {
    if (result.visit().isEmpty()) {
      return;
    }
    html.append(Html.element("h2", "What the mod did")).append('\n');
    for (VisitChange change : result.visit()) {
      html.append(
          Html.element(
              "p",
              Sentences.capitalised(change.state().words())
                  + ": hum "
                  + signed(change.hum())
                  + ", buzz "
                  + signed(change.buzz())
                  + ", both together "
                  + signed(change.lines())
                  + ", A-weighted "
                  + signed(change.weighted())
                  + "."));
      figure(plots.difference(change), WIDTH, SMALL_HEIGHT);
    }
  }

  private static String signed(Estimate d) {
    if (d.contains(0)) {
      return String.format(Locale.ROOT, "no difference (±%.1f dB)", d.halfWidth());
    }
    return String.format(Locale.ROOT, "%+.1f ±%.1f dB", d.value(), Math.max(0.1, d.halfWidth()));
  }

  private void writeSpectra() {
    if (result.readings().size() < 2) {
      return;
    }
    StateReading base = result.readings().get(0);
    html.append(Html.element("h2", "State by state")).append('\n');
    for (StateReading reading : result.readings()) {
      if (reading != base) {
        html.append("<div class=\"plots\">\n");
        figure(plots.pair(base, reading), SMALL_WIDTH, SMALL_HEIGHT);
        figure(plots.difference(base, reading), SMALL_WIDTH, SMALL_HEIGHT);
        html.append("</div>\n");
      }
    }
    html.append(
        Html.element(
            "p",
            "caption",
            "Filled is "
                + base.state().words()
                + ", hollow is the other state. A point is a harmonic of the mains, its noise taken"
                + " out; one that does not stand out is not drawn."));
  }

  private void figure(FrequencyPlot plot, int width, int height) {
    html.append("<div class=\"figure\">\n");
    html.append(SvgPlot.of(plot, width, height, "hum-" + ++figures));
    html.append("</div>\n");
  }

  private void writeRepeat() {
    html.append(Html.element("h2", "To repeat this check")).append("\n<dl>\n");
    result.readings().forEach(r -> repeat(r.state().words(), r.recording()));
    result.visit().forEach(v -> repeat("after the mod, " + v.state().words(), v.after()));
    html.append(Html.element("dt", "Trebleproof") + Html.element("dd", version));
    html.append("</dl>\n");
  }

  private void repeat(String state, Recording recording) {
    html.append(Html.element("dt", Sentences.capitalised(state)));
    html.append("<dd>");
    html.append(
        Html.text(
            String.format(
                Locale.ROOT,
                "%s, %.1f s at %.0f Hz, %d bit",
                recording.file().getFileName(),
                recording.seconds(),
                recording.sampleRate(),
                recording.bits())));
    html.append("<br/><span class=\"hash\">");
    html.append(SoundFile.sha256(recording.file())).append("</span></dd>\n");
  }
}

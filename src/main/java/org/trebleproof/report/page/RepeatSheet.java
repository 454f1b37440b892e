package org.trebleproof.report.page;

import java.util.Locale;
import java.util.Optional;
import org.trebleproof.bench.answer.FitResult;
import org.trebleproof.bench.answer.StrikeEvidence;
import org.trebleproof.bench.job.CaptureEntry;
import org.trebleproof.bench.job.Part;
import org.trebleproof.fixture.Fixture;
import org.trebleproof.quantity.Marking;
import org.trebleproof.quantity.TradeNotation;
import org.trebleproof.quantity.Unit;

/** Everything that somebody else needs to repeat the measurement and its analysis. */
final class RepeatSheet {

  private final FitResult result;
  private final String version;
  private final String written;

  /**
   * @param version of the program
   * @param written when the page was written
   */
  RepeatSheet(FitResult result, String version, String written) {
    this.result = result;
    this.version = version;
    this.written = written;
  }

  String html() {
    return "<dl>\n" + fixture() + model() + parts() + "</dl>\n" + captures();
  }

  private String fixture() {
    Fixture fixture = result.job().fixture();
    StringBuilder list = new StringBuilder();
    item(list, "Trebleproof", "version " + version + "; page written on " + written);
    item(list, "Job", String.valueOf(result.job().source().getFileName()));
    if (fixture instanceof Fixture.Series series) {
      item(list, "Fixture", "series resistor " + print(series.seriesResistance(), Unit.OHM));
      item(list, "Channels", channels(series.channels()));
    } else if (fixture instanceof Fixture.Exciter exciter) {
      item(
          list,
          "Fixture",
          "exciter coil, "
              + (exciter.coilFixed() ? "kept in place" : "may have moved between setups"));
      item(list, "Channels", channels(exciter.channels()));
    } else {
      item(list, "Fixture", "pick strikes");
    }
    item(
        list,
        "Recorded on",
        "channel "
            + fixture.deviceChannel()
            + (fixture.referenceChannel() > 0
                ? ", reference on channel " + fixture.referenceChannel()
                : ""));
    item(
        list,
        "Recorder's input",
        print(fixture.input().resistance(), Unit.OHM)
            + " with "
            + print(fixture.input().capacitance(), Unit.FARAD)
            + (fixture.input().stated() ? "" : ", assumed"));
    result
        .job()
        .calibration()
        .ifPresent(
            c ->
                item(
                    list,
                    "Calibration",
                    c.file().getFileName() + ", " + c.device() + ", " + c.date()));
    result
        .job()
        .mainsHz()
        .ifPresent(hz -> item(list, "Mains", String.format(Locale.ROOT, "%.0f Hz", hz)));
    return list.toString();
  }

  private static String channels(Optional<Fixture.ChannelMatch> match) {
    if (match.isEmpty()) {
      return "not compared by loopback; taken as equal within ±2 % and ±2 µs";
    }
    Fixture.ChannelMatch m = match.get();
    return String.format(
        Locale.ROOT,
        "device over reference %.5f ±%s, delay %.3f ±%.3f µs",
        m.ratio().value(),
        Percent.of(m.ratio().tolerance()),
        1e6 * m.delay(),
        1e6 * m.delayHalfWidth());
  }

  private String model() {
    if (result.model().isEmpty()) {
      return "";
    }
    FitResult.ModelChoice model = result.model().get();
    StringBuilder list = new StringBuilder();
    item(
        list,
        "Coil model",
        String.format(
            Locale.ROOT, "%s; reduced chi-square %.2f", model.name(), model.reducedChiSquare()));
    return list.toString();
  }

  private String parts() {
    StringBuilder words = new StringBuilder();
    for (Part part : result.job().parts().values()) {
      boolean farad = part.kind() == Part.Kind.CAPACITOR || part.kind() == Part.Kind.CABLE;
      words.append(words.length() == 0 ? "" : "; ").append(part.name()).append(' ');
      words.append(
          part.marking().map(m -> print(m, farad ? Unit.FARAD : Unit.OHM)).orElse("not marked"));
    }
    StringBuilder list = new StringBuilder();
    item(list, "Parts as marked", words.toString());
    return list.toString();
  }

  private static String print(Marking marking, Unit unit) {
    return TradeNotation.print(marking, unit);
  }

  private String captures() {
    StringBuilder table =
        new StringBuilder(
            "<div class=\"scroll\"><table class=\"captures\">\n<thead><tr>"
                + "<th scope=\"col\">Capture</th><th scope=\"col\">Setup</th>"
                + "<th scope=\"col\">Recording</th><th scope=\"col\">"
                + (result.strikes().isPresent() ? "" : "Distortion, 2nd to 5th")
                + "</th>"
                + "</tr></thead>\n");
    for (CaptureEntry entry : result.job().captures()) {
      table.append("<tbody>\n<tr><th scope=\"row\">" + Html.text(entry.id()) + "</th>");
      String across =
          entry.across().isEmpty() ? "" : ", across the jack: " + String.join(", ", entry.across());
      table.append(Html.element("td", entry.setup() + across));
      Optional<FitResult.CaptureFit> fit =
          result.captures().stream().filter(c -> c.id().equals(entry.id())).findFirst();
      Optional<StrikeEvidence.Capture> strikes =
          result.strikes().stream()
              .flatMap(e -> e.captures().stream())
              .filter(c -> c.id().equals(entry.id()))
              .findFirst();
      table.append(
          Html.element(
              "td",
              fit.map(RepeatSheet::recording)
                  .or(() -> strikes.map(RepeatSheet::recording))
                  .orElse("not used")));
      table.append(Html.element("td", fit.map(RepeatSheet::harmonics).orElse("")));
      table.append("</tr>\n<tr><td></td><td colspan=\"3\" class=\"hash\">");
      table.append(Html.text(String.valueOf(entry.file().getFileName())));
      Optional.ofNullable(result.recorded().get(entry.id()))
          .map(date -> "  " + date.day() + (date.own() ? "" : " (file)"))
          .ifPresent(day -> table.append(Html.text(day)));
      fit.map(FitResult.CaptureFit::sha256)
          .or(() -> strikes.map(StrikeEvidence.Capture::sha256))
          .ifPresent(hash -> table.append(Html.text("  SHA-256 " + hash)));
      table.append("</td></tr>\n</tbody>\n");
    }
    return table.append("</table></div>\n").toString();
  }

  private static String recording(FitResult.CaptureFit capture) {
    return String.format(
        Locale.ROOT,
        "%s kHz, %d bit, %d sweeps",
        TradeNotation.print(capture.sampleRate() / 1000, Unit.RATIO, 5),
        capture.bits(),
        capture.sweeps());
  }

  private static String recording(StrikeEvidence.Capture capture) {
    return String.format(
        Locale.ROOT,
        "%s kHz, %d bit, %d strikes",
        TradeNotation.print(capture.sampleRate() / 1000, Unit.RATIO, 5),
        capture.bits(),
        capture.found());
  }

  private static String harmonics(FitResult.CaptureFit capture) {
    StringBuilder words = new StringBuilder();
    boolean heard = false;
    for (double level : capture.harmonics()) {
      words.append(words.length() == 0 ? "" : ", ");
      words.append(Double.isFinite(level) ? String.format(Locale.ROOT, "%.0f", level) : "–");
      heard |= Double.isFinite(level);
    }
    return heard ? words + " dB" : "below the noise";
  }

  private static void item(StringBuilder list, String term, String words) {
    list.append(Html.element("dt", term)).append(Html.element("dd", words)).append('\n');
  }
}

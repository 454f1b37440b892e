package org.trebleproof.report.page;

import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.trebleproof.bench.FitResult;
import org.trebleproof.bench.job.Job;
import org.trebleproof.bench.job.Part;
import org.trebleproof.bench.job.Setup;
import org.trebleproof.fixture.Fixture;
import org.trebleproof.quantity.Estimate;
import org.trebleproof.quantity.EstimateText;
import org.trebleproof.quantity.Known;
import org.trebleproof.quantity.Marking;
import org.trebleproof.quantity.TradeNotation;
import org.trebleproof.quantity.Unit;
import org.trebleproof.report.plot.Xml;

/**
 * A setup as a circuit, from the string to the recorder, with the values as they are known. Symbols
 * after IEC 60617: a box is a resistance, two plates are a capacitance, humps are an inductance. A
 * part that differs between two setups is set off.
 */
final class CircuitDrawing {

  private static final int RAIL = 62;
  private static final int GROUND = 226;
  private static final int MIDDLE = (RAIL + GROUND) / 2;
  private static final int COLUMN = 124;
  private static final int LONGEST_NAME = 15;
  private static final int LONGEST_VALUE = 15;
  private static final int LINE = 16;

  private final FitResult result;
  private final Setup setup;
  private final String id;
  private final StringBuilder svg = new StringBuilder();
  private int x = 34;
  private int wiredTo = 34;

  private CircuitDrawing(FitResult result, Setup setup, String id) {
    this.result = result;
    this.setup = setup;
    this.id = id;
  }

  /**
   * The drawing as SVG.
   *
   * @param id unique in the page; letters, digits and hyphens
   */
  static String of(FitResult result, Setup setup, String id) {
    return new CircuitDrawing(result, setup, id).draw();
  }

  private String draw() {
    drawCoil();
    if (setup.toneAfterVolume()) {
      drawVolume();
      drawTone();
    } else {
      drawTone();
      drawVolume();
    }
    drawJack();
    drawCable();
    drawInput();
    rail(x - COLUMN);
    path("wire", "M34 " + GROUND + "H" + wiredTo);
    int width = x - 6;
    return String.format(
            Locale.ROOT,
            "<svg class=\"circuit\" viewBox=\"0 0 %d 244\" style=\"max-width:%dpx\" role=\"img\""
                + " aria-labelledby=\"%s-t %s-d\" xmlns=\"http://www.w3.org/2000/svg\">\n",
            width,
            width + 60,
            id,
            id)
        + "<title id=\""
        + id
        + "-t\">"
        + Xml.escaped("Circuit, " + setup.name())
        + "</title>\n<desc id=\""
        + id
        + "-d\">"
        + Xml.escaped(reading())
        + "</desc>\n"
        + svg
        + "</svg>\n";
  }

  /** The drawing in one sentence. */
  private String reading() {
    StringBuilder words = new StringBuilder("The coil feeds ");
    setup
        .volume()
        .ifPresent(pot -> words.append("the volume pot ").append(pot.part()).append(", "));
    setup
        .tone()
        .ifPresent(
            pot ->
                words
                    .append("the tone pot ")
                    .append(pot.part())
                    .append(" with its capacitor ")
                    .append(setup.toneCapacitor().orElse("(none)"))
                    .append(", "));
    setup.cable().ifPresent(cable -> words.append("the cable ").append(cable).append(", "));
    return words.append("and the recorder's input.").toString();
  }

  private void drawCoil() {
    path("wire", "M34 " + GROUND + "V" + (MIDDLE + 13) + "M34 " + (MIDDLE - 13) + "V" + RAIL);
    svg.append("<circle class=\"part\" cx=\"34\" cy=\"" + MIDDLE + "\" r=\"13\"/>\n");
    path("wire open", "M26 " + MIDDLE + "q4 -9 8 0t8 0");
    path("wire", "M34 " + RAIL + "H58");
    path("wire open", "M58 " + RAIL + "a9 9 0 0 1 18 0a9 9 0 0 1 18 0a9 9 0 0 1 18 0");
    coilLabel(58, "coil", "pickup.inductance");
    path("wire", "M112 " + RAIL + "H162");
    box(162, RAIL - 7, 44, 14);
    coilLabel(162, "", "pickup.resistance");
    wiredTo = 206;
    x = 242;
    Optional<Estimate> winding = estimate("pickup.capacitance");
    if (winding.isPresent()) {
      rail(x);
      capacitor(x, MIDDLE, RAIL, GROUND);
      labelUnnamed(x, "winding", EstimateText.full(winding.get()), isGuess(winding.get()));
      dots(x);
      x += COLUMN;
    }
  }

  private void coilLabel(int at, String role, String key) {
    if (!role.isEmpty()) {
      text("role", at, RAIL - 36, role);
    }
    Optional<Estimate> estimate = estimate(key);
    if (estimate.isPresent()) {
      text(
          isGuess(estimate.get()) ? "guess" : "value",
          at,
          RAIL - 20,
          EstimateText.full(estimate.get()));
    }
  }

  private void drawVolume() {
    if (setup.volume().isEmpty()) {
      return;
    }
    Setup.PotUse pot = setup.volume().get();
    rail(x);
    open(pot.part());
    path(
        "wire",
        "M" + x + " " + RAIL + "V" + (MIDDLE - 26) + "M" + x + " " + (MIDDLE + 26) + "V" + GROUND);
    box(x - 7, MIDDLE - 26, 14, 52);
    int wiper = (int) Math.round(MIDDLE + 20 - 40 * pot.rotation());
    path("part open", "M" + (x + 22) + " " + wiper + "H" + (x + 8) + "m5 -4l-5 4l5 4");
    path("wire", "M" + (x + 22) + " " + wiper + "V" + RAIL);
    if (pot.rotation() >= 1) {
      rail(x + 22);
    } else {
      wiredTo = x + 22; // what follows hangs on the wiper
    }
    partLabel(x + 12, MIDDLE + 2, "volume, " + turned(pot.rotation()), pot.part());
    close();
    dots(x);
    x += COLUMN + 30;
  }

  private void drawTone() {
    if (setup.tone().isEmpty()) {
      return;
    }
    Setup.PotUse pot = setup.tone().get();
    rail(x);
    path("wire", "M" + x + " " + RAIL + "V" + (RAIL + 14));
    open(pot.part());
    box(x - 7, RAIL + 14, 14, 40);
    path(
        "part open",
        "M"
            + (x - 20)
            + " "
            + (RAIL + 46)
            + "L"
            + (x - 9)
            + " "
            + (RAIL + 38)
            + "m-6 0.5l6 -0.5l-2 5.6");
    partLabel(x, RAIL + 24, "tone, " + turned(pot.rotation()), pot.part());
    close();
    if (setup.toneCapacitor().isPresent()) {
      open(setup.toneCapacitor().get());
      capacitor(x, GROUND - 44, RAIL + 54, GROUND);
      partLabel(x, GROUND - 64, "", setup.toneCapacitor().get());
      close();
    } else {
      path("wire", "M" + x + " " + (RAIL + 54) + "V" + GROUND);
    }
    dots(x);
    x += COLUMN;
  }

  private void drawJack() {
    int at = x - COLUMN + 74;
    rail(at);
    svg.append("<circle class=\"part\" cx=\"" + at + "\" cy=\"" + RAIL + "\" r=\"4\"/>\n");
    text("role", at - 10, RAIL - 12, "jack");
    wiredTo = at;
    x = at + 44;
  }

  private void drawCable() {
    if (setup.cable().isEmpty()) {
      return;
    }
    rail(x);
    open(setup.cable().get());
    capacitor(x, MIDDLE, RAIL, GROUND);
    partLabel(x, MIDDLE - 12, "cable", setup.cable().get());
    close();
    dots(x);
    x += COLUMN;
  }

  private void drawInput() {
    Fixture.InputLoad input = result.job().fixture().input();
    rail(x);
    path(
        "wire",
        "M" + x + " " + RAIL + "V" + (MIDDLE - 22) + "M" + x + " " + (MIDDLE + 22) + "V" + GROUND);
    box(x - 7, MIDDLE - 22, 14, 44);
    dots(x);
    x += 30;
    rail(x);
    capacitor(x, MIDDLE, RAIL, GROUND);
    labelUnnamed(x, "input", marked(input.resistance(), Unit.OHM), false);
    text("value", x + 16, MIDDLE + 20, marked(input.capacitance(), Unit.FARAD));
    if (!input.stated()) {
      text("guess", x + 16, MIDDLE + 36, "assumed");
    }
    dots(x);
    x += COLUMN;
  }

  private void partLabel(int at, int y, String role, String name) {
    Optional<Estimate> estimate = estimate(name + ".value");
    boolean guess = estimate.isEmpty() || isGuess(estimate.get());
    String value = estimate.map(EstimateText::full).orElseGet(() -> marking(name));
    int below = label(at, y, role, value, guess);
    text("role", at + LINE, below, shortened(name));
    if (guess) {
      text(
          "guess",
          at + LINE,
          below + LINE,
          estimate.isEmpty() && stated(name) ? "as marked" : "assumed");
    }
  }

  private boolean stated(String name) {
    Part part = result.job().parts().get(name);
    return part != null && part.marking().isPresent() && part.marking().get().stated();
  }

  /** Role and value, a long value on two lines; returns where the next line stands. */
  private int label(int at, int y, String role, String value, boolean guess) {
    text("role", at + LINE, y, role);
    int bracket = value.length() > LONGEST_VALUE ? value.indexOf(" (") : -1;
    String style = guess ? "guess" : "value";
    if (bracket < 0) {
      text(style, at + LINE, y + LINE, value);
      return y + 2 * LINE;
    }
    text(style, at + LINE, y + LINE, value.substring(0, bracket));
    text(style, at + LINE, y + 2 * LINE, value.substring(bracket + 1));
    return y + 3 * LINE;
  }

  private void labelUnnamed(int at, String role, String value, boolean guess) {
    int below = label(at, MIDDLE - 12, role, value, guess);
    if (guess) {
      text("guess", at + LINE, below, "assumed");
    }
  }

  private String marking(String name) {
    Part part = result.job().parts().get(name);
    if (part == null || part.marking().isEmpty()) {
      return "";
    }
    boolean capacitance = part.kind() == Part.Kind.CAPACITOR || part.kind() == Part.Kind.CABLE;
    return marked(part.marking().get(), capacitance ? Unit.FARAD : Unit.OHM);
  }

  private static String marked(Marking marking, Unit unit) {
    return TradeNotation.print(marking.value(), unit, 4) + " ±" + Percent.of(marking.tolerance());
  }

  private static String turned(double rotation) {
    return rotation >= 1 ? "full up" : "at " + Percent.of(rotation);
  }

  private static String shortened(String name) {
    return name.length() <= LONGEST_NAME ? name : name.substring(0, LONGEST_NAME - 1) + "…";
  }

  private static boolean isGuess(Estimate estimate) {
    return estimate.known() == Known.ASSUMED;
  }

  private Optional<Estimate> estimate(String key) {
    return result.rows().stream()
        .filter(row -> row.key().equals(key))
        .findFirst()
        .flatMap(FitResult.Row::estimate);
  }

  /** Whether exactly two setups are compared and the other one does without this part. */
  private boolean changed(String part) {
    Job job = result.job();
    if (job.setups().size() != 2) {
      return false;
    }
    return job.setups().values().stream()
        .filter(other -> !other.name().equals(setup.name()))
        .noneMatch(other -> partsOf(other).contains(part));
  }

  private static List<String> partsOf(Setup setup) {
    return java.util.stream.Stream.of(
            setup.volume().map(Setup.PotUse::part),
            setup.tone().map(Setup.PotUse::part),
            setup.toneCapacitor(),
            setup.cable())
        .flatMap(Optional::stream)
        .toList();
  }

  private void open(String part) {
    svg.append(changed(part) ? "<g class=\"changed\">\n" : "<g>\n");
    svg.append("<title>" + Xml.escaped(part) + "</title>\n");
  }

  private void close() {
    svg.append("</g>\n");
  }

  private void rail(int to) {
    if (to > wiredTo) {
      path("wire", "M" + wiredTo + " " + RAIL + "H" + to);
      wiredTo = to;
    }
  }

  private void capacitor(int at, int y, int top, int bottom) {
    path("wire", "M" + at + " " + top + "V" + (y - 4) + "M" + at + " " + (y + 4) + "V" + bottom);
    path("part open", "M" + (at - 10) + " " + (y - 4) + "h20m0 8h-20");
  }

  private void dots(int at) {
    svg.append("<circle class=\"dot\" cx=\"" + at + "\" cy=\"" + RAIL + "\" r=\"2.6\"/>");
    svg.append("<circle class=\"dot\" cx=\"" + at + "\" cy=\"" + GROUND + "\" r=\"2.6\"/>\n");
  }

  private void box(int left, int top, int width, int height) {
    svg.append(
        String.format(
            Locale.ROOT,
            "<rect class=\"part\" x=\"%d\" y=\"%d\" width=\"%d\" height=\"%d\"/>\n",
            left,
            top,
            width,
            height));
  }

  private void path(String style, String d) {
    svg.append("<path class=\"" + style + "\" d=\"" + d + "\"/>\n");
  }

  private void text(String style, int at, int y, String words) {
    if (!words.isEmpty()) {
      svg.append(
          "<text class=\""
              + style
              + "\" x=\""
              + at
              + "\" y=\""
              + y
              + "\">"
              + Xml.escaped(words)
              + "</text>\n");
    }
  }
}

package org.trebleproof.report.page;

import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;
import org.trebleproof.bench.mod.predict.HeardDistance;
import org.trebleproof.report.page.SortedTable.Cell;
import org.trebleproof.report.page.SortedTable.Head;
import org.trebleproof.report.page.SortedTable.Row;
import org.trebleproof.report.plot.FrequencyPlot;
import org.trebleproof.report.words.PairText;
import org.trebleproof.report.words.Sentence;
import org.trebleproof.shelf.item.Circumstances;
import org.trebleproof.shelf.item.ShelvedCoil;
import org.trebleproof.shelf.sheet.CoilPairs;

/** Coils that go together, as a page: pairs, sets, and those that are like one. */
public final class PairsPage {

  private static final int WIDTH = 900;
  private static final int HEIGHT = 340;
  private static final int LOWER = 240;

  /** So many strokes are told apart beside the first. */
  private static final int DRAWN = 5;

  private static final String STEP =
      "A step is just noticed: 1 dB in a third octave, or the smallest shift of the resonance that is"
          + " heard; below it the 95 % interval. All coils in the same usual guitar (250k pots, 22n,"
          + " 500p lead, 1M). How loud a coil is, a sweep does not tell.";

  private final StringBuilder html;

  private PairsPage(String title, String headline, String version, String date) {
    html = new StringBuilder(PageFrame.open(title, "broad"));
    html.append("<section class=\"sheet\">\n<div class=\"masthead\">");
    html.append(Html.element("span", "Trebleproof " + version));
    html.append(Html.element("span", date)).append("</div>\n");
    html.append(Html.element("h1", title)).append('\n');
    html.append("<p class=\"verdict\">" + Html.text(headline) + "</p>\n");
  }

  /**
   * Pairs, the first of them drawn.
   *
   * @param version of the program
   * @param date on which the page is written
   */
  public static String ofPairs(List<CoilPairs.Pair> pairs, String version, String date) {
    PairsPage page =
        new PairsPage(
            "Pairs",
            pairs.isEmpty() ? PairText.NONE : PairText.headline(pairs.get(0)),
            version,
            date);
    if (!pairs.isEmpty()) {
      CoilPairs.Pair best = pairs.get(0);
      page.draw(CoilPlots.over(List.of(best.first(), best.second())), HEIGHT, "levels");
      page.draw(CoilPlots.difference(best.first(), best.second()), LOWER, "difference");
    }
    boolean apart = pairs.stream().anyMatch(p -> p.ratio().isPresent());
    List<Head> heads = new ArrayList<>(List.of(Head.text("coil"), Head.text("with")));
    if (apart) {
      heads.add(Head.number("times the first", "ratio"));
    }
    heads.addAll(heardHeads());
    heads.addAll(List.of(Head.text("first measured"), Head.text("second measured")));
    List<Row> rows = new ArrayList<>();
    for (CoilPairs.Pair pair : pairs) {
      List<Cell> cells = new ArrayList<>();
      cells.add(Cell.text(pair.first().name()));
      cells.add(Cell.text(pair.second().name()));
      if (apart) {
        cells.add(Cell.of(pair.ratio()));
      }
      cells.addAll(heard(pair.distance()));
      cells.add(Cell.text(measured(pair.first())));
      cells.add(Cell.text(measured(pair.second())));
      rows.add(new Row(cells, false));
    }
    return page.closed(heads, rows);
  }

  /**
   * Coils like one, the nearest of them drawn over it.
   *
   * @param coil that they are held against
   * @param pairs of it with each of them, the nearest first
   */
  public static String like(
      ShelvedCoil coil, List<CoilPairs.Pair> pairs, String version, String date) {
    PairsPage page =
        new PairsPage(
            "Like " + coil.name(),
            pairs.isEmpty() ? PairText.NONE : PairText.nearest(pairs.get(0)),
            version,
            date);
    List<ShelvedCoil> drawn =
        Stream.concat(Stream.of(coil), pairs.stream().limit(DRAWN).map(CoilPairs.Pair::second))
            .toList();
    page.draw(CoilPlots.over(drawn), HEIGHT, "levels");
    List<Head> heads = new ArrayList<>(List.of(Head.text("coil")));
    heads.addAll(heardHeads());
    heads.addAll(List.of(Head.text("recipe"), Head.text("measured")));
    List<Row> rows = new ArrayList<>();
    for (CoilPairs.Pair pair : pairs) {
      List<Cell> cells = new ArrayList<>(List.of(Cell.text(pair.second().name())));
      cells.addAll(heard(pair.distance()));
      cells.add(Cell.text(pair.second().recipe()));
      cells.add(Cell.text(measured(pair.second())));
      rows.add(new Row(cells, false));
    }
    return page.closed(heads, rows);
  }

  /** Sets, the closest of them drawn. */
  public static String ofSets(List<CoilPairs.CoilSet> sets, String version, String date) {
    PairsPage page =
        new PairsPage(
            "Sets",
            sets.isEmpty() ? PairText.NONE : PairText.set(sets.get(0)) + ".",
            version,
            date);
    if (!sets.isEmpty()) {
      page.draw(CoilPlots.over(sets.get(0).coils()), HEIGHT, "levels");
    }
    List<Head> heads = new ArrayList<>(List.of(Head.text("set"), Head.text("coils")));
    heads.addAll(heardHeads());
    List<Row> rows = new ArrayList<>();
    for (CoilPairs.CoilSet set : sets) {
      List<Cell> cells = new ArrayList<>();
      cells.add(Cell.text("" + (rows.size() + 1)));
      cells.add(Cell.text(Sentence.listed(set.coils().stream().map(ShelvedCoil::name).toList())));
      cells.addAll(heard(set.widest()));
      rows.add(new Row(cells, false));
    }
    return page.closed(heads, rows);
  }

  private void draw(FrequencyPlot plot, int height, String id) {
    html.append(Figure.of(plot, WIDTH, height, id));
  }

  private String closed(List<Head> heads, List<Row> rows) {
    if (!rows.isEmpty()) {
      html.append(SortedTable.of(heads, List.of(), rows));
    }
    return html.append(Html.element("p", "caption", STEP))
        .append("\n</section>\n")
        .append(SortedTable.script())
        .append(PageFrame.CLOSE)
        .toString();
  }

  private static List<Head> heardHeads() {
    return List.of(
        Head.text("for the ear"), Head.number("steps", "steps"), Head.number("most around", "hz"));
  }

  private static List<Cell> heard(HeardDistance d) {
    return List.of(
        Cell.text(d.audibility().verdict().words()),
        Cell.number(PairText.steps(d), d.steps()),
        PairText.around(d)
            .map(place -> Cell.number(place, d.audibility().loudest().centreHz()))
            .orElseGet(() -> Cell.text("")));
  }

  private static String measured(ShelvedCoil coil) {
    Circumstances c = coil.circumstances();
    return Stream.of(c.bench(), c.date())
        .filter(words -> !words.isEmpty())
        .reduce((bench, day) -> bench + ", " + day)
        .orElse("");
  }
}
